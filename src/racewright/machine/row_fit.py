"""Whether rows fit into their duct and beside each other."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, wall_radius
from racewright.machine.row import Row
from racewright.machine.row_solid import extent

Floats = NDArray[np.float64]

TRIMMED = 0.02
"""Share of its span by which the outermost section of a row held at both ends may reach into the wall, where it is
cut to the wall's shape. Own choice."""

_ALONG = 33


def check_row_within(row: Row, duct: Duct) -> float:
    """Refuse a row that leaves the duct's length or reaches into its wall.

    Parameters
    ----------
    row : Row
    duct : Duct

    Returns
    -------
    float
        Smallest distance from a section to the wall outside it, over the section's axial extent [m]. Below 0 for
        a row held at both ends whose outermost section is to be cut to the wall, by 2 % of its span at most.

    Raises
    ------
    InputError
        Key `place_x` (or `sweep`, where the innermost section fits) for a section ahead of the duct or behind it,
        `radius` or `clearance` for one that reaches into the wall.
    """
    front, back = extent(row)
    end = float(duct_contour(duct, 10)[0][0])
    outside = np.flatnonzero((front < 0.0) | (back > end))
    if outside.size:
        i = int(outside[0])
        raise InputError(
            f"the {row.kind} reach from {front[i]:.3g} to {back[i]:.3g} m at radius {row.radius[i]:.3g} m, the duct "
            f"from 0 to {end:.3g} m; another place, shorter chords or less sweep keeps them inside",
            key="sweep" if i > 0 and np.any(row.sweep) else "place_x",
        )
    gap = _gap(row, duct, front, back)
    held = row.clearance == 0.0
    span = float(row.radius[-1] - row.radius[0])
    if np.any(gap[:-1] <= 0.0) or gap[-1] < (-TRIMMED * span if held else 0.0) or (not held and gap[-1] == 0.0):
        i = int(np.argmin(gap))
        raise InputError(
            f"the section of the {row.kind} at radius {row.radius[i]:.4g} m reaches {-gap[i]:.3g} m into the inner "
            f"wall between x = {front[i]:.3g} and {back[i]:.3g} m; "
            + ("shorten the row" if held else "more clearance")
            + " or a place nearer the throat keeps it clear",
            key="radius" if held else "clearance",
        )
    return float(gap.min())


def axial_gap(vanes: Row, blades: Row) -> float:
    """Smallest axial distance from the vanes' rear to the blades' front at one radius [m].

    Raises
    ------
    InputError
        The rows touch (key `place_x`), or have no radius in common (key `radius`).
    """
    low = max(float(vanes.radius[0]), float(blades.radius[0]))
    high = min(float(vanes.radius[-1]), float(blades.radius[-1]))
    if low >= high:
        raise InputError("the rows have no radius in common; both reach from hub to wall", key="radius")
    radius = np.unique(np.concatenate([vanes.radius, blades.radius, np.linspace(low, high, _ALONG)]))
    radius = radius[(radius >= low) & (radius <= high)]
    back = np.interp(radius, vanes.radius, extent(vanes)[1])
    front = np.interp(radius, blades.radius, extent(blades)[0])
    gap = front - back
    worst = int(np.argmin(gap))
    if gap[worst] <= 0.0:
        raise InputError(
            f"vanes and blades overlap by {-gap[worst]:.3g} m at radius {radius[worst]:.3g} m; move them apart, or "
            "less chord or sweep",
            key="place_x",
        )
    return float(gap[worst])


def _gap(row: Row, duct: Duct, front: Floats, back: Floats) -> Floats:
    """Wall less radius at its smallest over each section's axial extent [m]."""
    share = np.linspace(0.0, 1.0, _ALONG)[None, :]
    places = front[:, None] + share * (back - front)[:, None]
    return np.asarray((wall_radius(duct, places) - row.radius[:, None]).min(axis=1), dtype=np.float64)
