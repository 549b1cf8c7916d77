"""States away from the design point: on load, runaway, held, parked, clogged; and where rated power begins."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from racewright.errors import NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.drive import Drive
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.balance import FASTEST, settled_ratio, torque_at
from racewright.stage.clogging import debris_resistance
from racewright.stage.operating_point import points_of
from racewright.stage.result import OperatingPoint, State
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import Stage, ready_stage
from racewright.water import Water

Floats = NDArray[np.float64]

CLOGGED = (0.25, 0.50, 0.75)
"""Shares of the passage that debris closes in the clogged states, beside 1 [-]. Own choice."""
ORDER = ("on load", "runaway", "held", "parked", *(f"clogged {100 * c:.0f} %" for c in (*CLOGGED, 1.0)))
"""Names of the states, in the order in which they are given."""
_FASTEST_CLOGGED = 1.5


def machine_states(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    stream_speed: Floats,
    *,
    on_load: Floats | None = None,
    brake_torque: float | None = None,
) -> tuple[State, ...]:
    """On load, runaway, held, parked and clogged at each stream speed.

    Runaway is the rotor speed above the design's at which the rotor's torque vanishes, generator and bearings
    taken as free of friction. Held: something stops the rotor; parked: its brake does, and must bear the torque.
    Clogged: debris ahead of the rows closes a share of the passage, and the rotor settles where its torque is what
    the generator's law asks, k Omega^2 through the design point, or stands. The duct and the rows stay as computed
    for steady flow; stall is the row model's. Loads above those that the flow was solved at come from the flow's
    closure and are told.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    stream_speed : ndarray, shape (n,)
        > 0 [m/s].
    on_load : ndarray, shape (n,), optional
        Tip-speed ratio on load, NaN where there is none; the design's when left out [-].
    brake_torque : float, optional
        What the brake can hold, None without one [N m].

    Returns
    -------
    tuple of State
        By speed, then by state. A state that cannot be found at any of the speeds is left out.
    """
    stage = ready_stage(unit, vanes, blades, flow, water)
    speeds = np.asarray(stream_speed, dtype=np.float64)
    design = np.full(speeds.size, unit.design.tip_speed_ratio)
    still, none = np.zeros(speeds.size), np.zeros(speeds.size)
    turning = (
        (design, none),
        *((still, np.full(speeds.size, float(debris_resistance(np.array(c))))) for c in CLOGGED),
    )
    factor = _load_factor(stage)
    settled = settled_ratio(
        stage,
        np.tile(speeds, len(turning)),
        np.concatenate([first for first, _ in turning]),
        np.concatenate([FASTEST * design, *[_FASTEST_CLOGGED * design for _ in CLOGGED]]),
        np.concatenate([none, *[np.full(speeds.size, factor) for _ in CLOGGED]]),
        np.concatenate([resistance for _, resistance in turning]),
    )
    ratio = settled.ratio.reshape(len(turning), -1)
    known = settled.found.reshape(len(turning), -1)
    runs = known[0] & (ratio[0] > design)
    loaded = design if on_load is None else np.asarray(on_load, dtype=np.float64)
    has = np.isfinite(loaded)
    plan = [
        _Plan("on load", speeds[has], loaded[has], none[has]),
        _Plan("runaway", speeds[runs], ratio[0][runs], none[runs]),
        _Plan("held", speeds, still, none),
    ]
    for i, share in enumerate(CLOGGED if factor > 0.0 else (), start=1):
        there = known[i]
        name = f"clogged {100 * share:.0f} %"
        plan.append(_Plan(name, speeds[there], ratio[i][there], turning[i][1][there]))
    found = _solved(stage, plan)
    found.extend(_parked(state, brake_torque) for state in tuple(found) if state.name == "held")
    if stage.table.closure is not None:
        shut = {float(speed): _shut(stage, float(speed)) for speed in speeds}
        clean = _clean_thrust(stage, speeds, design)
        found = [_not_below(state, clean, shut) for state in found]
        found.extend(shut.values())
    order = {name: place for place, name in enumerate(ORDER)}
    by_speed = {float(speed): place for place, speed in enumerate(speeds)}
    return tuple(sorted(found, key=lambda state: (by_speed[state.stream_speed], order[state.name])))


@dataclass(frozen=True)
class _Plan:
    """One kind of state at several stream speeds: tip-speed ratios and debris."""

    name: str
    speeds: Floats
    ratio: Floats
    resistance: Floats


def _solved(stage: Stage, plan: list[_Plan]) -> list[State]:
    """All states that have an answer, solved together."""
    speeds, ratio, resistance = (
        np.concatenate([getattr(one, name) for one in plan]) for name in ("speeds", "ratio", "resistance")
    )
    names = [one.name for one in plan for _ in range(one.speeds.size)]
    solved = solve_many(stage, speeds, ratio * speeds / stage.tip_radius, resistance=resistance)
    answered = [name for name, known in zip(names, solved.answered.tolist(), strict=True) if known]
    return [_state(name, point) for name, point in zip(answered, points_of(stage, solved), strict=True)]


def _parked(held: State, brake_torque: float | None) -> State:
    """The same flow as held, as the machine's own brake would hold it; says whether it can."""
    told = f"A brake must hold a shaft torque of {held.torque:.4g} N m here"
    if brake_torque is None:
        told += ", and none is given: the machine cannot be parked."
    elif brake_torque <= held.torque:
        told += f"; its {brake_torque:.4g} N m do not: the machine cannot be parked in this water."
    else:
        told += f"; its brake has {brake_torque:.4g} N m."
    return replace(held, name="parked", remark=f"{told} {held.remark}".strip())


