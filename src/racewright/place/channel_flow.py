"""The tidal flow of a channel under growing drag: dQ/dt = cos t - (friction + machines) Q |Q|, until it repeats."""

from __future__ import annotations

import math

import numpy as np

from racewright.errors import NoAnswerError
from racewright.place.guard import within
from racewright.place.result import Floats

STEPS = 240
"""A period."""
PERIODS = 400
"""At most, until the flow repeats."""
REPEATS = 1e-6
"""Change of the flow from period to period at which it repeats, over its peak [-]."""
LOADS = 41
"""Machine drags tried at a time."""


def loaded(friction_ratio: float) -> tuple[Floats, Floats, Floats]:
    """Machine drags l1 in rising order, with peak and mean cube of the flow Q' under each; the first is 0.

    The drag of most power is among them, to a third of a per cent of itself.
    """
    within("the friction ratio", friction_ratio, 0.0, 1e6, "[-]")
    scale = 1.0 + friction_ratio
    tried: Floats = np.concatenate(([0.0], scale * np.geomspace(0.02, 40.0, LOADS)))
    peak, cube = _periodic(friction_ratio, tried)
    best = int(np.argmax(tried * cube))
    near = np.linspace(tried[best - 1], tried[min(best + 1, LOADS)], LOADS + 2)[1:-1]
    near = near[near != tried[best]]
    peak_near, cube_near = _periodic(friction_ratio, near)
    order = np.argsort(np.concatenate((tried, near)))
    return (
        np.concatenate((tried, near))[order],
        np.concatenate((peak, peak_near))[order],
        np.concatenate((cube, cube_near))[order],
    )


def _periodic(friction: float, load: Floats) -> tuple[Floats, Floats]:
    """Peak and mean cube of Q' when it repeats, by the classical fourth-order rule from the flow without friction."""
    drag = friction + load
    step = 2.0 * math.pi / STEPS / max(1, math.ceil(math.sqrt(float(drag.max())) / 20.0))
    count = round(2.0 * math.pi / step)
    drive = np.cos(0.5 * step * np.arange(2 * count + 1))
    flow = np.zeros_like(load)
    for _ in range(PERIODS):
        before, peak, cube = flow, np.zeros_like(load), np.zeros_like(load)
        for i in range(count):
            flow = _step(flow, drag, drive[2 * i : 2 * i + 3], step)
            size = np.abs(flow)
            peak, cube = np.maximum(peak, size), cube + size**3
        if float((np.abs(flow - before) / peak).max()) < REPEATS:
            return peak, cube / count
    raise NoAnswerError(
        f"the channel's flow does not repeat within {PERIODS} tides at a friction ratio of {friction:.3g}"
    )


def _step(flow: Floats, drag: Floats, drive: Floats, step: float) -> Floats:
    one = drive[0] - drag * flow * np.abs(flow)
    half = flow + 0.5 * step * one
    two = drive[1] - drag * half * np.abs(half)
    half = flow + 0.5 * step * two
    three = drive[1] - drag * half * np.abs(half)
    whole = flow + step * three
    four = drive[2] - drag * whole * np.abs(whole)
    moved: Floats = flow + step / 6.0 * (one + 2.0 * two + 2.0 * three + four)
    return moved
