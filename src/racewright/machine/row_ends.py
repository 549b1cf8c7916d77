"""Where a vane or blade ends: surfaces of revolution in the hub and in the duct, or along them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_section import duct_section
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_radius
from racewright.machine.row import Row
from racewright.machine.row_surface import RowSurface, row_surface

Floats = NDArray[np.float64]
Line = Callable[[Floats], Floats]
"""Axial place -> radius of a surface of revolution [m]."""

ROOT = 0.1
"""Share of the hub's radius that a root reaches into it. Own choice."""

_TABLE = 20001
_STEPS = 60
_LEAST_HUB = 0.5


@dataclass(frozen=True)
class StandingRow:
    """One vane or blade with its two ends.

    Attributes
    ----------
    surface : RowSurface
    inner, outer : callable
        Axial place [m] -> radius of the end nearer the axis and of the other one [m].
    reach : tuple of float
        Radii between which both ends are sought [m].
    """

    surface: RowSurface
    inner: Line
    outer: Line
    reach: tuple[float, float]

    def ends(self, place: Floats) -> tuple[Floats, Floats]:
        """Radii of both ends at places of the outline, shape of `place` [m]."""
        low, high = self.reach
        return self._met(place, self.inner, low, high), self._met(place, self.outer, low, high)

    def _met(self, place: Floats, end: Line, low: float, high: float) -> Floats:
        """Radius at which the surface meets an end, by false position (Illinois)."""

        def short(radius: Floats) -> Floats:
            return np.asarray(radius - end(self.surface.flat(place, radius)[0]), dtype=np.float64)

        below, above = np.full(place.shape, low), np.full(place.shape, high)
        at_below, at_above = np.minimum(short(below), -1e-300), np.maximum(short(above), 1e-300)
        last = np.zeros(place.shape)
        for _ in range(_STEPS):
            radius = (below * at_above - above * at_below) / (at_above - at_below)
            value = short(radius)
            if float(np.abs(value).max()) < 1e-12 * high:
                break
            under, side = value < 0.0, np.sign(value)
            kept = np.where(side == last, 0.5, 1.0)  # an end that stays twice weighs half
            at_above, at_below = np.where(under, kept * at_above, value), np.where(under, value, kept * at_below)
            last = side
            below, above = np.where(under, radius, below), np.where(under, above, radius)
        return np.asarray(radius, dtype=np.float64)


def wall_lines(duct: Duct) -> tuple[Line, Line, float]:
    """Inner and outer side of the duct as radius over x, and the axial place of its trailing edge [m]."""
    section = duct_section(duct)
    root = np.linspace(0.0, 1.0, _TABLE)
    found: list[Line] = []
    for side in (-1.0, 1.0):
        x, r = section.side(root, side)
        first = int(np.argmin(x))
        found.append(_line(x[first:], r[first:]))
    return found[0], found[1], float(section.side(np.array(1.0), 1.0)[0])


def standing(row: Row, duct: Duct, hub: Hub, *, rooted: bool) -> StandingRow:
    """A row between hub and duct; its tip, where it has a clearance, runs along the wall at that distance.

    Parameters
    ----------
    row : Row
    duct : Duct
    hub : Hub
    rooted : bool
        True: held ends reach a tenth of the hub's radius into the hub and half way through the duct's wall, to
        become one body with them. False: they end on both surfaces.

    Raises
    ------
    InputError
        The row leaves the length of duct or hub.
    """
    inside, outside, end = wall_lines(duct)
    depth = ROOT if rooted else 0.0

    def inner(x: Floats) -> Floats:
        return (1.0 - depth) * hub_radius(hub, x)

    def outer(x: Floats) -> Floats:
        wall = inside(x)
        if row.clearance > 0.0:
            return wall - row.clearance
        return wall + 0.5 * (outside(x) - wall) if rooted else wall

    low = _LEAST_HUB * (1.0 - ROOT) * hub.radius
    high = float(max(outside(np.linspace(0.0, end, 200)).max(), row.radius[-1]))
    found = StandingRow(row_surface(row, low, high), inner, outer, (low, high))
    _check(found, hub, end)
    return found


def _check(found: StandingRow, hub: Hub, end: float) -> None:
    row, place = found.surface.row, np.linspace(-1.0, 1.0, 201)
    inner, outer = found.ends(place)
    axial = found.surface.flat(place, inner)[0]
    bare = float(hub_radius(hub, axial).min())
    if bare < _LEAST_HUB * hub.radius:
        raise InputError(
            f"the {row.kind} stand from {axial.min():.3g} to {axial.max():.3g} m at the hub, whose radius falls to "
            f"{bare:.3g} m there; a longer hub or another place gives their roots at least half of its "
            f"{hub.radius:.3g} m",
            key="place_x",
        )
    share = np.linspace(0.0, 1.0, 17)[:, None]
    axial = found.surface.flat(place, inner + share * (outer - inner))[0]
    if axial.min() < 0.0 or axial.max() > end:
        raise InputError(
            f"the {row.kind} reach from {axial.min():.3g} to {axial.max():.3g} m, the duct from 0 to {end:.3g} m; "
            "another place, shorter chords or less sweep keeps them inside",
            key="place_x",
        )
    if np.any(outer <= inner):
        raise InputError(f"the {row.kind} have no length between hub and duct; a larger throat or a smaller hub has")


def _line(x: Floats, r: Floats) -> Line:
    return lambda places: np.interp(places, x, r)
