"""The machine's nodes: water, flow of duct and hub, design point, curve, bands, map, states, streamlines."""

from __future__ import annotations

from typing import Any

import numpy as np

from racewright.errors import NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.response import reach
from racewright.flow.result import Axisymmetric, Streamlines
from racewright.flow.streamlines import streamlines
from racewright.ledger.convert import UNIT_KEYS, duct_of, hub_of, unit_of
from racewright.ledger.fastest import fastest_water
from racewright.ledger.map_grid import map_ratios, map_speeds
from racewright.ledger.node import Given, Node
from racewright.ledger.on_load import on_load, with_words
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.scheme.place_tables import WaterTable
from racewright.stage.bands import PowerBands, power_bands
from racewright.stage.curves import speed_ratio_curve
from racewright.stage.operating_point import operating_point
from racewright.stage.performance_map import PerformanceMap, map_of
from racewright.stage.result import OperatingPoint, SpeedRatioCurve, State
from racewright.stage.stage_ready import ready_stage
from racewright.stage.states import machine_states
from racewright.tick import Tick
from racewright.water import Water, properties

PANELS_A_SIDE = 60
"""Duct panels on each of its inner and outer side."""
HUB_PANELS = 60


def _water(given: Given, _tick: Tick) -> Water:
    keys = given.keys["place.water"] or WaterTable().model_dump()
    return properties(keys["temperature"], "sea" if keys["kind"] == "sea" else "fresh")


def _flow(given: Given, tick: Tick) -> Axisymmetric:
    duct_x, duct_r = duct_contour(duct_of(given.keys), PANELS_A_SIDE)
    hub_x, hub_r = hub_contour(hub_of(given.keys), HUB_PANELS)
    rotor_x = given.keys["machine.rotor.place_x"]
    flow = axisymmetric(duct_x, duct_r, hub_x=hub_x, hub_r=hub_r, rotor_x=rotor_x, tick=tick)
    if reach(flow) < 0.3:
        raise NoAnswerError(
            f"the flow through this duct converges only up to a head coefficient of {reach(flow):.2f};"
            " a smoother or less steep duct is wanted"
        )
    return flow


def design_rotor_speed(keys: Any, blades: Row) -> float:
    """Rotor speed at the design stream speed and tip-speed ratio [rad/s]."""
    design = keys["machine.design"]
    return float(design["tip_speed_ratio"] * design["stream_speed"] / blades.radius[-1])


def _design_point(given: Given, _tick: Tick) -> OperatingPoint:
    unit = unit_of(given.keys)
    vanes, blades = given.nodes["rows"]
    turning = design_rotor_speed(given.keys, blades)
    flow, water = given.nodes["flow"], given.nodes["water"]
    return operating_point(unit, vanes, blades, flow, water, unit.design.stream_speed, turning)


def _curve(given: Given, tick: Tick) -> SpeedRatioCurve:
    unit = unit_of(given.keys)
    vanes, blades = given.nodes["rows"]
    ratios = unit.design.tip_speed_ratio * np.linspace(0.4, 1.8, 57)
    flow, water = given.nodes["flow"], given.nodes["water"]
    return speed_ratio_curve(unit, vanes, blades, flow, water, unit.design.stream_speed, ratios, tick=tick)


def _bands(given: Given, _tick: Tick) -> PowerBands:
    vanes, blades = given.nodes["rows"]
    return power_bands(unit_of(given.keys), vanes, blades, given.nodes["flow"], given.nodes["water"])


def _map(given: Given, tick: Tick) -> PerformanceMap:
    """From half the cut-in speed to the fastest water of the place, and from standstill to beyond runaway."""
    unit, site = unit_of(given.keys), given.nodes["site"]
    vanes, blades = given.nodes["rows"]
    stage = ready_stage(unit, vanes, blades, given.nodes["flow"], given.nodes["water"])
    water = fastest_water(site) if site else 0.0
    speeds = map_speeds(given.keys["machine.drive.cut_in_speed"], unit.design.stream_speed, water)
    return map_of(stage, speeds, map_ratios(stage, unit.design.tip_speed_ratio, speeds), tick=tick)


def _states(given: Given, _tick: Tick) -> tuple[State, ...]:
    """At the design speed, and in the fastest water of the place when that is known, on load as the drive runs it."""
    unit = unit_of(given.keys)
    vanes, blades = given.nodes["rows"]
    site = given.nodes["site"]
    speeds = [unit.design.stream_speed]
    if site is not None:
        speeds.append(fastest_water(site))
    at = np.array(speeds)
    brake = given.keys["machine.drive.brake"]
    ratio, words = on_load(given.nodes["control"], at, unit.design.tip_speed_ratio, float(blades.radius[-1]))
    found = machine_states(
        unit,
        vanes,
        blades,
        given.nodes["flow"],
        given.nodes["water"],
        at,
        on_load=ratio,
        brake_torque=brake["torque"] if brake else None,
    )
    return tuple(with_words(state, words) for state in found)


def _streamlines(given: Given, _tick: Tick) -> Streamlines:
    """At the solved load next to the design point."""
    flow, point = given.nodes["flow"], given.nodes["design_point"]
    apart = np.where(flow.converged, np.abs(flow.head_coefficient - point.head_coefficient), np.inf)
    length = given.keys["machine.duct.length"]
    return streamlines(
        flow, int(np.argmin(apart)), count_inside=6, count_outside=6, x_from=-2.5 * length, x_to=4.0 * length
    )


MACHINE_NODES = (
    Node("water", 1, _water, keys=("place.water",)),
    Node("flow", 3, _flow, keys=("machine.duct", "machine.hub", "machine.rotor.place_x"), needs=("machine",)),
    Node("design_point", 2, _design_point, keys=UNIT_KEYS, nodes=("rows", "flow", "water"), needs=("machine",)),
    Node("curve", 2, _curve, keys=UNIT_KEYS, nodes=("rows", "flow", "water"), needs=("machine",)),
    Node(
        "states",
        3,
        _states,
        keys=(*UNIT_KEYS, "machine.drive.brake"),
        nodes=("rows", "flow", "water", "site", "control"),
        needs=("machine",),
    ),
    Node("bands", 1, _bands, keys=UNIT_KEYS, nodes=("rows", "flow", "water"), needs=("machine",)),
    Node(
        "map",
        3,
        _map,
        keys=(*UNIT_KEYS, "machine.drive.cut_in_speed"),
        nodes=("rows", "flow", "water", "site"),
        needs=("machine",),
    ),
    Node(
        "streamlines",
        1,
        _streamlines,
        keys=("machine.duct.length",),
        nodes=("flow", "design_point"),
        needs=("machine",),
    ),
)
