"""Whether a closed line of points is a section: no crossing, outer side outside, inner wall one radius at each x."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def check_shape(x: Floats, r: Floats) -> None:
    """Raise InputError unless the points bound an annular section.

    Parameters
    ----------
    x, r : ndarray, shape (2 n + 1,)
        Trailing edge, inner side, leading edge (the middle point), outer side, trailing edge [m].

    Raises
    ------
    InputError
        The line crosses itself, its outer side lies inside the inner one, or the inner wall behind its foremost
        point turns back, so that it has two radii at one place.
    """
    crossed = crossing(x, r)
    if crossed is not None:
        raise InputError(
            f"the section crosses itself near {100.0 * _part(x, crossed):.0f} % of its length; "
            "less camber or thickness keeps its sides apart",
            key="camber",
        )
    if float(np.sum(x[:-1] * r[1:] - x[1:] * r[:-1])) >= 0.0:
        raise InputError("the outer side lies inside the inner side; the sides are to be exchanged", key="thickness")
    middle = x.size // 2
    wall = x[middle::-1]
    wall = wall[int(np.argmin(wall)) :]
    back = np.flatnonzero(np.diff(wall) <= 0.0)
    if back.size:
        raise InputError(
            f"the inner wall turns back at {100.0 * _part(x, float(wall[back[0]])):.0f} % of the length and has two "
            "radii there; less camber or a smaller turn of the chord keeps it single",
            key="camber",
        )


def crossing(x: Floats, r: Floats) -> float | None:
    """Axial place where a closed line of points first crosses itself, None when it does not [m]."""
    ax, ar, dx, dr = x[:-1], r[:-1], np.diff(x), np.diff(r)
    gap_x, gap_r = ax[None, :] - ax[:, None], ar[None, :] - ar[:, None]
    area = dx[:, None] * dr[None, :] - dr[:, None] * dx[None, :]
    flat = area == 0.0
    area = np.where(flat, 1.0, area)
    along = (gap_x * dr[None, :] - gap_r * dx[None, :]) / area
    other = (gap_x * dr[:, None] - gap_r * dx[:, None]) / area
    cut = (along >= 0.0) & (along <= 1.0) & (other >= 0.0) & (other <= 1.0) & ~flat
    count = np.arange(ax.size)
    apart = np.abs(count[:, None] - count[None, :])
    cut &= (apart > 1) & (apart < ax.size - 1)
    if not np.any(cut):
        return None
    first, second = np.argwhere(cut)[0]
    return float(ax[first] + along[first, second] * dx[first])


def _part(x: Floats, place: float) -> float:
    return (place - float(x.min())) / float(np.ptp(x))
