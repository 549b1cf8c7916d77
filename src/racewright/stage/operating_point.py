"""Operating point: the load that rows and walls make and the flow that the duct lets through, both in agreement."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.cavitation import lowest_pressure
from racewright.stage.end_spread import end_spread
from racewright.stage.forces import forces
from racewright.stage.free_vortex import triangles
from racewright.stage.outside_book import outside_book
from racewright.stage.parts import Forces, HubCore, OutsideBook
from racewright.stage.point_remarks import point_remarks
from racewright.stage.result import Losses, OperatingPoint, SectionState
from racewright.stage.row_model import Response
from racewright.stage.solve import RESIDUAL, Solved, solve_many
from racewright.stage.stage_ready import Stage, ready_stage
from racewright.tick import Tick, silent
from racewright.uncertainty import PRIOR_DUCTED_POWER, Band
from racewright.water import Water

Floats = NDArray[np.float64]
_Part = TypeVar("_Part", Forces, HubCore, OutsideBook)

__all__ = ["RESIDUAL", "Stage", "operating_point", "points_of", "ready_stage", "solve_stage"]


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
        Progress and cancel, called once per trial of the load.

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
        Where the rows give head to the water (braking), or want more than a flow that was cut short can answer.
    """
    return solve_stage(ready_stage(unit, vanes, blades, flow, water), stream_speed, rotor_speed, tick=tick)


def solve_stage(
    stage: Stage, stream_speed: float, rotor_speed: float, *, resistance: float = 0.0, tick: Tick = silent
) -> OperatingPoint:
    """`operating_point` of a stage made ready; `resistance` of debris as in `solve_many` [-]."""
    solved = solve_many(
        stage, np.array([stream_speed]), np.array([rotor_speed]), resistance=np.array([resistance]), tick=tick
    )
    if not solved.answered[0]:
        told = f"At {stream_speed:.3g} m/s and {rotor_speed:.3g} rad/s"
        if solved.braking[0]:
            raise NoAnswerError(
                f"{told} the rotor gives head to the water instead of taking it (braking): no state with a head "
                "drop exists."
            )
        raise NoAnswerError(
            f"{told} the rows take more head than the flow's reach, {stage.table.limit:.3f}, and it was cut too "
            "short to be closed above."
        )
    return points_of(stage, solved)[0]


def points_of(stage: Stage, solved: Solved) -> tuple[OperatingPoint, ...]:
    """The answered points, with all that is known of each."""
    trial = solved.trial
    rows = trial.rows
    found = forces(stage, solved)
    books = outside_book(stage, solved, found)
    lowest = lowest_pressure(stage, solved, found)
    ends = end_spread(stage, solved)
    density, area = stage.water.density, float(np.sum(stage.annulus.area))
    duct = stage.unit.duct
    exit_area = math.pi * duct.throat_radius**2 * duct.exit_area_ratio
    shown = stage.annulus.shown
    points = []
    for i, (speed, rotor) in enumerate(zip(solved.stream_speed.tolist(), solved.rotor_speed.tolist(), strict=True)):

        def one(values: Floats, i: int = i) -> float:
            return float(values[i])

        half = 0.5 * speed**2
        rate, torque = one(rows.flow_rate), density * one(rows.torque)
        power, thrust = torque * rotor, one(found.thrust)
        dynamic = density * half * area
        coefficient = power / (dynamic * speed)
        available = density * one(rows.head_drop) * rate
        width = PRIOR_DUCTED_POWER * abs(power)
        vane_state = _states(rows.vanes.response, i, shown)
        blade_state = _states(rows.blades.response, i, shown)
        blade_reynolds, vane_reynolds = rows.blades.reynolds[i, shown], rows.vanes.reynolds[i, shown]
        closed = bool(trial.flow.closed[i])
        core = _part(HubCore, found.core, i)
        points.append(
            OperatingPoint(
                stream_speed=speed,
                rotor_speed=rotor,
                tip_speed_ratio=rotor * stage.tip_radius / speed,
                head_coefficient=one(trial.head_coefficient),
                speed_ratio=one(trial.flow.speed_ratio),
                flow_rate=rate,
                head_drop=one(rows.head_drop),
                torque=torque,
                shaft_power=power,
                thrust=thrust,
                power_coefficient=coefficient,
                thrust_coefficient=thrust / dynamic,
                exit_power_coefficient=coefficient * area / exit_area,
                hydraulic_efficiency=power / available if available > 0.0 else 0.0,
                roll_moment=density * rate * one(rows.swirl_exit),
                swirl_exit=one(rows.swirl_exit),
                triangles=triangles(
                    stage.annulus.radius[shown],
                    rotor,
                    rows.axial_speed[i, shown],
                    rows.swirl_in[i, shown],
                    rows.swirl_out[i, shown],
                ),
                losses=Losses(
                    one(rows.vane_loss) / half,
                    one(rows.blade_loss) / half,
                    one(rows.clearance_loss) / half,
                    one(rows.exit_swirl_energy) / half,
                    one(rows.end_wall_loss) / half,
                    one(ends[0]) / half,
                    one(ends[1]) / half,
                ),
                blade_reynolds=blade_reynolds,
                vane_reynolds=vane_reynolds,
                vane_state=vane_state,
                blade_state=blade_state,
                band=Band(
                    power - width, power, power + width, "prior band of ducted power, +-25 %, until a test calibrates"
                ),
                converged=abs(one(solved.residual)) <= RESIDUAL,
                residual=one(solved.residual),
                remarks=point_remarks(
                    exit_power_coefficient=coefficient * area / exit_area,
                    shaft_power=power,
                    vane_state=vane_state,
                    blade_state=blade_state,
                    least_reynolds=float(min(np.min(blade_reynolds), np.min(vane_reynolds))),
                    clearance=float(stage.blades.sections.gap[0] * stage.blades.chord[0]) / stage.tip_radius,
                    head=rows.head[i, shown],
                    residual=one(solved.residual),
                    closed_above=stage.table.reach if closed else None,
                    load=one(solved.load),
                    unsettled=one(rows.unsettled),
                    breakdown=core.breakdown,
                ),
                load=one(solved.load),
                friction_load=one(trial.friction.duct_load + trial.friction.hub_load),
                swirl_load=one(trial.swirl_load),
                debris_load=one(trial.debris_load),
                flow_state="closure" if closed else "solved",
                forces=_part(Forces, found, i),
                hub_core=core,
                lowest_pressure=one(lowest),
                book=_part(OutsideBook, books, i),
            )
        )
    return tuple(points)


def _states(response: Response, i: int, shown: slice) -> tuple[SectionState, ...]:
    """States of the shown sections at point i; stalled goes before extrapolated."""
    stalled = response.stalled[i, shown].tolist()
    outside = response.extrapolated[i, shown].tolist()
    return tuple(
        "stalled" if s else "extrapolated" if e else "attached" for s, e in zip(stalled, outside, strict=True)
    )


def _part(kind: type[_Part], many: Any, i: int) -> _Part:
    return kind(**{f.name: getattr(many, f.name)[i].item() for f in fields(kind)})
