"""Lift of a flat plate in an endless row over the lift of the same plate alone, exactly.

The circle |Z| = 1 with R > 1 is mapped on the row by z = (s/2 pi) [e^(-ig) ln((R+Z)/(R-Z)) + e^(ig)
ln((RZ+1)/(RZ-1))] (Weinig 1935, Merchant & Collar 1941). With tanh y = 2R/(R^2+1), q = 1/cosh y and
D = cos^2 g + q^2 sin^2 g the map's relations shorten to

    c/s = (2/pi) [cos g atanh(tanh y cos g/sqrt D) + sin g atan(tanh y sin g/sqrt D)],
    d(c/s)/dy = (2/pi) sqrt D,    K = (2/pi)(s/c) tanh y/sqrt D,

so that c/s rises and is concave in y, and Newton's steps from y = (pi/2) c/s climb to the root from below.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError

Floats = NDArray[np.float64]
_TINY = 1e-9


@dataclass(frozen=True)
class RowFactor:
    """A flat-plate row, shape of the inputs.

    Attributes
    ----------
    factor : ndarray
        K: circulation = pi c K W sin(incidence), W and incidence at the vector mean [-].
    transmission : ndarray
        A: tan(outlet) = A tan(inlet) + (1 - A) tan(stagger) [-].
    map_y : ndarray
        Parameter y of the map, 2R/(R^2+1) = tanh y, 0 for the plate alone [-].
    """

    factor: Floats
    transmission: Floats
    map_y: Floats


def row_factor(chord_over_pitch: Floats | float, stagger: Floats | float) -> RowFactor:
    """Row factor of flat plates.

    Parameters
    ----------
    chord_over_pitch : ndarray or float
        c/s, 0 (the plate alone) to 5 [-].
    stagger : ndarray or float
        Angle of the plates from the axial direction, within +-89.9 degrees; either sign [rad].

    Returns
    -------
    RowFactor
        Accurate to 1e-9.

    Raises
    ------
    InputError
        For a value outside these ranges or not finite.
    """
    solidity, angle = np.broadcast_arrays(
        np.asarray(chord_over_pitch, dtype=np.float64), np.asarray(stagger, dtype=np.float64)
    )
    if not np.all(np.isfinite(solidity)) or np.any(solidity < 0.0) or np.any(solidity > 5.0):
        raise InputError("Chord over pitch must lie between 0 and 5.")
    if not np.all(np.isfinite(angle)) or np.any(np.abs(angle) > np.radians(89.9)):
        raise InputError("Stagger must lie within 89.9 degrees of the axial direction.")
    cos_g, sin_g = np.cos(angle), np.abs(np.sin(angle))
    y = 0.5 * np.pi * solidity
    for _ in range(60):
        value, slope, _ = _chord_over_pitch(y, cos_g, sin_g)
        step = (solidity - value) / slope
        y = y + step
        if np.all(np.abs(step) <= 1e-14 * (1.0 + y)):
            break
    else:
        raise NoAnswerError("The flat-plate row map did not settle.")
    _, _, reduced = _chord_over_pitch(y, cos_g, sin_g)
    alone = solidity < _TINY
    factor = np.where(alone, 1.0, 2.0 / np.pi * reduced / np.where(alone, 1.0, solidity))
    x = reduced * cos_g
    return RowFactor(factor, (1.0 - x) / (1.0 + x), y)


def _chord_over_pitch(y: Floats, cos_g: Floats, sin_g: Floats) -> tuple[Floats, Floats, Floats]:
    """c/s, its slope in y, and tanh y/sqrt D; the logarithm is written so that large y keeps its digits."""
    log_cosh = y + np.log1p(np.exp(-2.0 * y)) - np.log(2.0)
    q = np.exp(-log_cosh)
    root = np.sqrt(cos_g**2 + (q * sin_g) ** 2)
    reduced = np.tanh(y) / root
    log_part = np.log1p(reduced * cos_g) + log_cosh + np.log(root)
    value = 2.0 / np.pi * (cos_g * log_part + sin_g * np.arctan(reduced * sin_g))
    return value, 2.0 / np.pi * root, reduced
