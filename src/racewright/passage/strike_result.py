"""What a strike returns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.safety import SafetyBasis

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class RowStrike:
    """One row against fish of m lengths at n radii.

    Attributes
    ----------
    name : str
    radius : ndarray, shape (n,)
        [m]
    relative_speed : ndarray, shape (n,)
        Of the edges against the water that carries the fish [m/s].
    edge_thickness : ndarray, shape (n,)
        [m]
    slant : ndarray, shape (n,)
        pi/2 is square-on [rad].
    chance, chance_axial, chance_along : ndarray, shape (m, n)
        Chance of a strike by the asked heading, with the body along the axis, and along the water [-].
    injury_low, injury, injury_high : ndarray, shape (m, n)
        Share of struck fish that die: range and screening value [-].
    mean_chance, mean_axial, mean_along : ndarray, shape (m,)
        Means of the three chances over the flow [-].
    mean_speed : float
        Relative speed, mean over the flow [m/s].
    death_low, death, death_high : ndarray, shape (m,)
        Chance to be struck and die of it, mean over the flow [-].
    """

    name: str
    radius: Floats
    relative_speed: Floats
    edge_thickness: Floats
    slant: Floats
    chance: Floats
    chance_axial: Floats
    chance_along: Floats
    injury_low: Floats
    injury: Floats
    injury_high: Floats
    mean_chance: Floats
    mean_axial: Floats
    mean_along: Floats
    mean_speed: float
    death_low: Floats
    death: Floats
    death_high: Floats


@dataclass(frozen=True, slots=True)
class Strike:
    """All rows against fish of m lengths; chances are of a fish that comes in.

    Attributes
    ----------
    fish : str
        Name of the class.
    length : ndarray, shape (m,)
        [m]
    heading : str
        How the body was taken to lie.
    rows : tuple of RowStrike
        In the order in which they are met.
    chance : ndarray, shape (m,)
        Of one strike or more, in any row [-].
    death_low, death, death_high : ndarray, shape (m,)
        Chance to die of a strike: range and screening value [-].
    fastest : float
        Highest relative speed of any edge [m/s].
    remarks : tuple of Remark
    safety : tuple of SafetyBasis
        Of the chance, of the harm, of the class.
    """

    fish: str
    length: Floats
    heading: str
    rows: tuple[RowStrike, ...]
    chance: Floats
    death_low: Floats
    death: Floats
    death_high: Floats
    fastest: float
    remarks: tuple[Remark, ...]
    safety: tuple[SafetyBasis, ...]
