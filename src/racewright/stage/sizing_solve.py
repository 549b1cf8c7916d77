"""A proposal made into a machine and solved: the power found against the power wanted, the diameter mended."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.stage.proposal import Proposal
from racewright.stage.result import OperatingPoint
from racewright.stage.sizing import largest_throat, proposal_at
from racewright.stage.sizing_rules import SHAPES
from racewright.tick import Tick, silent
from racewright.uncertainty import PRIOR_DUCTED_POWER, Band
from racewright.water import Water

TOLERANCE = 0.02
"""Power found within this share of the power wanted, of one machine [-]."""
PANELS = 40
"""Panels on each side of the duct and on the hub: the speed ratio is within 0.2 % of that of 80."""


@dataclass(frozen=True)
class SizedMachine:
    """A proposal whose diameter the solved stage has settled.

    Attributes
    ----------
    proposal : Proposal
        At the settled diameter; its `expected_power` stays that of the rules.
    unit : Unit
    vanes, blades : Row
    flow : Axisymmetric
        Lengths in m.
    point : OperatingPoint
        At the design stream speed and rotor speed.
    wanted_power, electrical_power : float
        Of one machine: asked for; found [W].
    band : Band
        Electrical power found, with its prior band [W].
    tried_diameter, tried_power : ndarray, shape (n,)
        Throat diameters solved and electrical powers of one machine found [m], [W].
    """

    proposal: Proposal
    unit: Unit
    vanes: Row
    blades: Row
    flow: Axisymmetric
    point: OperatingPoint
    wanted_power: float
    electrical_power: float
    band: Band
    tried_diameter: NDArray[np.float64]
    tried_power: NDArray[np.float64]


def proposed_unit(proposal: Proposal) -> Unit:
    """The machine of a proposal, as `design_rows` takes it."""
    p = proposal
    radius = 0.5 * p.throat_diameter
    return Unit(
        Duct(radius, p.exit_area_ratio, p.length, p.duct_thickness),
        Hub(0.5 * p.hub_diameter, p.hub_nose_x, p.hub_nose_length, p.hub_cylinder_length, p.hub_tail_length),
        RowIntent(p.vane_count, p.vanes_x, p.vane_hub_chord, p.vane_tip_chord, p.row_thickness),
        RowIntent(
            p.blade_count,
            p.rotor_x,
            p.blade_hub_chord,
            p.blade_tip_chord,
            p.row_thickness,
            clearance=p.tip_clearance / (radius - p.tip_clearance),
        ),
        DesignIntent(p.stream_speed, p.head_coefficient, p.tip_speed_ratio),
    )


def proposed_flow(proposal: Proposal, *, panels: int = PANELS, tick: Tick = silent) -> Axisymmetric:
    """Flow through a proposal's duct and hub, lengths in m; `panels` as `PANELS`, 20 to 200."""
    unit = proposed_unit(proposal)
    duct_x, duct_r = duct_contour(unit.duct, panels)
    hub_x, hub_r = hub_contour(unit.hub, panels)
    return axisymmetric(
        duct_x, duct_r, rotor_x=proposal.rotor_x, hub_x=hub_x, hub_r=hub_r, wake_panels=2 * panels, tick=tick
    )


def scaled_flow(flow: Axisymmetric, factor: float) -> Axisymmetric:
    """The same flow through the same machine `factor` times as large: potential flow knows no size."""
    if not (math.isfinite(factor) and factor > 0.0):
        raise InputError(f"{factor} is not a scale; give a number above 0", key="factor")
    lengths = ("station_radius", "duct_x", "duct_r", "hub_x", "hub_r", "wake_x", "wake_r", "channel_x")
    grown = {name: getattr(flow, name) * factor for name in lengths}
    return replace(
        flow,
        **grown,
        annulus_area=flow.annulus_area * factor**2,
        rotor_x=flow.rotor_x * factor,
        channel_radius=flow.channel_radius * factor,
    )


def sized_machine(
    proposal: Proposal, water: Water, *, flow: Axisymmetric | None = None, tick: Tick = silent
) -> SizedMachine:
    """Solve the proposal's stage and mend its diameter until the power is within 2 % of the wanted one.

    Parameters
    ----------
    proposal : Proposal
        From `first_size`.
    water : Water
        The same as there.
    flow : Axisymmetric, optional
        Flow through this shape at any size (its throat diameter follows from the duct's least radius); solved
        here without it.
    tick : callable
        Progress and cancel.

    Raises
    ------
    NoAnswerError
        The rows cannot be made, or the diameter does not settle in eight steps.
    """
    found = proposed_flow(proposal, tick=tick) if flow is None else flow
    form = SHAPES[proposal.shape]
    most = largest_throat(form, proposal.stream_speed, proposal.depth)
    base = float(found.rotor_x) / proposal.rotor_x * proposal.throat_diameter
    now = proposal
    diameters: list[float] = []
    powers: list[float] = []
    for _ in range(8):
        unit, here = proposed_unit(now), scaled_flow(found, now.throat_diameter / base)
        vanes, blades = design_rows(unit, here, water)
        turning = now.tip_speed_ratio * now.stream_speed / float(blades.radius[-1])
        point = operating_point(unit, vanes, blades, here, water, now.stream_speed, turning)
        power, wanted = point.shaft_power * now.drive_efficiency, now.wanted_power / now.machines
        diameters.append(now.throat_diameter)
        powers.append(power)
        if abs(power / wanted - 1.0) <= TOLERANCE:
            half = PRIOR_DUCTED_POWER * power
            band = Band(power - half, power, power + half, "prior band of ducted power, +-25 %")
            tried = np.array(diameters), np.array(powers)
            return SizedMachine(now, unit, vanes, blades, here, point, wanted, power, band, *tried)
        machines, diameter = now.machines, now.throat_diameter * math.sqrt(wanted / power)
        if diameter > most:
            possible = power * (most / now.throat_diameter) ** 2
            if possible < (1.0 - 0.9 * TOLERANCE) * wanted:
                machines = math.ceil(now.wanted_power / possible)
            diameter = min(now.throat_diameter * math.sqrt(now.wanted_power / machines / power), most)
        now = proposal_at(
            diameter,
            now.wanted_power,
            machines,
            now.stream_speed,
            water,
            now.depth,
            now.shape,
            now.drive_efficiency,
        )
    raise NoAnswerError(f"The diameter did not settle: {powers[-1]:.4g} W found at {diameters[-1]:.4g} m.")