def _clean_thrust(stage: Stage, speeds: Floats, design: Floats) -> dict[float, float]:
    """Thrust at the design tip-speed ratio without debris, by stream speed [N]."""
    clean = _solved(stage, [_Plan("on load", speeds, design, np.zeros(speeds.size))])
    return {state.stream_speed: state.thrust for state in clean}


def _not_below(state: State, clean: dict[float, float], shut: dict[float, State]) -> State:
    """A clogged machine pulls no less than a straight line from clean to shut says: debris is a bluff body too."""
    share = {f"clogged {100 * c:.0f} %": c for c in CLOGGED}.get(state.name)
    if share is None or state.stream_speed not in clean:
        return state
    speed = state.stream_speed
    line = (1.0 - share) * clean[speed] + share * shut[speed].thrust
    if state.thrust >= line:
        return state
    told = (
        "Its thrust lies on a straight line from clean to shut, above what the flow through it explains (own rule)."
    )
    return replace(state, thrust=line, remark=f"{state.remark} {told}".strip())


def _state(name: str, point: OperatingPoint) -> State:
    told = []
    if point.flow_state == "closure":
        told.append(f"The load {point.load:.2f} lies above what the flow was solved at: a stated closure answers.")
    if name.startswith("clogged"):
        told.append(
            "The rotor stands." if point.rotor_speed == 0.0 else "The rotor turns as fast as its load lets it."
        )
    if "stalled" in point.blade_state:
        told.append("Blade sections are stalled; loads there are a stated guess.")
    return State(
        name,
        point.stream_speed,
        point.rotor_speed,
        point.shaft_power,
        point.torque,
        point.thrust,
        point.roll_moment,
        point.head_coefficient,
        point.flow_state == "solved",
        " ".join(told),
        point.swirl_exit,
        point.flow_rate,
        point.lowest_pressure,
        point.speed_ratio,
    )


def _shut(stage: Stage, speed: float) -> State:
    """No flow at all: the machine is a bluff body."""
    closure = stage.table.closure
    assert closure is not None
    dynamic = 0.5 * stage.water.density * speed**2 * stage.flow.annulus_area
    return State(
        "clogged 100 %",
        speed,
        0.0,
        0.0,
        0.0,
        dynamic * float(closure.thrust_at(closure.limit)),
        0.0,
        0.0,
        False,
        "No flow: the thrust is that of a flat disc of the frontal area.",
        0.0,
        0.0,
        0.0,
        0.0,
    )


def _load_factor(stage: Stage) -> float:
    """k of the generator's law torque = k Omega^2 through the design point [N m s2]; 0 without such a point."""
    design = stage.unit.design
    torque, answered = torque_at(stage, np.array([design.stream_speed]), np.array([design.tip_speed_ratio]))
    if not answered[0] or torque[0] <= 0.0:
        return 0.0
    return float(torque[0] / (design.tip_speed_ratio * design.stream_speed / stage.tip_radius) ** 2)


def runaway_ratio(stage: Stage, stream_speed: float, on_load: float) -> float:
    """Tip-speed ratio above `on_load` at which the torque vanishes [-].

    Raises
    ------
    NoAnswerError
        No torque on load, or none found up to 8 times `on_load`.
    """
    speed, design = np.array([stream_speed]), np.array([on_load])
    found = settled_ratio(stage, speed, design, FASTEST * design, np.zeros(1))
    if found.brakes[0]:
        raise NoAnswerError("the rotor brakes before its torque vanishes")
    if not found.found[0]:
        raise NoAnswerError(f"the torque does not vanish up to {FASTEST:g} times the design tip-speed ratio")
    if float(found.ratio[0]) <= on_load:
        raise NoAnswerError("the rotor gives no torque at the design tip-speed ratio, so it has no runaway above it")
    return float(found.ratio[0])


def rated_speed(stage: Stage, drive: Drive, fastest: float) -> float | None:
    """Stream speed where rated power begins at the design tip-speed ratio; None if not up to `fastest` [m/s]."""
    ratio = stage.unit.design.tip_speed_ratio
    efficiency = drive.gear_efficiency * drive.generator_efficiency

    def excess(speed: float) -> float:
        torque, answered = torque_at(stage, np.array([speed]), np.array([ratio]))
        if not answered[0]:
            raise NoAnswerError(f"the rotor has no operating point at {speed:.3g} m/s and its design tip-speed ratio")
        return float(torque[0]) * ratio * speed / stage.tip_radius * efficiency - drive.rated_power

    if excess(fastest) <= 0.0:
        return None
    if excess(drive.cut_in_speed) >= 0.0:
        return drive.cut_in_speed
    return float(brentq(excess, drive.cut_in_speed, fastest, xtol=1e-9))
