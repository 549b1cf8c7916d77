"""Load states of a holding: from the stage's states and the drive's curve, and from debris that stays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from racewright.holding.layout import Layout
from racewright.holding.statics_problem import Pose
from racewright.holding.statics_sweep import Statics, at_rest, over_speeds, table_of
from racewright.holding.stream import Stream
from racewright.ledger.holding_findings import HeldLoad
from racewright.stage.control import ControlCurve
from racewright.stage.result import State
from racewright.tick import Tick

Floats = NDArray[np.float64]

TOLD = {"runaway": "loss of load"}
"""What a stage's state is called when it loads the lines."""
SIZING = ("loss of load", "held", "clogged 50 %", "clogged 100 %")
"""States that every holding is asked for beside 'on load' and a held tree."""
_WORDS = {
    "on load": "as the drive runs it, held at rated power where it can",
    "loss of load": "turning free: the grid or cable is gone",
    "held": "something stops the rotor",
    "clogged 50 %": "debris closes half of the passage",
    "clogged 100 %": "debris closes the passage: the most that the flow can push",
}


def stage_loads(
    states: tuple[State, ...], curve: ControlCurve, density: float, frame_area: float, frame_up: float, middle: float
) -> tuple[HeldLoad, ...]:
    """'on load' from the drive's curve, the sizing states from the stage, each with the frame's drag.

    Parameters
    ----------
    states : tuple of State
        At one or more stream speeds.
    curve : ControlCurve
    density : float
        Of the water [kg/m3].
    frame_area : float
        Drag coefficient x area of frame and floats [m2].
    frame_up, middle : float
        Where the frame's drag acts: above the axis, and along it from the leading edge [m].
    """
    found = [_on_load(curve)]
    for name in SIZING:
        rows = sorted((s for s in states if TOLD.get(s.name, s.name) == name), key=lambda s: s.stream_speed)
        if rows:
            speed, thrust, roll = (
                np.array([getattr(s, k) for s in rows]) for k in ("stream_speed", "thrust", "roll_moment")
            )
            found.append(HeldLoad(name, speed, thrust, roll, np.zeros(speed.size), middle, frame_up, _WORDS[name]))
    return tuple(replace(one, drag=0.5 * density * frame_area * one.stream_speed**2) for one in found)


def _on_load(curve: ControlCurve) -> HeldLoad:
    told = np.array([s not in ("no answer", "not computed") for s in curve.status]) & (curve.stream_speed > 0.0)
    words = _WORDS["on load"]
    if not np.all(told[curve.stream_speed > 0.5 * curve.stream_speed[-1]]):
        words += "; beyond its last answer as if on its law"
    return HeldLoad(
        "on load", curve.stream_speed[told], curve.thrust[told], curve.roll_moment[told],
        np.zeros(int(told.sum())), 0.0, 0.0, words,
    )  # fmt: skip


def with_debris(
    name: str, base: HeldLoad, drag_area: float, at: tuple[float, float], density: float, words: str
) -> HeldLoad:
    """A state with something held on it: drags added, the point of action between them.

    Parameters
    ----------
    name : str
    base : HeldLoad
    drag_area : float
        Of the debris, drag coefficient x area [m2].
    at : tuple of float
        Where it is held: x from the leading edge downstream, above the axis [m].
    density : float
        [kg/m3]
    words : str
    """
    more = 0.5 * density * drag_area * base.stream_speed**2
    whole = base.drag + more
    share = np.divide(more, whole, out=np.zeros_like(more), where=whole > 0.0).mean()
    x = (1.0 - share) * base.drag_x + share * at[0]
    up = (1.0 - share) * base.drag_up + share * at[1]
    return replace(base, name=name, drag=whole, drag_x=float(x), drag_up=float(up), words=words)


@dataclass(frozen=True)
class Swept:
    """Statics of all loads, and where each came to rest.

    Attributes
    ----------
    table : Statics
    last : mapping of Pose or None
        At the greatest speed by the load's name, None where it did not settle.
    """

    table: Statics
    last: dict[str, Pose | None]


def swept(
    layout: Layout,
    stream: Stream,
    loads: Iterable[HeldLoad],
    speeds: Floats,
    tick: Tick,
    lost: str = "",
    starts: Mapping[str, Pose | None] | None = None,
) -> Swept:
    """`statics` over all loads, each with its own point of drag, in one table.

    Parameters
    ----------
    layout, stream, speeds, tick, lost
        As `statics`.
    loads : iterable of HeldLoad
    starts : mapping of Pose or None, optional
        Poses near the answers at one speed, by the load's name, as of a stream ahead for one that is turned.
    """
    loads = tuple(loads)
    used = layout.without(lost) if lost else layout
    rest, first = at_rest(used, stream)
    points, last = [], {}
    for place, load in enumerate(loads):
        acted = replace(used, body=replace(used.body, drag_centre=(load.drag_x, 0.0, load.drag_up)))
        near = None if starts is None else [starts[load.name]]
        found = list(over_speeds(acted, stream, load.state, speeds, first, starts=near))
        points.append(tuple(point for point, _pose in found))
        last[load.name] = found[-1][1]
        tick((place + 1.0) / len(loads))
    names, lines = tuple(load.name for load in loads), tuple(t.name for t in used.tethers)
    return Swept(table_of(lost, names, lines, speeds, rest, tuple(points)), last)


def turned(layout: Layout, stream: Stream, loads: Iterable[HeldLoad], ahead: Swept, tick: Tick) -> Statics:
    """Loads in the fastest stream turned to a side, for those states that come to rest with the stream ahead.

    Parameters
    ----------
    layout, tick
        As `swept`.
    stream : Stream
        Turned.
    loads : iterable of HeldLoad
    ahead : Swept
        The same with the stream ahead, with whatever tether is lost; its last speed is asked.
    """
    loads = tuple(loads)
    asked = tuple(load for load in loads if ahead.last[load.name] is not None) or loads[:1]
    speeds = ahead.table.stream_speed[-1:]
    return swept(layout, stream, asked, speeds, tick, ahead.table.lost, ahead.last).table
