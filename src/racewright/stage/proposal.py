"""A first size of a machine, as the rules of the first sizing propose it."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.remark import Remark
from racewright.stage.sizing_rules import ShapeName
from racewright.uncertainty import Band


@dataclass(frozen=True)
class Proposal:
    """A first size; `proposed_unit` makes a machine of it.

    Attributes
    ----------
    shape : {'mild', 'middle', 'wide'}
        How far the duct opens.
    wanted_power : float
        Electrical power asked for, of all machines together [W].
    machines : int
        How many machines share it [-].
    stream_speed : float
        Stream speed at rated power, which is the design's [m/s].
    throat_diameter, overall_diameter, length : float
        Smallest inner diameter, largest diameter and length of the duct [m].
    exit_area_ratio, duct_thickness : float
        Exit over throat area; thickness over length [-].
    hub_diameter, hub_nose_x, hub_nose_length, hub_cylinder_length, hub_tail_length : float
        The hub along the axis, from the duct's leading edge [m].
    vane_count, blade_count : int
        [-]
    vanes_x, rotor_x : float
        Mid-chords of the rows, from the duct's leading edge [m].
    vane_hub_chord, vane_tip_chord, blade_hub_chord, blade_tip_chord : float
        [m]
    row_thickness : float
        Thickness over chord of vanes and blades [-].
    tip_clearance : float
        Gap at the blade tips [m].
    head_coefficient, tip_speed_ratio : float
        Design CH, and rotor tip speed over stream speed [-].
    speed_ratio, efficiency, drive_efficiency : float
        What the power is reckoned with: u, shaft power over rho dh Q, electrical over shaft power [-].
    power_coefficient, exit_power_coefficient : float
        Shaft power coefficient that follows, on the rotor annulus and on the exit area [-].
    annulus_area, exit_area : float
        [m2]
    expected_power : Band
        Electrical power of one machine with its prior band [W].
    rotor_speed, tip_speed : float
        At rated power [rad/s], [m/s].
    blade_reynolds, vane_reynolds : float
        Chord Reynolds numbers at mid-span [-].
    cavitation_number : float
        At the highest blade tip with the least cover: static pressure there above vapour pressure over half density
        times the relative speed squared [-].
    least_cover, least_bed_clearance : float
        Water wanted above and below the duct [m].
    least_depth : float
        Overall diameter and both [m].
    depth, cover, bed_clearance : float or None
        Water depth, if it was given, and the water then above and below, the spare shared evenly [m].
    remarks : tuple of Remark
    """

    shape: ShapeName
    wanted_power: float
    machines: int
    stream_speed: float
    throat_diameter: float
    overall_diameter: float
    length: float
    exit_area_ratio: float
    duct_thickness: float
    hub_diameter: float
    hub_nose_x: float
    hub_nose_length: float
    hub_cylinder_length: float
    hub_tail_length: float
    vane_count: int
    blade_count: int
    vanes_x: float
    rotor_x: float
    vane_hub_chord: float
    vane_tip_chord: float
    blade_hub_chord: float
    blade_tip_chord: float
    row_thickness: float
    tip_clearance: float
    head_coefficient: float
    tip_speed_ratio: float
    speed_ratio: float
    efficiency: float
    drive_efficiency: float
    power_coefficient: float
    exit_power_coefficient: float
    annulus_area: float
    exit_area: float
    expected_power: Band
    rotor_speed: float
    tip_speed: float
    blade_reynolds: float
    vane_reynolds: float
    cavitation_number: float
    least_cover: float
    least_bed_clearance: float
    least_depth: float
    depth: float | None
    cover: float | None
    bed_clearance: float | None
    remarks: tuple[Remark, ...]
