"""Water that must stand above the duct so that it draws no air."""

from __future__ import annotations

import math

from racewright.errors import InputError

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]."""


def drawing_air_cover(speed_ratio: float, head_coefficient: float, stream_speed: float) -> float:
    """Least cover against drawing air: where static pressure behind the rotor would fall to the atmosphere's.

    Static head at the throat lies lower than in the stream by (u^2 - 1) U^2/2g, behind the rotor by dh/g more
    (Bernoulli; uniform axial speed, no swirl left). Waves, eddies and speed peaks at the wall ask for more.

    Parameters
    ----------
    speed_ratio : float
        u at the rotor, >= 0 [-].
    head_coefficient : float
        CH, 0 to 1 [-].
    stream_speed : float
        U, >= 0 [m/s].

    Returns
    -------
    float
        Cover above the duct's highest point, 0 where the static head does not fall [m].

    Raises
    ------
    InputError
        For values outside these ranges.
    """
    values = (speed_ratio, head_coefficient, stream_speed)
    if not all(math.isfinite(v) and v >= 0.0 for v in values) or head_coefficient > 1.0:
        raise InputError("Cover needs speeds that are not negative and a head coefficient from 0 to 1.")
    return max(0.0, (speed_ratio**2 - 1.0 + head_coefficient) * stream_speed**2 / (2.0 * GRAVITY))
