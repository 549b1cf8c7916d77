"""Operating point: the head that the rows take and the flow that the duct lets through, until both agree."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.response import FlowAt, reach, response_at
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.annulus import Annulus, annulus
from racewright.stage.free_vortex import triangles
from racewright.stage.point_remarks import point_remarks
from racewright.stage.result import Losses, OperatingPoint
from racewright.stage.root import bracketed_root
from racewright.stage.row_flow import ReadyRow
from racewright.stage.two_rows import TwoRows, ready_row, two_rows
from racewright.tick import Tick, silent
from racewright.uncertainty import PRIOR_DUCTED_POWER, Band
from racewright.water import Water

Floats = NDArray[np.float64]
RESIDUAL = 1e-10
"""Largest mismatch of CH at a converged point [-]."""


@dataclass(frozen=True)
class Stage:
    """A machine made ready for many operating points; from `ready_stage`."""

    unit: Unit
    flow: Axisymmetric
    water: Water
    annulus: Annulus
    vanes: ReadyRow
    blades: ReadyRow
    tip_radius: float


def ready_stage(unit: Unit, vanes: Row, blades: Row, flow: Axisymmetric, water: Water) -> Stage:
    """Do once what does not depend on the operating point; arguments as `operating_point`."""
    stations = annulus(flow, vanes, blades)
    first = ready_row(vanes, stations.radius, unit.roughness)
    second = ready_row(blades, stations.radius, unit.roughness)
    return Stage(unit, flow, water, stations, first, second, float(blades.radius[-1]))


def operating_point(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    stream_speed: float,
    rotor_speed: float,
    *,
    tick: Tick = silent,
) -> OperatingPoint:
    """Operating point at one stream speed and rotor speed.

    Parameters
    ----------
    unit : Unit
        Duct and roughness are used here; the rows stand for themselves.
    vanes, blades : Row
    flow : Axisymmetric
        Lengths in m.
    water : Water
    stream_speed : float
        > 0 [m/s].
    rotor_speed : float
        0 (held) or more [rad/s].
    tick : callable
        Progress and cancel, called once per trial of CH.

    Returns
    -------
    OperatingPoint
        |residual| <= 1e-10. Shaft power may be negative (the rotor is driven); its band then reaches both
        ways.

    Raises
    ------
    InputError
        For speeds outside their ranges, or rows that do not fit the flow.
    NoAnswerError
        Where the rows want more head than the flow's reach, or give head to the water (braking).
    """
    return solve_stage(ready_stage(unit, vanes, blades, flow, water), stream_speed, rotor_speed, tick=tick)


def solve_stage(stage: Stage, stream_speed: float, rotor_speed: float, *, tick: Tick = silent) -> OperatingPoint:
    """`operating_point` of a stage made ready."""
    if not (math.isfinite(stream_speed) and stream_speed > 0.0):
        raise InputError(f"The stream speed must be above 0 m/s; found {stream_speed}.")
    if not (math.isfinite(rotor_speed) and rotor_speed >= 0.0):
        raise InputError(f"The rotor speed must be 0 rad/s or more; found {rotor_speed}.")
    stream_speed, rotor_speed = float(stream_speed), float(rotor_speed)
    half = 0.5 * stream_speed**2
    tried = 0

    def excess(trial: Floats) -> Floats:
        nonlocal tried
        tick(min(0.99, tried / 12.0))
        tried += 1
        rows, _ = rows_at(stage, stream_speed, rotor_speed, float(trial[0]))
        return np.array([rows.head_drop / half - float(trial[0])])

    top = reach(stage.flow)
    least, most = np.array([0.0]), np.array([top])
    told = f"At {stream_speed:.3g} m/s and {rotor_speed:.3g} rad/s"
    if excess(least)[0] < 0.0:
        raise NoAnswerError(
            f"{told} the rotor gives head to the water instead of taking it (braking): no state with a head "
            "drop exists."
        )
    if excess(most)[0] > 0.0:
        raise NoAnswerError(
            f"{told} the rows take more head than the flow's reach, CH {top:.3f}: the duct is clogged there."
        )
    root = float(bracketed_root(excess, least, most, tolerance=1e-13)[0])
    rows, at = rows_at(stage, stream_speed, rotor_speed, root)
    tick(1.0)
    return _point(stage, stream_speed, rotor_speed, root, rows, at)


def rows_at(stage: Stage, stream_speed: float, rotor_speed: float, head_coefficient: float) -> tuple[TwoRows, FlowAt]:
    """Both rows in the flow of a given head coefficient, whether or not it is the one that they take."""
    at = response_at(stage.flow, head_coefficient)
    speed = stage.annulus.axial_speed(at.profile, at.speed_ratio * stream_speed)
    rows = two_rows(stage.annulus, stage.vanes, stage.blades, speed, rotor_speed, stage.water.viscosity)
    return rows, at


def _point(
    stage: Stage, stream_speed: float, rotor_speed: float, head_coefficient: float, rows: TwoRows, at: FlowAt
) -> OperatingPoint:
    half, density = 0.5 * stream_speed**2, stage.water.density
    area = float(np.sum(stage.annulus.area))
    torque = density * rows.torque
    power = torque * rotor_speed
    thrust = density * rows.flow_rate * stream_speed * (1.0 - at.far_wake_speed)
    dynamic = density * half * area
    duct = stage.unit.duct
    exit_area = math.pi * duct.throat_radius**2 * duct.exit_area_ratio
    power_coefficient = power / (dynamic * stream_speed)
    exit_coefficient = power_coefficient * area / exit_area
    shown = stage.annulus.shown
    available = density * rows.head_drop * rows.flow_rate
    residual = rows.head_drop / half - head_coefficient
    width = PRIOR_DUCTED_POWER * abs(power)
    vane_state, blade_state = rows.vanes.response.state[shown], rows.blades.response.state[shown]
    blade_reynolds, vane_reynolds = rows.blades.reynolds[shown], rows.vanes.reynolds[shown]
    return OperatingPoint(
        stream_speed=stream_speed,
        rotor_speed=rotor_speed,
        tip_speed_ratio=rotor_speed * stage.tip_radius / stream_speed,
        head_coefficient=head_coefficient,
        speed_ratio=at.speed_ratio,
        flow_rate=rows.flow_rate,
        head_drop=rows.head_drop,
        torque=torque,
        shaft_power=power,
        thrust=thrust,
        power_coefficient=power_coefficient,
        thrust_coefficient=thrust / dynamic,
        exit_power_coefficient=exit_coefficient,
        hydraulic_efficiency=power / available if available > 0.0 else 0.0,
        roll_moment=density * rows.flow_rate * rows.swirl_exit,
        swirl_exit=rows.swirl_exit,
        triangles=triangles(
            stage.annulus.radius[shown],
            rotor_speed,
            rows.axial_speed[shown],
            rows.swirl_in[shown],
            rows.swirl_out[shown],
        ),
        losses=Losses(
            rows.vane_loss / half,
            rows.blade_loss / half,
            rows.clearance_loss / half,
            rows.exit_swirl_energy / half,
        ),
        blade_reynolds=blade_reynolds,
        vane_reynolds=vane_reynolds,
        vane_state=vane_state,
        blade_state=blade_state,
        band=Band(power - width, power, power + width, "prior band of ducted power, +-25 %, until a test calibrates"),
        converged=abs(residual) <= RESIDUAL,
        residual=residual,
        remarks=point_remarks(
            exit_power_coefficient=exit_coefficient,
            shaft_power=power,
            vane_state=vane_state,
            blade_state=blade_state,
            least_reynolds=float(min(np.min(blade_reynolds), np.min(vane_reynolds))),
            clearance=float(stage.blades.sections.gap[0] * stage.blades.chord[0]) / stage.tip_radius,
            head=rows.head[shown],
            residual=residual,
        ),
    )
