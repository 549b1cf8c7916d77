"""Falling level: cover, clearance over the bed, grounding."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.holding.checked import Floats, array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.statics import searched, told
from racewright.holding.statics_problem import Pose, Problem
from racewright.holding.stream import Stream
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent


@dataclass(frozen=True, slots=True)
class LowWater:
    """One state over depths of water, deepest first (d). NaN where nothing settled.

    Attributes
    ----------
    depth : ndarray, shape (d,)
        [m]
    cover, bed_clearance : ndarray, shape (d,)
        [m]
    reason : tuple of str
        First reason against each depth, '' without one; 'cover' or 'bed clearance' where only the wanted one fails.
    least_depth : float or None
        Least depth down to which everything holds, None when the deepest does not [m].
    aground_at : float or None
        First depth, going down, where the body lies on the bed, None when at none [m].
    safety : SafetyBasis
    """

    depth: Floats
    cover: Floats
    bed_clearance: Floats
    reason: tuple[str, ...]
    least_depth: float | None
    aground_at: float | None
    safety: SafetyBasis

    @property
    def holds(self) -> NDArray[np.bool_]:
        """Where nothing stands against it, shape (d,)."""
        return np.array([why == "" for why in self.reason])


def low_water(
    layout: Layout,
    stream: Stream,
    state: LoadState,
    depths: ArrayLike,
    *,
    cover: float = 0.0,
    bed_clearance: float = 0.0,
    tick: Tick = silent,
) -> LowWater:
    """Cover and clearance as the level falls, the fixed points staying where they are.

    Parameters
    ----------
    layout : Layout
    stream : Stream
        Its depth is not read; a reference height above the surface is moved to it.
    state : LoadState
    depths : array_like, shape (d,)
        All different, > 0 [m].
    cover, bed_clearance : float
        Wanted, >= 0, default 0 [m].
    tick : Tick
    """
    levels = np.sort(array("The depths", depths, (-1,)))[::-1]
    if levels[-1] <= 0.0 or np.any(np.diff(levels) == 0.0):
        raise InputError("The depths must be above 0 m and all different.")
    number("The wanted cover", cover, 0.0, 1e3, "m")
    number("The wanted bed clearance", bed_clearance, 0.0, 1e3, "m")
    over, under, why = np.full(levels.size, np.nan), np.full(levels.size, np.nan), []
    pose: Pose | None = None
    for place, depth in enumerate(levels):
        height = min(stream.reference_height, float(depth))
        problem = Problem(layout, replace(stream, depth=float(depth), reference_height=height), state)
        found = searched(problem, pose)
        point = told(problem, found)
        told_why: str = point.reason.code if point.reason else ""
        if point.settled and found is not None:
            pose = found.pose
            over[place], under[place] = point.cover, point.bed_clearance
            if not told_why and point.cover < cover:
                told_why = "cover"
            if not told_why and point.bed_clearance < bed_clearance:
                told_why = "bed clearance"
        why.append(told_why)
        tick((place + 1) / levels.size)
    good = [w == "" for w in why]
    count = good.index(False) if False in good else len(good)
    aground = [math.isfinite(u) and u < 0.0 for u in under]
    return LowWater(
        levels,
        over,
        under,
        tuple(why),
        float(levels[count - 1]) if count else None,
        float(levels[aground.index(True)]) if True in aground else None,
        computed(POSE_CAUTION),
    )
