"""The rating curve: discharge from level and back, discharge = C (level - zero level)^b."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import Floats


@dataclass(frozen=True)
class Rating:
    """One power-law rating over the whole range of levels (the form of ISO 18320).

    Attributes
    ----------
    coefficient : float
        C, discharge one metre above the zero level, 1e-3 to 1e6 [m3/s per m^b].
    zero_level : float
        Level of zero flow above the transect's datum, -1e4 to 1e4 [m].
    exponent : float
        b, 0.5 to 6; near 1.5 for a weir-like control, 5/3 for a wide channel, 2 to 3 for a natural one [-].
    """

    coefficient: float
    zero_level: float
    exponent: float

    def __post_init__(self) -> None:
        within("the rating's coefficient", self.coefficient, 1e-3, 1e6, "m3/s per m^b")
        within("the rating's zero level", self.zero_level, -1e4, 1e4, "m")
        within("the rating's exponent", self.exponent, 0.5, 6.0, "[-]")


def level_at(rating: Rating, discharge: ArrayLike) -> Floats:
    """Level above the datum [m] for a discharge [m3/s], any shape.

    Raises
    ------
    InputError
        When a discharge is negative, NaN or infinite.
    """
    flow = np.asarray(discharge, dtype=np.float64)
    if not (np.isfinite(flow) & (flow >= 0.0)).all():
        raise InputError("a discharge is negative or not finite; the rating needs numbers of 0 m3/s and more")
    level: Floats = rating.zero_level + (flow / rating.coefficient) ** (1.0 / rating.exponent)
    return level


def discharge_at(rating: Rating, level: ArrayLike) -> Floats:
    """Discharge [m3/s] for a level above the datum [m], any shape; zero at and below the zero level.

    Raises
    ------
    InputError
        When a level is NaN or infinite.
    """
    height = np.asarray(level, dtype=np.float64)
    if not np.isfinite(height).all():
        raise InputError("a level is not finite; the rating needs numbers in m above the transect's datum")
    head = np.maximum(height - rating.zero_level, 0.0)
    discharge: Floats = rating.coefficient * head**rating.exponent
    return discharge
