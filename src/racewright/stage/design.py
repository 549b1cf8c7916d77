"""Rows shaped for the design intent: free vortex, axial exit, leading edges along the flow."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.errors import InputError, NoAnswerError
from racewright.flow.response import FlowTable
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import RowIntent, Unit
from racewright.stage.annulus import annulus
from racewright.stage.end_wall import DEFAULT_END_WALL, END_WALLS
from racewright.stage.root import bracketed_root
from racewright.stage.row_flow import turning
from racewright.stage.solve import Trial, trial_at
from racewright.stage.stage_ready import Stage, ready_stage
from racewright.stage.two_rows import disc_speeds, ready_row
from racewright.water import Water

Floats = NDArray[np.float64]
DENSEST = 3.0
"""Largest chord over pitch that a row is designed with, about the row factor's proven range [-]."""
_CAMBER_LIMIT = math.radians(99.0)
_CAMBER_STEP = math.radians(10.0)
"""The camber is sought from none outwards, so that the least that serves is taken."""


def design_rows(unit: Unit, flow: Axisymmetric, water: Water, *, sections: int = 5) -> tuple[Row, Row]:
    """Vanes and blades for the design intent, then turned as the intent says.

    Both rows: the camber line's leading edge lies along the flow that reaches it (no metal incidence), and
    camber is what the row model needs for the wanted exit angle, drag counted. Vanes give r Cth = K at
    every radius, blades take it to zero; K is found so that work and row losses together are the intended
    head.

    Parameters
    ----------
    unit : Unit
    flow : Axisymmetric
        Lengths in m; its first and last rotor stations are hub and wall.
    water : Water
    sections : int
        Evenly spaced from hub to tip, 3 to 30.

    Returns
    -------
    (Row, Row)
        Vanes and blades. Without `turned`, the operating point at the design speeds returns the intended CH.

    Raises
    ------
    InputError
        For intents outside their ranges.
    NoAnswerError
        Where the intended head is above the flow's reach, or the chords cannot turn the flow so far.
    """
    _check(unit, sections)
    intent = unit.design
    hub, wall = float(flow.station_radius[0]), float(flow.station_radius[-1])
    blades_tip = wall / (1.0 + unit.blades.clearance)
    rotor_speed = intent.tip_speed_ratio * intent.stream_speed / blades_tip
    head = 0.5 * intent.head_coefficient * intent.stream_speed**2
    vane_shape = _blank("vanes", unit.vanes, hub, wall, sections)
    blade_shape = _blank("blades", unit.blades, hub, wall, sections)
    annulus(flow, vane_shape, blade_shape)
    table = FlowTable(flow)
    first = table.at(np.array([intent.head_coefficient]))
    mean = float(first.speed_ratio[0]) * intent.stream_speed
    vane_speed = mean * CubicSpline(flow.station_radius, first.profile[0])(vane_shape.radius)
    axial = mean * CubicSpline(flow.station_radius, first.profile[0])(blade_shape.radius)
    wheel = rotor_speed * blade_shape.radius
    stream, turn = np.array([intent.stream_speed]), np.array([rotor_speed])

    load, swirl, slope, last = intent.head_coefficient, head / rotor_speed, rotor_speed, None
    for _ in range(60):
        vanes = _shaped(
            vane_shape, np.zeros(sections), swirl / vane_shape.radius / vane_speed, vane_speed, unit, water
        )
        before = (swirl / blade_shape.radius - wheel) / axial
        blades = _shaped(blade_shape, before, -wheel / axial, axial, unit, water)
        stage = ready_stage(unit, vanes, blades, flow, water, table=table)
        trial = trial_at(stage, stream, turn, np.array([load]))
        miss = head - float(trial.rows.head_drop[0])
        wanted = float(trial.load[0]) + miss / (0.5 * intent.stream_speed**2)
        if abs(miss) <= 1e-12 * head and abs(wanted - load) <= 1e-12:
            return _turned(vanes, unit.vanes), _turned(blades, unit.blades)
        if last is not None and abs(swirl - last[0]) > 1e-13 * swirl:
            slope = min(max((last[1] - miss) / (swirl - last[0]), 0.5 * rotor_speed), 2.0 * rotor_speed)
        last = (swirl, miss)
        swirl += miss / slope
        load = wanted
        vane_speed, axial = _speeds(stage, trial, intent.stream_speed, rotor_speed, swirl, vane_shape, blade_shape)
    raise NoAnswerError(f"The rows' swirl did not settle: the head is off by {miss / head:.2g} of itself.")


