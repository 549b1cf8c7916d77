"""A one-way machine in a two-way stream: how it turns, and what of the stream it meets.

The vanes stand before the rotor, so the machine makes power only with its inlet to the stream.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import Floats
from racewright.place.tide_stream import TidalStream

TurnWay = Literal["swings", "half turn", "fixed"]
"""Lies into the stream on its tethers; set over by half a turn at slack; one heading for good."""

SWING_SPEED = 0.4
"""Stream that swings a floating machine round on its tethers; default, no source [m/s]."""
TURN_TIME = 900.0
"""From that stream until the machine lies still again; default, no source [s]."""


@dataclass(frozen=True)
class Turning:
    """How the machine meets a stream that turns.

    Attributes
    ----------
    way : {'swings', 'half turn', 'fixed'}
        'swings': yaws on its tethers at slack and then lies into the water as it comes. 'half turn': is set over at
        slack between two headings half a turn apart; what runs off its axis counts by its component. 'fixed': faces
        one way; the other direction gives nothing.
    faces : {'flood', 'ebb'} or None
        Fixed only: the stream that it takes; None takes the one with more energy.
    swing_speed : float
        Stream from which turning begins after slack, 0 to 2; default `SWING_SPEED` [m/s].
    time : float
        From then until power, 0 to 10800; default `TURN_TIME` [s].
    """

    way: TurnWay
    faces: Literal["flood", "ebb"] | None = None
    swing_speed: float = SWING_SPEED
    time: float = TURN_TIME

    def __post_init__(self) -> None:
        if self.way not in ("swings", "half turn", "fixed"):
            raise InputError(f"turning is {self.way!r}; wanted 'swings', 'half turn' or 'fixed'")
        if self.faces not in (None, "flood", "ebb"):
            raise InputError(f"the machine faces {self.faces!r}; wanted 'flood' or 'ebb'")
        if self.faces is not None and self.way != "fixed":
            raise InputError("only a fixed machine faces flood or ebb for good; leave 'faces' out")
        within("the swing speed", self.swing_speed, 0.0, 2.0, "m/s")
        within("the time to turn", self.time, 0.0, 10_800.0, "s")


@dataclass(frozen=True)
class Met:
    """What the machine meets of a stream.

    Attributes
    ----------
    speed : ndarray, shape (n,)
        Counted, 0 while it turns or shows its back [m/s].
    turns : int
        Changes of direction between the first and the last stamp.
    lost_turning, lost_off_axis, lost_direction : float
        Share of the water's mean cube that goes while the machine turns, by its heading, and with the direction that
        a fixed machine does not take [-].
    faces : {'both', 'flood', 'ebb'}
    """

    speed: Floats
    turns: int
    lost_turning: float
    lost_off_axis: float
    lost_direction: float
    faces: Literal["both", "flood", "ebb"]


def met(stream: TidalStream, turning: Turning | None) -> Met:
    """Count what the machine meets.

    Raises
    ------
    InputError
        No turning given where both directions carry energy.
    """
    flood, whole = stream.along > 0.0, float((stream.speed**3).sum())
    if not whole > 0.0:
        raise InputError("the predicted stream stands still; wanted constituents above their noise")
    in_flood = float((stream.speed[flood] ** 3).sum()) / whole
    if turning is None:
        weaker = min(in_flood, 1.0 - in_flood)
        raise InputError(
            f"the stream runs both ways ({100.0 * in_flood:.0f} % of its energy with the flood) and the machine "
            "takes water from one side only: say how it turns, 'swings', 'half turn' or 'fixed' (then "
            f"{100.0 * weaker:.0f} % or more is not counted)",
            key="turning",
        )
    run = np.concatenate(([0], np.cumsum(np.diff(flood.astype(np.int64)) != 0)))
    if turning.way == "fixed":
        return _fixed(stream, turning, flood, in_flood, whole, int(run[-1]))
    seen = stream.speed if turning.way == "swings" else np.abs(stream.along)
    lies = _settled(stream, run, turning)
    counted: Floats = np.where(lies, seen, 0.0)
    off = 1.0 - float((seen**3).sum()) / whole
    return Met(counted, int(run[-1]), 1.0 - off - float((counted**3).sum()) / whole, off, 0.0, "both")


def _fixed(
    stream: TidalStream, turning: Turning, flood: NDArray[np.bool_], in_flood: float, whole: float, turns: int
) -> Met:
    faces = turning.faces or ("flood" if in_flood >= 0.5 else "ebb")
    taken = flood if faces == "flood" else ~flood
    counted: Floats = np.where(taken, np.abs(stream.along), 0.0)
    share = in_flood if faces == "flood" else 1.0 - in_flood
    return Met(counted, turns, 0.0, share - float((counted**3).sum()) / whole, 1.0 - share, faces)


def _settled(stream: TidalStream, run: NDArray[np.int64], turning: Turning) -> NDArray[np.bool_]:
    """True from the time to turn after the stream of each half tide first reaches the swing speed."""
    never = np.iinfo(np.int64).max // 2
    woken = np.where(np.abs(stream.along) >= turning.swing_speed, stream.time, never)
    start = np.flatnonzero(np.concatenate(([True], np.diff(run) != 0)))
    first = np.minimum.reduceat(woken, start)
    first[0] = min(
        int(first[0]), int(stream.time[0]) - int(turning.time)
    )  # lies into the stream when the record starts
    settled: NDArray[np.bool_] = stream.time >= first[run] + turning.time
    return settled
