"""The surface of one vane or blade as a function of place on the outline and radius."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

from racewright.machine.over_radius import read
from racewright.machine.row import Row
from racewright.machine.sections import FAMILIES, Family

Floats = NDArray[np.float64]

SQUARE = 3.0
"""End of the outline where the trailing edge is open; 1 where it is closed."""

_STATIONS = 1025
_STEP = 1e-5


@dataclass(frozen=True)
class RowSurface:
    """One vane or blade between two radii.

    A place u on the outline runs from the trailing edge (-1) along the negative side to the leading edge (0) and
    along the positive side to the trailing edge (1); |u| is the root of the distance along the chord. From 1 to 3
    it runs back over an open trailing edge, a straight line on the developed cylinder.

    Attributes
    ----------
    row : Row
        Sections between and beyond its radii are read as `row_at` reads them.
    family : Family
    along, around : callable
        radius [m] -> axial place of mid-chord [m], and its angle about the axis [rad].
    shape : callable
        radius [m] -> chord [m], stagger [rad], camber [rad], thickness [-], on a new last axis.
    """

    row: Row
    family: Family
    along: Callable[[Floats], Floats]
    around: Callable[[Floats], Floats]
    shape: Callable[[Floats], Floats]

    @property
    def closed(self) -> bool:
        """True where both sides meet in the trailing edge."""
        return self.family.edge_thickness(float(self.row.thickness[0])) == 0.0

    @property
    def sharp(self) -> bool:
        """True where the leading edge has no radius."""
        return self.family.nose_radius(float(self.row.thickness[0])) == 0.0

    def flat(self, place: Floats, radius: Floats) -> tuple[Floats, Floats]:
        """Axial place [m] and angle about the axis [rad] of the surface, both of the common shape."""
        place, radius = np.broadcast_arrays(place, radius)
        values = self.shape(radius)
        if np.all(place <= 1.0):
            return self._side(place, radius, values)
        share = np.clip(0.5 * (place - 1.0), 0.0, 1.0)
        first = self._side(np.minimum(place, 1.0), radius, values)
        last = self._side(np.full(place.shape, -1.0), radius, values)
        found = [a + share * (b - a) for a, b in zip(first, last, strict=True)]
        return found[0], found[1]

    def point(self, place: Floats, radius: Floats) -> Floats:
        """Points in space, shape (..., 3) [m]."""
        axial, angle = self.flat(place, radius)
        return np.stack([axial, radius * np.cos(angle), radius * np.sin(angle)], axis=-1)

    def normal(self, place: Floats, radius: Floats, first: float, last: float) -> Floats:
        """Unit normals outwards, shape (..., 3), of the piece of the outline from `first` to `last`.

        Central differences, one-sided at the ends of the piece, so that a sharp edge keeps a normal for each side.
        """
        place, radius = np.broadcast_arrays(place, radius)
        step = _STEP * radius
        low, high = np.maximum(place - _STEP, first), np.minimum(place + _STEP, last)
        along = self.point(high, radius) - self.point(low, radius)
        out = self.point(place, radius + step) - self.point(place, radius - step)
        across = np.cross(along, out)
        return np.asarray(across / np.linalg.norm(across, axis=-1, keepdims=True), dtype=np.float64)

    def _side(self, place: Floats, radius: Floats, values: Floats) -> tuple[Floats, Floats]:
        chord, stagger, camber, thickness = np.moveaxis(values, -1, 0)
        root = np.abs(place)
        x = root * root
        rise, turn = self.family.mean_line(x, camber)
        half = np.where(place > 0.0, 1.0, -1.0) * self.family.half_thickness(root, thickness)
        along = chord * (x - half * np.sin(turn) - 0.5)
        across = chord * (rise + half * np.cos(turn))
        cosine, sine = np.cos(stagger), np.sin(stagger)
        axial = self.along(radius) + along * cosine - across * sine
        return axial, self.around(radius) + (along * sine + across * cosine) / radius


def row_surface(row: Row, low: float, high: float) -> RowSurface:
    """The surface of a row between two radii, which may lie beyond its own [m]."""
    hub = float(row.radius[0])
    radius = np.unique(
        np.append(np.linspace(min(low, hub) * 0.999, max(high, row.radius[-1]) * 1.001, _STATIONS), hub)
    )
    start = int(np.searchsorted(radius, hub))
    swept = np.tan(read(row.radius, row.sweep, radius))
    leaned = np.tan(read(row.radius, row.lean, radius)) / radius
    along = CubicHermiteSpline(radius, row.place_x + _summed(swept, radius, start), swept)
    around = CubicHermiteSpline(radius, _summed(leaned, radius, start), leaned)
    return RowSurface(row, FAMILIES[row.family], along, around, _shape(row))


def _shape(row: Row) -> Callable[[Floats], Floats]:
    """The sections over radius as `over_radius.read` reads them, all columns at once."""
    curve = PchipInterpolator(row.radius, np.column_stack([row.chord, row.stagger, row.camber, row.thickness]))
    slope = curve.derivative()
    ends = row.radius[0], row.radius[-1]

    def read_all(radius: Floats) -> Floats:
        inside = np.clip(radius, *ends)
        beyond = radius - inside
        found = curve(inside)
        return np.asarray(found + slope(inside) * beyond[..., None] if np.any(beyond) else found, dtype=np.float64)

    return read_all


def _summed(rate: Floats, radius: Floats, start: int) -> Floats:
    whole = np.concatenate([[0.0], np.cumsum(0.5 * (rate[1:] + rate[:-1]) * np.diff(radius))])
    return np.asarray(whole - whole[start], dtype=np.float64)