def _speeds(
    stage: Stage,
    trial: Trial,
    stream_speed: float,
    rotor_speed: float,
    swirl: float,
    vane_shape: Row,
    blade_shape: Row,
) -> tuple[Floats, Floats]:
    """Axial speeds at the sections of both rows for the intended vortex, with the losses that the trial found."""
    stations, rows = stage.annulus, trial.rows
    duct = stations.axial_speed(trial.flow.profile, trial.flow.speed_ratio * stream_speed)
    first, second = (one.profile_loss + one.clearance_loss + one.end_wall_loss for one in (rows.vanes, rows.blades))
    vortex = np.broadcast_to(swirl / stations.radius, duct.shape)
    dropped = first + second + rotor_speed * swirl
    vane_speed, speed = disc_speeds(stations, duct, vortex, first, np.zeros_like(duct), dropped, stage.reach)
    both = np.stack([vane_speed[0, stations.shown], speed[0, stations.shown]], axis=1)
    line = CubicSpline(stations.radius[stations.shown], both)
    return line(vane_shape.radius)[:, 0], line(blade_shape.radius)[:, 1]


def _blank(kind: str, intent: RowIntent, hub: float, wall: float, sections: int) -> Row:
    tip = wall / (1.0 + intent.clearance)
    radius = np.linspace(hub, tip, sections)
    chord = np.linspace(intent.hub_chord, intent.tip_chord, sections)
    nothing = np.zeros(sections)
    densest = float(np.max(chord * intent.count / (2.0 * np.pi * radius)))
    if densest > DENSEST:
        raise InputError(
            f"{intent.count} {kind} of {chord[0]:.3g} to {chord[-1]:.3g} m chord fill {densest:.1f} pitches; "
            f"a row may reach {DENSEST:g}: fewer or shorter {kind} would do.",
            key=f"{kind}.count",
        )
    return Row(
        "vanes" if kind == "vanes" else "blades",
        intent.count,
        intent.place_x,
        radius,
        chord,
        nothing,
        nothing,
        np.full(sections, intent.thickness),
        intent.clearance * tip,
    )


def _with(row: Row, stagger: Floats, camber: Floats) -> Row:
    return replace(row, stagger=stagger, camber=camber)


def _turned(row: Row, intent: RowIntent) -> Row:
    return _with(row, row.stagger + intent.turned, row.camber)


def _shaped(row: Row, tangent_in: Floats, tangent_out: Floats, axial_speed: Floats, unit: Unit, water: Water) -> Row:
    """Camber, and stagger = inflow angle + camber/2, that turn the flow from one relative tangent to the
    other.
    """
    mean = 0.5 * (tangent_in + tangent_out)
    inlet = np.arctan(tangent_in)

    def shape(camber: Floats) -> Row:
        limit = math.radians(89.0)
        return _with(row, np.clip(inlet + 0.5 * camber, -limit, limit), camber)

    def short(camber: Floats) -> Floats:
        ready = ready_row(shape(camber), row.radius, unit.roughness, end_wall=END_WALLS[DEFAULT_END_WALL])
        return turning(ready, axial_speed, mean, water.viscosity, tangent_in) - (tangent_out - tangent_in)

    near = np.zeros(row.radius.shape)
    need = short(near)
    step = np.where(need > 0.0, -_CAMBER_STEP, _CAMBER_STEP)
    far, open_ = near, np.ones(near.shape, dtype=bool)
    while np.any(open_) and np.max(np.abs(far)) < _CAMBER_LIMIT:
        near, far = np.where(open_, far, near), np.where(open_, far + step, far)
        open_ &= short(far) * need > 0.0
    if np.any(open_):
        worst = int(np.argmax(open_))
        raise NoAnswerError(
            f"The {row.kind} cannot turn the flow from {math.degrees(inlet[worst]):.1f} to "
            f"{math.degrees(math.atan(tangent_out[worst])):.1f} degrees at radius {row.radius[worst]:.3f} m "
            f"with a chord of {row.chord[worst]:.3f} m: more or longer {row.kind}, a faster rotor "
            "or less head would do."
        )
    return shape(bracketed_root(short, near, far, tolerance=1e-14))


def _check(unit: Unit, sections: int) -> None:
    if not 3 <= sections <= 30:
        raise InputError(f"A row is designed at 3 to 30 sections; found {sections}.")
    design = unit.design
    for name, value, low, high in (
        ("design.stream_speed", design.stream_speed, 1e-3, 20.0),
        ("design.head_coefficient", design.head_coefficient, 0.05, 0.9),
        ("design.tip_speed_ratio", design.tip_speed_ratio, 0.5, 8.0),
    ):
        if not (math.isfinite(value) and low <= value <= high):
            raise InputError(f"{name} must lie between {low:g} and {high:g}; found {value}.", key=name)
    for key, row in (("vanes", unit.vanes), ("blades", unit.blades)):
        if not 2 <= row.count <= 30:
            raise InputError(f"A row has 2 to 30 {key}; found {row.count}.", key=f"{key}.count")
        for name, value, low, high in (
            ("hub_chord", row.hub_chord, 1e-4, 100.0),
            ("tip_chord", row.tip_chord, 1e-4, 100.0),
            ("thickness", row.thickness, 0.02, 0.3),
            ("clearance", row.clearance, 0.0, 0.1),
            ("turned", row.turned, -1.0, 1.0),
        ):
            if not (math.isfinite(value) and low <= value <= high):
                raise InputError(
                    f"{name} of the {key} must lie between {low:g} and {high:g}; found {value}.",
                    key=f"{key}.{name}",
                )
