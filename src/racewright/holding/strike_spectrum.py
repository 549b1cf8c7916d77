"""Dynamic factor of a short push: greatest deflection over the static one, for a pulse of half a sine."""

from __future__ import annotations

from math import cos, pi, sin

from racewright.machine.drive_checks import number

R_MAX_RATIO = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4)
R_MAX = (0.0, 0.4, 0.8, 1.1, 1.4, 1.5, 1.7, 1.8, 1.8, 1.8, 1.7, 1.7, 1.6, 1.6, 1.5)
"""Time of impact over natural period, and the factor of ASCE 7 table C5-4 (7-05 commentary; from memory, 90 %)."""
R_MAX_EDITION = "ASCE 7-05 table C5-4, from memory"


def half_sine_factor(ratio: float) -> float:
    """Greatest response of an undamped mass on a spring to half a sine, over the static deflection of its peak.

    Within the pulse the greatest turning point is sin(pi t)/(1 - b), t = 2 j/(2 r + 1), b = 1/(2 r); after it, the
    swing that stays is 2 b cos(pi r)/(1 - b^2) (closed form; pi/2 at r = 1/2).

    Parameters
    ----------
    ratio : float
        r, the pulse's time over the natural period, > 0 [-].
    """
    r = number("The time of impact over the natural period", ratio, 1e-6, 1e3)
    b = 0.5 / r
    if abs(r - 0.5) < 1e-9:
        return 0.5 * pi
    turns = [2.0 * j / (2.0 * r + 1.0) for j in range(1, int(r + 0.5) + 1)]
    within = [abs(sin(pi * t) / (1.0 - b)) for t in turns if t <= 1.0]
    return max([*within, abs(2.0 * b * cos(pi * r) / (1.0 - b * b))])


def code_factor(ratio: float) -> float:
    """The code's factor between its rows; beyond 1.4 its last value.

    Parameters
    ----------
    ratio : float
        Time of impact over natural period, >= 0 [-].
    """
    r = number("The time of impact over the natural period", ratio, 0.0, 1e3)
    if r >= R_MAX_RATIO[-1]:
        return R_MAX[-1]
    i = max(j for j, low in enumerate(R_MAX_RATIO) if low <= r)
    part = (r - R_MAX_RATIO[i]) / (R_MAX_RATIO[i + 1] - R_MAX_RATIO[i])
    return R_MAX[i] + part * (R_MAX[i + 1] - R_MAX[i])
