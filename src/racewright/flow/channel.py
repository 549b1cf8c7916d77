"""The round wall of a channel as panels."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]

AHEAD = 4.0
"""Length of wall ahead of the machine, in channel radii: disturbances fall as exp(-3.8 x/R_w)."""
CLEAREST = 1.05
"""Least channel radius over the machine's largest radius."""
_STEP, _GROWTH = 0.12, 1.12


def wall_places(front: float, back: float, end: float, largest: float, radius: float, ahead: float) -> Floats:
    """Axial places of the wall's points: short panels abreast of the machine, longer towards both ends.

    Parameters
    ----------
    front, back : float
        The machine's ends [length].
    end : float
        End of the solved wake, where the wall's panels end too [length].
    largest : float
        The machine's largest radius [length].
    radius : float
        Channel radius [length].
    ahead : float
        Length of wall ahead of the machine, in channel radii.
    """
    if not (np.isfinite(radius) and radius >= CLEAREST * largest):
        raise InputError(
            f"a channel radius of {radius:.4g} leaves no room; take {CLEAREST * largest:.4g} or more",
            key="channel_radius",
        )
    step = min(_STEP * radius, 0.5 * (radius - largest))
    first, last = front - 0.5 * radius, min(back + radius, end)
    count = int(np.ceil((last - first) / step))
    middle = np.linspace(first, last, count + 1)
    upstream = first - _grown(step, ahead * radius)
    downstream = last + _grown(step, end - last)
    return np.concatenate([upstream[::-1], middle, downstream])


def _grown(step: float, reach: float) -> Floats:
    """Distances that grow from a step to a reach, both ends exact, without the zero."""
    if reach <= step:
        return np.array([reach]) if reach > 1e-9 * step else np.empty(0)
    count = int(np.ceil(np.log(1.0 + reach / step * (_GROWTH - 1.0)) / np.log(_GROWTH)))
    total = np.cumsum(_GROWTH ** np.arange(count))
    return np.asarray(total * (reach / total[-1]), dtype=np.float64)
