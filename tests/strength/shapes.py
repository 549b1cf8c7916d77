"""Contours for the tests of this room."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def rectangle(width: float, height: float) -> Floats:
    """About the origin, width along x."""
    return 0.5 * np.array([[-width, -height], [width, -height], [width, height], [-width, height]])


def ellipse(a: float, b: float, points: int) -> Floats:
    """Half axes along x and y, points on it evenly in the parameter."""
    angle = 2.0 * np.pi * np.arange(points) / points
    return np.column_stack([a * np.cos(angle), b * np.sin(angle)])


def turned(contour: Floats, angle: float, dx: float = 0.0, dy: float = 0.0) -> Floats:
    """Turned from x towards y about the origin, then moved."""
    cosine, sine = np.cos(angle), np.sin(angle)
    return contour @ np.array([[cosine, sine], [-sine, cosine]]) + np.array([dx, dy])


def star(radii: Floats) -> Floats:
    """A closed contour that never crosses itself: one radius for each of evenly spaced angles."""
    angle = 2.0 * np.pi * np.arange(radii.size) / radii.size
    return radii[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])
