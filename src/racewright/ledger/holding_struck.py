"""The machine as a log meets it on its lines: outline, masses, stiffness and capacity of the tethers."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.holding.body import Body
from racewright.holding.log_body import Log
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_sweep import Statics
from racewright.holding.strike_machine import StruckMachine, blunt_outline, guarded_outline
from racewright.holding.strike_tether import Tether
from racewright.ledger.holding_findings import AtDepth, Held, HeldLoad

Floats = NDArray[np.float64]
Table = Mapping[str, Any]
_PLANE = (0, 1, 5)
"""Surge, sway and yaw among the six motions."""


def struck_machine(
    body: Body, outer: float, length: float, guard: float | None, load: HeldLoad, density: float
) -> StruckMachine:
    """Outline of the duct, with its guard where there is one; masses of the body with the water it moves.

    Parameters
    ----------
    body : Body
    outer, length : float
        Of the duct [m].
    guard : float or None
        Lean of the guard's faces [rad].
    load : HeldLoad
        On load: its thrust over speed squared is the drag along the stream.
    density : float
        [kg/m3]
    """
    outline = blunt_outline(outer, length) if guard is None else guarded_outline(outer, length, guard)
    middle = 0.5 * length
    shift = np.eye(6)
    shift[1, 5], shift[2, 4] = middle, -middle
    about_middle = np.linalg.inv(shift).T @ body.inertia @ np.linalg.inv(shift)
    push = (load.thrust + load.drag)[-1] / (0.5 * density * load.stream_speed[-1] ** 2)
    return StruckMachine(
        outline,
        surge_mass=float(body.inertia[0, 0]),
        sway_mass=float(body.inertia[1, 1]),
        yaw_inertia=float(about_middle[5, 5]),
        drag_area=max(float(push), 0.0),
        side_drag_area=body.side_drag_area,
        yaw_drag=0.5 * density * body.side_drag_area * length**3 / 32.0,
    )


def held_point(table: Statics, state: str, speed: float) -> Equilibrium:
    """The settled point of a state nearest to a speed.

    Raises
    ------
    NoAnswerError
        When the state does not settle at any speed.
    """
    row = table.points[table.states.index(state)]
    settled = [p for p in row if p.settled]
    if not settled:
        raise NoAnswerError(f"The machine finds no rest on its lines {state}: what a log does to it is not known.")
    return min(settled, key=lambda p: abs(p.stream_speed - speed))


@dataclass(frozen=True)
class Met:
    """The water in which a log is let meet the machine.

    Attributes
    ----------
    water : AtDepth
        Of those computed the one whose lines are taken.
    label : str
        Of the water, or of the two that it lies between.
    depth, speed : float
        Of the water [m], and of its stream [m/s].
    cover : float
        Over the machine on load there [m].
    over : float or None
        Room between the log and the machine beneath it; None where the log reaches the machine's depth [m].
    """

    water: AtDepth
    label: str
    depth: float
    speed: float
    cover: float
    over: float | None


def water_met(held: Held, log: Log, speed: float | None) -> Met:
    """The fastest water in which a log reaches the machine's depth, else the one where it passes over most nearly.

    Depth and cover between two computed waters go with their speeds in a straight line.

    Parameters
    ----------
    held : Held
    log : Log
    speed : float or None
        Asked for: the log meets the water that is so fast, whether it reaches or not [m/s].
    """
    waters = _ahead(held)
    top, cover = (np.array(row) for row in zip(*_covers(waters), strict=True))
    reach = math.inf if log.attitude == "submerged" else log.draught
    if speed is None:
        speed = _fastest_reached(top, cover, reach)
    at = _place(top, speed)
    over = float(np.interp(speed, top, cover))
    depth = float(np.interp(speed, top, [one.depth for one in waters]))
    between = at > 0 and speed < 0.999 * top[at]
    label = f"between {waters[at - 1].label} and {waters[at].label}" if between else waters[at].label
    room = over - reach
    return Met(waters[at], label, depth, speed, over, room if room > 1e-6 else None)


def speed_covers(held: Held, allowance: float) -> tuple[tuple[float, float], ...]:
    """Greatest stream speed of each water and the cover over the machine there, 0 where it is out [m/s], [m].

    Parameters
    ----------
    held : Held
    allowance : float
        On the speeds of its waters, which is taken off again: a year of logs drifts at those of the record [-].
    """
    waters = _ahead(held)
    speeds = [float(one.intact.stream_speed[-1]) / allowance for one in waters]
    return tuple(
        (v, max(held_point(one.intact, "on load", v).cover, 0.0)) for one, v in zip(waters, speeds, strict=True)
    )


def water_at(held: Held, speed: float) -> AtDepth:
    """The water whose lines are taken at a stream speed: of those computed the next faster one."""
    waters = _ahead(held)
    return waters[_place(np.array([one.intact.stream_speed[-1] for one in waters]), speed)]


def _place(top: Floats, speed: float) -> int:
    """Of the slowest water that reaches a speed, or of the fastest, among their greatest speeds."""
    return min(int(np.sum(top < 0.999 * speed)), top.size - 1)


def _ahead(held: Held) -> list[AtDepth]:
    """Waters with the stream ahead, by their greatest speed."""
    ahead = [one for one in held.depths if one.intact.points[0][-1].heading == 0.0]
    return sorted(ahead, key=lambda one: float(one.intact.stream_speed[-1]))


def _covers(waters: list[AtDepth]) -> list[tuple[float, float]]:
    top = [float(one.intact.stream_speed[-1]) for one in waters]
    return [(v, held_point(one.intact, "on load", v).cover) for one, v in zip(waters, top, strict=True)]


def _fastest_reached(top: Floats, cover: Floats, reach: float) -> float:
    """The fastest speed whose cover a log reaches down through; where it reaches none, that of the least cover."""
    good = np.flatnonzero(cover <= reach)
    if good.size == 0:
        return float(top[np.argmin(cover)])
    last = int(good[-1])
    if last == top.size - 1:
        return float(top[-1])
    share = (reach - cover[last]) / (cover[last + 1] - cover[last])
    return float(top[last] + share * (top[last + 1] - top[last]))


def tether_at(
    held: Held, speed: float, capacity: float | None, middle: float, *, table: Statics | None = None
) -> Tether:
    """Stiffness and pull of all lines about the machine's rest on load at a stream speed.

    Heave, roll and pitch are free to follow; the pull grows with speed squared between computed points.

    Parameters
    ----------
    held : Held
    speed : float
        [m/s]
    capacity : float or None
        Of the weak link along the stream; the weakest line's strength when None [N].
    middle : float
        Of the duct, from the body's origin downstream: where the struck machine has its reference; half the duct's
        length [m].
    table : Statics, optional
        Of the water it is asked in; the fastest water's when left out.
    """
    point = held_point(held.depths[0].intact if table is None else table, "on load", speed)
    plane = _condensed(point.stiffness)
    shift = np.eye(3)
    shift[1, 2] = -middle
    about_middle = shift.T @ plane @ shift
    pull = math.hypot(point.stream_force[0], point.stream_force[1])
    pull *= (speed / point.stream_speed) ** 2 if point.stream_speed > 0.0 else 1.0
    return Tether(
        restoring(about_middle, 2.0 * middle), pull, _capacity(held, pull, point) if capacity is None else capacity
    )


def restoring(stiffness: Floats, length: float) -> Floats:
    """The even part of a stiffness in surge, sway and yaw, without the motions that it would drive on.

    Loads that follow the body make the stiffness uneven. Its even part alone may then drive a motion on though the
    whole does not, and a log's run of seconds would end in nonsense: such motions are left free, held by drag only.
    Which motions these are is asked with turns times a length of the body, so that it hangs on no unit.

    Parameters
    ----------
    stiffness : ndarray, shape (3, 3)
        [N/m, N/rad, N m/rad]
    length : float
        Of the body, > 0 [m].
    """
    size = np.array([1.0, 1.0, length])
    alike = 0.5 * (stiffness + stiffness.T) / np.outer(size, size)
    values, motions = np.linalg.eigh(alike)
    return np.asarray((motions * np.maximum(values, 0.0)) @ motions.T * np.outer(size, size))


def _condensed(stiffness: Floats) -> Floats:
    """Of surge, sway and yaw, the other three motions free."""
    free = [i for i in range(6) if i not in _PLANE]
    keep = np.ix_(_PLANE, _PLANE)
    cross = stiffness[np.ix_(_PLANE, free)]
    follow = np.linalg.solve(stiffness[np.ix_(free, free)], stiffness[np.ix_(free, _PLANE)])
    return np.asarray(stiffness[keep] - cross @ follow)


def _capacity(held: Held, pull: float, point: Equilibrium) -> float:
    """Pull along the stream at which the line that comes nearest to its strength parts, tensions in proportion."""
    used = max((line.utilisation for line in point.lines), default=0.0)
    return pull / used if used > 0.0 and pull > 0.0 else math.inf
