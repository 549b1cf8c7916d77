"""The machine's nodes: flow of duct and hub, rows, design point, curves."""

from __future__ import annotations

import numpy as np

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.flow.streamlines import streamlines
from racewright.ledger.convert import unit_of
from racewright.ledger.findings import MachineFindings
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.machine.unit import Unit
from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.place_tables import WaterTable
from racewright.stage.curves import power_curve, speed_ratio_curve
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.tick import Tick, silent
from racewright.water import Water, properties

PANELS_A_SIDE = 60
"""Duct panels on each of its inner and outer side."""
HUB_PANELS = 60

SPEED_STEP = 0.05
"""Step of the power curve over stream speed [m/s]."""


def water_of(table: WaterTable) -> Water:
    """Water of a place."""
    return properties(table.temperature, "sea" if table.kind == "sea" else "fresh")


def machine_flow(unit: Unit, tick: Tick = silent) -> Axisymmetric:
    """Flow of duct and hub at the ladder of loads."""
    duct_x, duct_r = duct_contour(unit.duct, PANELS_A_SIDE)
    hub_x, hub_r = hub_contour(unit.hub, HUB_PANELS)
    return axisymmetric(duct_x, duct_r, hub_x=hub_x, hub_r=hub_r, rotor_x=unit.blades.place_x, tick=tick)


def machine_findings(
    name: str, table: MachineTable, water: Water, fastest: float, tick: Tick = silent
) -> MachineFindings:
    """Compute one machine in one water.

    Parameters
    ----------
    name : str
        Name of its table.
    table : MachineTable
    water : Water
    fastest : float
        Stream speed up to which the power curve is wanted [m/s].
    tick : Tick
    """
    unit = unit_of(table)
    flow = machine_flow(unit, lambda done: tick(0.6 * done))
    vanes, blades = design_rows(unit, flow, water)
    tick(0.65)
    design = unit.design
    tip_radius = float(blades.radius[-1])
    rotor_speed = design.tip_speed_ratio * design.stream_speed / tip_radius
    point = operating_point(unit, vanes, blades, flow, water, design.stream_speed, rotor_speed)
    tick(0.7)
    ratios = design.tip_speed_ratio * np.linspace(0.4, 1.8, 57)
    curve = speed_ratio_curve(unit, vanes, blades, flow, water, design.stream_speed, ratios)
    tick(0.85)
    speeds = np.arange(0.0, fastest + SPEED_STEP, SPEED_STEP)
    powers = power_curve(unit, vanes, blades, flow, water, speeds)
    lines = streamlines(
        flow,
        int(np.argmin(np.abs(np.where(flow.converged, flow.head_coefficient, np.inf) - point.head_coefficient))),
        count_inside=6,
        count_outside=6,
        x_from=-2.5 * unit.duct.length,
        x_to=4.0 * unit.duct.length,
    )
    tick(1.0)
    return MachineFindings(
        name=name,
        description=table.description,
        unit=unit,
        vanes=vanes,
        blades=blades,
        water=water,
        flow=flow,
        streamlines=lines,
        design_point=point,
        curve=curve,
        power_curve=powers,
    )
