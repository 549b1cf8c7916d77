"""The wetted surfaces as panels, and their own influence, computed once for every load."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.flow.kernels import CONSTANT, FALLING, RISING, panel_matrix

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Surfaces:
    """Duct (constant strength on each panel) and hub (strength linear between nodes, zero on the axis).

    Linear strength at the hub is what makes its ends right: near the axis strength grows as r, and the kernel
    reaches no further than r, so that constant panels stay 6 to 35 % wrong there at any number of panels.

    Attributes
    ----------
    x, r : ndarray, shape (n,)
        Where psi is set: mid-points of the duct's panels, then the hub's inner nodes [length].
    duct_panels : int
        How many of the n unknowns belong to the duct.
    ends : ndarray, shape (e, 4)
        x1, r1, x2, r2 of the elements; a hub node owns two, rising to it and falling from it [length].
    shapes : ndarray of int, shape (e,)
        How the strength goes along each element.
    """

    x: Floats
    r: Floats
    duct_panels: int
    ends: Floats
    shapes: NDArray[np.int64]

    def influence(self, x: Floats, r: Floats, full: bool) -> Floats:
        """Kernel rows at the targets from unit unknowns: shape (targets, n, 4 or 1, 3)."""
        rows = panel_matrix(x, r, self.ends, self.shapes, full)
        d = self.duct_panels
        return np.concatenate([rows[:, :d], rows[:, d::2] + rows[:, d + 1 :: 2]], axis=1)

    def element_strength(self, unknown: Floats) -> Floats:
        """Strength of each element from the n unknowns."""
        d = self.duct_panels
        return np.concatenate([unknown[:d], np.repeat(unknown[d:], 2)])


def surfaces(duct_x: Floats, duct_r: Floats, hub_x: Floats, hub_r: Floats) -> Surfaces:
    """Panel the contours; either may be empty."""
    duct, hub = _ends(duct_x, duct_r), _ends(hub_x, hub_r)
    hub_elements = np.empty((max(2 * len(hub) - 2, 0), 4))
    hub_elements[0::2], hub_elements[1::2] = hub[:-1], hub[1:]
    shapes = np.concatenate([np.full(len(duct), CONSTANT), np.tile([RISING, FALLING], max(len(hub) - 1, 0))])
    return Surfaces(
        x=np.concatenate([0.5 * (duct[:, 0] + duct[:, 2]), hub_x[1:-1]]),
        r=np.concatenate([0.5 * (duct[:, 1] + duct[:, 3]), hub_r[1:-1]]),
        duct_panels=len(duct),
        ends=np.concatenate([duct, hub_elements]),
        shapes=shapes.astype(np.int64),
    )


def check_duct_contour(x: Floats, r: Floats) -> None:
    """Raise InputError unless the points run trailing edge, inner side, leading edge, outer side, trailing edge."""
    _check_points(x, r, "duct")
    if x.size < 21 or x[0] != x[-1] or r[0] != r[-1]:
        raise InputError("the contour must close at its trailing edge with 20 panels or more", key="duct_x")
    if r.min() <= 0.0:
        raise InputError("every radius of the duct must be above 0", key="duct_r")
    if float(np.sum(x[:-1] * r[1:] - x[1:] * r[:-1])) >= 0.0:
        raise InputError("the contour must go along its inner side first; reverse it", key="duct_x")


def check_hub_contour(x: Floats, r: Floats) -> None:
    """Raise InputError unless the points run from the nose to the tail, both on the axis."""
    _check_points(x, r, "hub")
    if x.size < 9 or r[0] != 0.0 or r[-1] != 0.0 or r[1:-1].min() <= 0.0 or x[-1] <= x[0]:
        raise InputError("the hub must run from nose to tail, both at radius 0, in 8 panels or more", key="hub_r")


def _check_points(x: Floats, r: Floats, name: str) -> None:
    if x.ndim != 1 or x.shape != r.shape:
        raise InputError(f"x and r must be lists of one length; found {x.shape} and {r.shape}", key=f"{name}_x")
    for values, key in ((x, f"{name}_x"), (r, f"{name}_r")):
        if not np.all(np.isfinite(values)):
            raise InputError("holds a value that is NaN or infinite; give finite lengths", key=key)
    if np.any(np.hypot(np.diff(x), np.diff(r)) == 0.0):
        raise InputError("two neighbouring points are the same; drop one", key=f"{name}_x")


def _ends(x: Floats, r: Floats) -> Floats:
    if x.size == 0:
        return np.empty((0, 4))
    return np.column_stack([x[:-1], r[:-1], x[1:], r[1:]])
