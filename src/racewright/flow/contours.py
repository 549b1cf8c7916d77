"""Checks of the given contours, and radii read from them between their points."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline, PchipInterpolator

from racewright.errors import InputError

Floats = NDArray[np.float64]


def check_duct_contour(x: Floats, r: Floats) -> None:
    """Raise InputError unless the points run from the trailing edge along the inner side, then the outer."""
    _check_points(x, r, "duct")
    if x.size < 21 or x[0] != x[-1] or r[0] != r[-1]:
        raise InputError("the contour must close at its trailing edge with 20 panels or more", key="duct_x")
    if r.min() <= 0.0:
        raise InputError("every radius of the duct must be above 0", key="duct_r")
    if float(np.sum(x[:-1] * r[1:] - x[1:] * r[:-1])) >= 0.0:
        raise InputError("the contour must go along its inner side first; reverse it", key="duct_x")
    crossed = first_crossing(x, r)
    if crossed is not None:
        raise InputError(
            f"the contour crosses itself near x = {crossed[0]:.4g}, r = {crossed[1]:.4g}; its sides must keep apart",
            key="duct_x",
        )


def check_hub_contour(x: Floats, r: Floats) -> None:
    """Raise InputError unless the points run from the nose to the tail, both on the axis."""
    _check_points(x, r, "hub")
    if x.size < 9 or r[0] != 0.0 or r[-1] != 0.0 or r[1:-1].min() <= 0.0 or x[-1] <= x[0]:
        raise InputError("the hub must run from nose to tail, both at radius 0, in 8 panels or more", key="hub_r")


def first_crossing(x: Floats, r: Floats) -> tuple[float, float] | None:
    """Where a line of points first crosses or touches itself, but for the joints of neighbours and of its ends."""
    ax, ar, bx, br = x[:-1], r[:-1], x[1:], r[1:]
    dx, dr = bx - ax, br - ar
    gap_x, gap_r = ax[None, :] - ax[:, None], ar[None, :] - ar[:, None]
    area = dx[:, None] * dr[None, :] - dr[:, None] * dx[None, :]
    with np.errstate(divide="ignore", invalid="ignore"):
        along = (gap_x * dr[None, :] - gap_r * dx[None, :]) / area
        other = (gap_x * dr[:, None] - gap_r * dx[:, None]) / area
    cut = (along >= 0.0) & (along <= 1.0) & (other >= 0.0) & (other <= 1.0)
    count = np.arange(ax.size)
    apart = np.abs(count[:, None] - count[None, :])
    closed = x[0] == x[-1] and r[0] == r[-1]
    cut &= (apart > 1) & ~(closed & (apart == ax.size - 1))
    if not np.any(cut):
        return None
    first = int(np.argmax(cut.any(axis=1)))
    second = int(np.argmax(cut[first]))
    return float(ax[first] + along[first, second] * dx[first]), float(ar[first] + along[first, second] * dr[first])


def check_within_sheet(hub_x: Floats, hub_r: Floats, sheet_x: Floats, sheet_r: Floats) -> None:
    """Raise InputError where the hub reaches beyond a free sheet (one row of radii a load)."""
    behind = (hub_x > sheet_x[0]) & (hub_x <= sheet_x[-1])
    for radius in sheet_r:
        if np.any(hub_r[behind] >= np.interp(hub_x[behind], sheet_x, radius)):
            raise InputError(
                "the hub reaches beyond the free sheet behind the duct; shorten it or make it slimmer", key="hub_r"
            )


def _check_points(x: Floats, r: Floats, name: str) -> None:
    if x.ndim != 1 or x.shape != r.shape:
        raise InputError(f"x and r must be lists of one length; found {x.shape} and {r.shape}", key=f"{name}_x")
    for values, key in ((x, f"{name}_x"), (r, f"{name}_r")):
        if not np.all(np.isfinite(values)):
            raise InputError("holds a value that is NaN or infinite; give finite lengths", key=key)
    if np.any(np.hypot(np.diff(x), np.diff(r)) == 0.0):
        raise InputError("two neighbouring points are the same; drop one", key=f"{name}_x")


def inner_side(duct_x: Floats, duct_r: Floats) -> tuple[Floats, Floats]:
    """Points of the duct's inner side in the direction of the flow, from its foremost one."""
    first = int(np.argmin(duct_x))
    return duct_x[first::-1], duct_r[first::-1]


def radius_at(x: Floats, r: Floats, place: float) -> float:
    """Radius of a line of points (x growing) at a place within it, by cubic splines over their count."""
    count = np.arange(x.size)
    along = CubicSpline(count, x)
    low, high = 0.0, float(x.size - 1)
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if along(middle) < place else (low, middle)
    return float(CubicSpline(count, r)(0.5 * (low + high)))


def hub_radius_at(hub_x: Floats, hub_r: Floats, place: float) -> float:
    """Radius of the hub at an axial place; 0 without a hub, ahead of it and behind it.

    By monotone cubics: the curvature of a hub may jump, which makes splines swing.
    """
    if not hub_x.size or not hub_x[0] < place < hub_x[-1]:
        return 0.0
    return float(PchipInterpolator(hub_x, hub_r)(place))


def check_clear(duct_x: Floats, duct_r: Floats, hub_x: Floats, hub_r: Floats) -> None:
    """Raise InputError where the hub touches the duct."""
    wall_x, wall_r = inner_side(duct_x, duct_r)
    within = (hub_x >= wall_x[0]) & (hub_x <= wall_x[-1])
    if np.any(hub_r[within] > 0.95 * np.interp(hub_x[within], wall_x, wall_r)):
        raise InputError("the hub fills the duct; keep it below 0.95 of the inner radius", key="hub_r")
