"""The first blow in closed form: Routh's impact of two bodies in a plane with friction.

While the bodies touch they hardly turn, so speeds change in straight lines with the normal impulse, in pieces of
sliding, sticking and sliding back (Routh, Dynamics of a System of Rigid Bodies, 1860; Keller 1986, J. Appl. Mech. 53,
1). The work stored at greatest pressure gives the force of a linear spring, F = sqrt(2 k E); the share of it that
comes back is the square of the energetic coefficient of restitution (Stronge 1990, Proc. R. Soc. A 431, 169).
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from numba import njit


class Impact(NamedTuple):
    """Work stored at greatest pressure [J]; normal impulse, impulse along the face [N s]; jam (1 or 0)."""

    work: float
    normal: float
    along: float
    jam: float


@njit(cache=True, error_model="numpy")
def _slopes(slip: float, nn: float, nt: float, tt: float, friction: float) -> tuple[float, float, float]:
    """Change of normal speed, of slip, and impulse along the face, each per normal impulse; slip 0 may stick."""
    along = min(max(-nt / tt, -friction), friction)
    if slip != 0.0:
        along = -friction if slip > 0.0 else friction
    return nn + nt * along, nt + tt * along, along


@njit(cache=True, error_model="numpy")
def impact(
    closing: float, slip: float, nn: float, nt: float, tt: float, friction: float, restitution: float
) -> tuple[float, float, float, float]:
    """One impact, as `Impact`.

    Parameters
    ----------
    closing, slip : float
        Speed at which the places approach, > 0, and at which the log slides along the face [m/s].
    nn, nt, tt : float
        Change of relative speed per impulse, normal and along the face [1/kg].
    friction, restitution : float
        [-]
    """
    speed, normal, along, work, returned = -closing, 0.0, 0.0, 0.0, 0.0
    for _ in range(8):
        rise, drift, share = _slopes(slip, nn, nt, tt, friction)
        if rise <= 0.0:
            return work, normal, along, 1.0
        step = -slip / drift if slip * drift < 0.0 else 1e300
        if speed < 0.0:
            ends = -speed / rise
            piece = min(step, ends)
            work -= piece * (speed + 0.5 * rise * piece)
        else:
            wanted = max(restitution**2 * work - returned, 0.0)
            ends = (sqrt(speed * speed + 2.0 * rise * wanted) - speed) / rise
            piece = min(step, ends)
            returned += piece * (speed + 0.5 * rise * piece)
        rebound = speed >= 0.0
        normal, along = normal + piece, along + share * piece
        slip = 0.0 if piece == step else slip + drift * piece
        if piece == ends and rebound:
            break
        speed = 0.0 if piece == ends else speed + rise * piece
    return work, normal, along, 0.0
