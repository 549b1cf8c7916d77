"""Loss of sound on its way: spreading by a named law, and absorption."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers
from racewright.errors import InputError

Floats = NDArray[np.float64]

FARTHEST = 1e6
"""[m]"""


def _mixed(distance: Floats, depth: float) -> Floats:
    near = np.minimum(distance, depth)
    return np.asarray(20.0 * np.log10(near) + 10.0 * np.log10(distance / near), dtype=np.float64)


SPREADINGS: dict[str, Callable[[Floats, float], Floats]] = {
    "spherical": lambda distance, _depth: 20.0 * np.log10(distance),
    "practical": lambda distance, _depth: 15.0 * np.log10(distance),
    "cylindrical": lambda distance, _depth: 10.0 * np.log10(distance),
    "mixed": _mixed,
}
"""Named laws over distance and water depth: 20, 15, 10 lg r; spherical up to one depth, then cylindrical."""


def spreading_loss(name: str, distance: ArrayLike, water_depth: float | None = None) -> Floats:
    """Loss by spreading, shape of distance [dB re 1 m].

    Parameters
    ----------
    name : str
        A name of `SPREADINGS`.
    distance : array_like
        1 to 1e6: the source level belongs to 1 m, and nearer the far field does not hold [m].
    water_depth : float, optional
        At least 1; the mixed law wants it [m].

    Raises
    ------
    InputError
        An unknown law, a value out of range, no depth for the mixed law.
    """
    if name not in SPREADINGS:
        raise InputError(f"no law of spreading is called {name!r}; there are {', '.join(SPREADINGS)}")
    way = numbers("distance", distance, 1.0, FARTHEST, "m")
    if name != "mixed":
        return np.asarray(SPREADINGS[name](way, 0.0), dtype=np.float64)
    if water_depth is None:
        raise InputError("mixed spreading wants the depth of the water, e.g. 6 m", key="water_depth")
    return _mixed(way, float(numbers("water_depth", water_depth, 1.0, 12000.0, "m")))


def propagation_loss(
    name: str, distance: ArrayLike, absorption: ArrayLike = 0.0, water_depth: float | None = None
) -> Floats:
    """Loss by spreading and absorption, distance and absorption laid over each other [dB re 1 m].

    `absorption` 0 to 100 [dB/m]; the rest as `spreading_loss`.
    """
    taken = numbers("absorption", absorption, 0.0, 100.0, "dB/m")
    way = numbers("distance", distance, 1.0, FARTHEST, "m")
    return np.asarray(spreading_loss(name, way, water_depth) + taken * way, dtype=np.float64)
