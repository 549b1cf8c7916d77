"""Numbers of one solved step by which it is set beside another."""

from __future__ import annotations

import math

import numpy as np

from racewright.growth.specific_numbers import GRAVITY, SpecificNumbers, specific_numbers
from racewright.growth.step import SolvedStep
from racewright.machine.drive_mass import direct_drive_mass
from racewright.machine.duct_contour import duct_contour
from racewright.machine.over_radius import row_at
from racewright.passage.edge import edge_thickness
from racewright.stage.cavitation import cavitation_number
from racewright.stage.cover import drawing_air_cover

_PANELS = 60
_DRIVE_TORQUES = (1.0, 1e7)
"""Torques that the packaged mass line knows [N m]."""


def outer_radius(solved: SolvedStep) -> float:
    """Largest radius of the duct [m]."""
    return float(duct_contour(solved.step.unit.duct, _PANELS)[1].max())


def blade_chord(solved: SolvedStep) -> float:
    """Of the blades at mid-span [m]."""
    blades = solved.step.blades
    middle = 0.5 * (blades.radius[0] + blades.radius[-1])
    return float(row_at(blades, np.array([middle])).chord[0])


def blade_reynolds(solved: SolvedStep) -> float:
    """Chord Reynolds number of the blades, mean over the span [-]."""
    return float(np.mean(solved.point.blade_reynolds))


def tip_relative_speed(solved: SolvedStep) -> float:
    """Of the water that reaches the blade tips against them [m/s]."""
    seen = solved.point.triangles
    return float(math.hypot(seen.axial_speed[-1], seen.swirl_in[-1] - seen.blade_speed[-1]))


def strike_energy(solved: SolvedStep) -> float:
    """Energy of a blade tip against a drifting fish, per mass of fish, W^2/2 [J/kg]."""
    return 0.5 * tip_relative_speed(solved) ** 2


def tip_cavitation_number(solved: SolvedStep) -> float | None:
    """At the highest blade tip behind the rotor, throat speed and head drop taken off; None without a hub depth [-].

    Negative where the pressure is below the vapour's. A tip above the surface stands at depth 0.
    """
    depth, point, water = solved.step.place.hub_depth, solved.point, solved.step.water
    if depth is None:
        return None
    half = 0.5 * water.density * point.stream_speed**2
    throat = -half * (point.speed_ratio**2 - 1.0 + point.head_coefficient)
    tip = float(solved.step.blades.radius[-1])
    relative = math.hypot(point.speed_ratio * point.stream_speed, point.rotor_speed * tip)
    under = max(depth - tip, 0.0)
    return cavitation_number(under, relative, water.density, water.vapour_pressure, throat_pressure=throat)


def depth_froude(solved: SolvedStep) -> float | None:
    """Stream speed over the root of gravity times water depth; None without a depth [-]."""
    depth = solved.step.place.depth
    return None if depth is None else solved.point.stream_speed / math.sqrt(GRAVITY * depth)


def size_froude(solved: SolvedStep) -> float:
    """Stream speed over the root of gravity times throat diameter [-]."""
    return solved.point.stream_speed / math.sqrt(GRAVITY * solved.step.throat_diameter)


def cover_share(solved: SolvedStep) -> float | None:
    """Cover over the least one against drawing air; None without a hub depth or where no air is drawn [-]."""
    depth = solved.step.place.hub_depth
    point = solved.point
    least = drawing_air_cover(point.speed_ratio, min(point.head_coefficient, 1.0), point.stream_speed)
    if depth is None or least == 0.0:
        return None
    return (depth - outer_radius(solved)) / least


def blockage(solved: SolvedStep) -> float | None:
    """Duct's largest circle over the channel's area, 0 in open water; None where neither is given [-]."""
    area = solved.step.place.channel_area
    if solved.step.place.open_water:
        return 0.0
    return None if area is None else math.pi * outer_radius(solved) ** 2 / area


def gap_share(solved: SolvedStep) -> float:
    """Tip clearance over blade chord at mid-span [-]."""
    return float(solved.step.blades.clearance / blade_chord(solved))


def roughness_share(solved: SolvedStep) -> float:
    """Sand roughness over blade chord at mid-span [-]."""
    return solved.step.unit.roughness / blade_chord(solved)


def fish_over_chord(solved: SolvedStep) -> float | None:
    """Fish length over blade chord at mid-span; None without a fish length [-]."""
    long = solved.step.place.fish_length
    return None if long is None else long / blade_chord(solved)


def fish_over_edge(solved: SolvedStep) -> float | None:
    """Fish length over the thickness of a blade's edge at the tip; None without a fish, or where it is sharp [-]."""
    long, blades = solved.step.place.fish_length, solved.step.blades
    edge = float(edge_thickness(blades, blades.radius[-1:])[0])
    return None if long is None or edge == 0.0 else long / edge


def drive_mass_share(solved: SolvedStep) -> float | None:
    """Mass of a slow generator for the torque, middle of its range, over shaft power; None off its line [kg/W]."""
    torque, power = solved.point.torque, solved.point.shaft_power
    low, high = _DRIVE_TORQUES
    return direct_drive_mass(torque).mass.value / power if power > 0.0 and low <= torque <= high else None


def step_specific_numbers(solved: SolvedStep) -> SpecificNumbers:
    """Specific numbers of the stage on its tip diameter; InputError where it gives no power."""
    point = solved.point
    return specific_numbers(
        point.rotor_speed,
        point.flow_rate,
        point.head_drop,
        point.shaft_power,
        2.0 * float(solved.step.blades.radius[-1]),
        solved.step.water.density,
    )
