"""The chain at one transect: discharge, level, area, mean speed, speed at the place, cube mean."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.lateral import local_ratio
from racewright.place.placement import Placement
from racewright.place.profile import RIVER_N, cube_mean_speed
from racewright.place.rating import Rating, level_at
from racewright.place.result import Floats
from racewright.place.transect import Transect

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]."""

BLOCK = 1 << 19
"""Discharges carried at a time, so that the steps between take little memory."""


@dataclass(frozen=True)
class Reach:
    """A rated transect with the machine in it.

    Attributes
    ----------
    rating, transect, placement
        On one datum.
    profile_n : float
        The vertical profile's exponent is 1/n, 2 to 20 [-].
    speed_factor : float or None
        Measured depth-mean speed at the position over the section mean, 0.05 to 5; None takes `local_ratio`
        [-].
    """

    rating: Rating
    transect: Transect
    placement: Placement
    profile_n: float = RIVER_N
    speed_factor: float | None = None

    def __post_init__(self) -> None:
        within("the profile's n", self.profile_n, 2.0, 20.0, "[-]")
        if self.speed_factor is not None:
            within("the speed factor", self.speed_factor, 0.05, 5.0, "[-]")


@dataclass(frozen=True)
class ReachFlow:
    """The river at the machine, one entry per discharge.

    Attributes
    ----------
    level, area, mean_speed : ndarray
        Level above the datum [m], wetted area [m2], discharge over area [m/s].
    froude : ndarray
        Mean speed / sqrt(g area / top width) [-].
    depth : ndarray
        At the position [m].
    cover, clearance : ndarray
        Water over the duct's top; vertical gap between the duct's circle and the bed. Negative: out of the
        water, or aground [m].
    speed : ndarray
        Cube-mean speed over the part of the capture area that is in the water [m/s].
    afloat : ndarray of bool
        Whole duct in the water and off the bed.
    """

    level: Floats
    area: Floats
    mean_speed: Floats
    froude: Floats
    depth: Floats
    cover: Floats
    clearance: Floats
    speed: Floats
    afloat: NDArray[np.bool_]


def flow_at(reach: Reach, discharge: ArrayLike) -> ReachFlow:
    """Carry discharges through the chain.

    Parameters
    ----------
    reach : Reach
    discharge : array_like, shape (n,)
        [m3/s], finite, >= 0.

    Raises
    ------
    InputError
        When the rating puts a flowing river below the lowest bed of the transect, or the machine's circle
        reaches beyond the survey.
    """
    flow = np.asarray(discharge, dtype=np.float64)
    if flow.ndim == 1 and flow.size > BLOCK:
        parts = [flow_at(reach, flow[start : start + BLOCK]) for start in range(0, flow.size, BLOCK)]
        names = [field.name for field in fields(ReachFlow)]
        return ReachFlow(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})
    place, transect = reach.placement, reach.transect
    touching = transect.touching_level(place.position, place.outer_radius)
    level = level_at(reach.rating, flow)
    area = transect.wetted_area(level)
    dry = (area <= 0.0) & (flow > 0.0)
    if dry.any():
        worst = int(np.argmax(dry))
        raise InputError(
            f"the rating gives a level of {level[worst]:.3f} m at {flow[worst]:.3f} m3/s, below the "
            "transect's lowest "
            f"bed of {transect.bed_level.min():.3f} m; rating and transect must share one datum"
        )
    wet = area > 0.0
    mean = np.where(wet, flow / np.where(wet, area, 1.0), 0.0)
    width = transect.top_width(level)
    wave = np.sqrt(GRAVITY * np.where(wet, area / np.where(wet, width, 1.0), 1.0))
    ratio = local_ratio(transect, place.position, level) if reach.speed_factor is None else reach.speed_factor
    depth = transect.depth_at(place.position, level)
    if place.hub_depth is not None:
        axis = level - place.hub_depth
    else:
        assert place.hub_height is not None  # a placement has one of the two
        axis = np.full_like(level, transect.bed_at(place.position) + place.hub_height)
    cover = level - axis - place.outer_radius
    clearance = axis - touching
    speed = cube_mean_speed(
        mean * ratio, depth, axis - transect.bed_at(place.position), place.capture_radius, reach.profile_n
    )
    return ReachFlow(
        level=level,
        area=area,
        mean_speed=mean,
        froude=mean / wave,
        depth=depth,
        cover=cover,
        clearance=clearance,
        speed=speed,
        afloat=(cover > -1e-9) & (clearance > -1e-9),
    )
