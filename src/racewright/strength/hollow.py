"""A hollow section: its outline moved inwards by the thickness of its skin."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.strength.door import positive

Floats = NDArray[np.float64]
_LEAST = 1e-6
"""Hollows smaller than this share of the section are filled: they stand in its thin end. Own choice [-]."""


def hollows(contour: ArrayLike, wall: float) -> tuple[Floats, ...]:
    """Contours of the hollows inside a skin of even thickness, shape (n, 2) each [m].

    Parameters
    ----------
    contour : array_like, shape (n, 2)
        Outline, in either direction [m].
    wall : float
        Thickness of the skin, > 0 [m].

    Returns
    -------
    tuple of ndarray
        Empty where the skins meet everywhere: the section is solid then.
    """
    positive("the wall's thickness", wall, "m", 0.006)
    points = np.array(contour, dtype=np.float64)
    if points.ndim != 2 or points.shape[1] != 2 or len(points) < 3 or not np.all(np.isfinite(points)):
        raise InputError("the contour wants three or more finite points x, y in m")
    if _area(points) < 0.0:
        points = points[::-1]
    size = float(np.ptp(points, axis=0).max())
    import manifold3d  # heavy, and of no use to a machine without walls

    outline = manifold3d.CrossSection([np.ascontiguousarray(points / size)])
    inner = outline.offset(-wall / size, manifold3d.JoinType.Miter)
    pieces = [np.asarray(piece, dtype=np.float64) * size for piece in inner.to_polygons()]
    return tuple(piece for piece in pieces if len(piece) >= 3 and _area(piece) > _LEAST * abs(_area(points)))


def _area(points: Floats) -> float:
    x, y = points.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
