"""Fish against moving blades by brute force, marched through time; shares no code with the product."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def struck_share(
    count: int,
    rotor_speed: float,
    axial_speed: float,
    radius: float,
    length: float,
    width: float,
    angle: float,
    swirl: float,
    edge: float,
    *,
    fish: int = 4000,
    steps: int = 3000,
    seed: int = 1,
) -> float:
    """Share of `fish` elliptic bodies, let go at random clockings, that any edge has touched on the way through.

    One random clocking in each of `fish` even parts of the pitch. At every step the body is moved on with the water,
    the edges with the rotor; an edge is a disc of diameter `edge`. A body is touched when an edge lies within half a
    diameter of its outline, a polygon, or inside it, now or on the way from the step before.
    """
    pitch = 2.0 * math.pi * radius / count
    draw = np.random.default_rng(seed)
    phase = (np.arange(fish) + draw.uniform(0.0, 1.0, fish)) / fish * pitch
    reach = 0.5 * math.hypot(length, width) + edge
    time = np.linspace(-reach / axial_speed, reach / axial_speed, steps)
    turn = np.linspace(0.0, 2.0 * math.pi, 721)
    along, across = 0.5 * length * np.cos(turn), 0.5 * width * np.sin(turn)
    outline_x = along * math.cos(angle) - across * math.sin(angle)
    outline_y = along * math.sin(angle) + across * math.cos(angle)
    touched = np.zeros(fish, dtype=bool)
    before: tuple[float, float] | None = None
    for now in time:
        x, y = outline_x + axial_speed * now, outline_y + swirl * now
        found = _across(x, y, 0.5 * edge)
        if found is None:
            before = None
            continue
        moved = rotor_speed * radius * now
        here = (found[0] - moved, found[1] - moved)
        ends = here if before is None else (min(here[0], before[0]), max(here[1], before[1]))
        before = here
        touched |= np.ceil((ends[0] - phase) / pitch) * pitch + phase <= ends[1]
    return float(np.mean(touched))


def _across(x: Floats, y: Floats, reach: float) -> tuple[float, float] | None:
    """Stretch of the edges' plane x = 0 within `reach` of the outline, or inside it."""
    near = np.abs(x) <= reach
    bulge = np.sqrt(np.maximum(reach**2 - x**2, 0.0))
    low = float(np.where(near, y - bulge, np.inf).min())
    high = float(np.where(near, y + bulge, -np.inf).max())
    at = np.flatnonzero((x[:-1] * x[1:] <= 0.0) & (x[:-1] != x[1:]))
    if at.size:
        cut = y[at] + x[at] / (x[at] - x[at + 1]) * (y[at + 1] - y[at])
        low, high = min(low, float(cut.min())), max(high, float(cut.max()))
    return (low, high) if low <= high else None
