"""A raft of debris that builds up on the machine, its size and load over time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.holding.contact_numbers import Floats
from racewright.holding.debris_load import DebrisLoad, Vector, drag_load
from racewright.holding.debris_table import DragCoefficient, drag_coefficient
from racewright.machine.drive_checks import finite, number

FOOT = 0.3048
WIDEST, DEEPEST = 45.0 * FOOT, 10.0 * FOOT
"""A raft on a pier is taken no wider than 45 ft and no deeper than half the water or 10 ft (AASHTO LRFD 3.7.3; from
memory, 80 %) [m]."""
WOOD_SHARE = 0.3
"""Solid wood in a loose raft, 0.1 to 0.5; common practice, no source [-]."""


@dataclass(frozen=True, slots=True)
class Raft:
    """A raft and what feeds it.

    Parameters
    ----------
    wood_rate : float
        Solid wood that comes within reach of the raft's first width, >= 0 [m3/s].
    caught : float
        Share of it that stays, 0 to 1 [-].
    first_width : float
        Width that catches before anything is held, such as the machine's and its lines' [m].
    longest : float
        Longest piece; it spans the raft and sets its width, up to `WIDEST` [m].
    water_depth : float
        > 0 [m].
    wood_share : float
        Solid wood in the raft's volume, 0.05 to 1 [-].
    """

    wood_rate: float
    caught: float
    first_width: float
    longest: float
    water_depth: float
    wood_share: float = WOOD_SHARE

    def __post_init__(self) -> None:
        number("The wood's rate", self.wood_rate, 0.0, 1e3, "m3/s")
        number("The share caught", self.caught, 0.0, 1.0)
        number("The first width", self.first_width, 0.01, 200.0, "m")
        number("The longest piece", self.longest, 0.1, 100.0, "m")
        number("The water's depth", self.water_depth, 0.1, 1e3, "m")
        number("The wood's share", self.wood_share, 0.05, 1.0)

    @property
    def limits(self) -> tuple[float, float]:
        """Greatest width and depth: by the longest piece and the caps, never narrower than what catches [m]."""
        widest = min(max(self.longest, self.first_width), max(WIDEST, self.first_width))
        return widest, min(0.5 * self.water_depth, DEEPEST)


@dataclass(frozen=True, slots=True)
class RaftSize:
    """Size of a raft over time.

    Attributes
    ----------
    time, width, depth : ndarray, shape (n,)
        [s], [m], [m]
    full_time : float
        When width and depth are at their limits; infinite when nothing is caught [s].
    """

    time: Floats
    width: Floats
    depth: Floats
    full_time: float


def raft_size(raft: Raft, time: ArrayLike) -> RaftSize:
    """Width and depth in the proportion of their limits, both met together; as long as deep, V = w d^2. Own choice.

    The volume caught grows with the width that catches: dV/dt = rate caught/wood share x the greater of 1 and
    width/first width.

    Parameters
    ----------
    raft : Raft
    time : array_like, shape (n,)
        Since the first piece was held, >= 0 [s].
    """
    at = np.atleast_1d(finite("The times", time, least=0.0))
    widest, deepest = raft.limits
    feed = raft.wood_rate * raft.caught / raft.wood_share
    if feed <= 0.0:
        still = np.zeros_like(at)
        return RaftSize(at, still, still, float("inf"))
    full = widest * deepest**2
    volume, full_time = _volume(at, feed, full, widest, raft.first_width)
    scale = np.cbrt(np.minimum(volume / full, 1.0))
    return RaftSize(at, widest * scale, deepest * scale, full_time)


def _volume(time: Floats, feed: float, full: float, widest: float, first: float) -> tuple[Floats, float]:
    """Volume over time, and the time until it is full.

    It grows at `feed` while the raft is narrower than what caught it, then with the raft's width.
    """
    start = min((first / widest) ** 3, 1.0) * full
    early = start / feed
    slope = feed * widest / first / full ** (1.0 / 3.0)
    grown = (start ** (2.0 / 3.0) + 2.0 / 3.0 * slope * np.maximum(time - early, 0.0)) ** 1.5
    late = 1.5 * (full ** (2.0 / 3.0) - start ** (2.0 / 3.0)) / slope
    return np.where(time < early, feed * time, np.minimum(grown, full)), early + late


def raft_loads(
    raft: Raft,
    times: ArrayLike,
    stream_speed: float,
    surface: float,
    *,
    x: float = 0.0,
    y: float = 0.0,
    water_density: float = 1000.0,
    coefficient: DragCoefficient | None = None,
) -> tuple[DebrisLoad, ...]:
    """One load state a time, and the full raft's last.

    Parameters
    ----------
    raft : Raft
    times : array_like
        [s]
    stream_speed : float
        [m/s]
    surface : float
        Water surface above the machine's reference; the raft hangs from it [m].
    x, y : float
        Place of the raft from the reference [m].
    water_density : float
        [kg/m3]
    coefficient : DragCoefficient, optional
        'lodged debris' when left out.
    """
    size = raft_size(raft, times)
    used = drag_coefficient("lodged debris") if coefficient is None else coefficient
    rows = [
        (f"raft after {t / 3600.0:.3g} h", w, d) for t, w, d in zip(size.time, size.width, size.depth, strict=True)
    ]
    rows.append(("full raft", *raft.limits))
    found = []
    for name, width, depth in rows:
        point: Vector = (x, y, surface - 0.5 * float(depth))
        found.append(drag_load(name, float(width * depth), used, stream_speed, water_density, point))
    return tuple(found)


def code_raft_pressure(stream_speed: float, coefficient: float) -> float:
    """Pressure C_D V^2/1000 ksf, V in ft/s: the code's rounding of rho U^2 C_D/2, 3 % high [Pa]; [m/s], [-]."""
    v = number("The stream's speed", stream_speed, 0.0, 20.0, "m/s") / FOOT
    return number("The drag coefficient", coefficient, 0.0, 5.0) * v * v * 47.88025898033584
