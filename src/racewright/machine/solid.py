"""A solid as triangles: points with the true normals of the surface they stand for, split at sharp edges."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Solid:
    """One body; x downstream, y up, z to the right when looking downstream.

    Attributes
    ----------
    name : str
        What it is: 'duct', 'hub', 'vane', 'blade'.
    points : ndarray, shape (n, 3)
        Points on the surface [m]. A point on a sharp edge is there once for each surface that meets in it.
    normals : ndarray, shape (n, 3)
        Unit normals of the surface at the points, outwards.
    faces : ndarray, shape (k, 3)
        Triangles by the numbers of their points, anticlockwise as seen from outside.
    joined : ndarray, shape (n,)
        Number of the first point at the same place: `joined[faces]` is closed.
    """

    name: str
    points: Floats
    normals: Floats
    faces: Ints
    joined: Ints


@dataclass(frozen=True)
class Patch:
    """A grid of points and normals, shape (i, j, 3) each; see `grid_faces` for its triangles."""

    points: Floats
    normals: Floats
    faces: Ints


def grid_faces(rows: int, columns: int, *, crossed: Ints | None = None, flip: bool = False) -> Ints:
    """Triangles of a grid whose points are numbered row by row; its normal is (along rows) x (along columns).

    `crossed` names rows of cells whose diagonal runs the other way, `flip` turns the triangles over.
    """
    i, j = np.meshgrid(np.arange(rows - 1), np.arange(columns - 1), indexing="ij")
    a = i * columns + j
    b, c, d = a + columns, a + 1, a + columns + 1
    plain = np.stack([np.stack([a, b, c], axis=-1), np.stack([b, d, c], axis=-1)], axis=2)
    other = np.stack([np.stack([a, b, d], axis=-1), np.stack([a, d, c], axis=-1)], axis=2)
    if crossed is not None:
        plain[crossed] = other[crossed]
    faces = plain.reshape(-1, 3).astype(np.int64)
    return faces[:, ::-1] if flip else faces


def sewn(name: str, patches: list[Patch]) -> Solid:
    """One solid of patches whose edges share their points to the last bit; triangles without area are left out."""
    points = np.concatenate([patch.points.reshape(-1, 3) for patch in patches]) + 0.0
    normals = np.concatenate([patch.normals.reshape(-1, 3) for patch in patches])
    start = np.cumsum([0] + [patch.points.size // 3 for patch in patches])
    faces = np.concatenate([patch.faces + first for patch, first in zip(patches, start[:-1], strict=True)])
    _own, first, back = np.unique(points, axis=0, return_index=True, return_inverse=True)
    joined = first[back.ravel()].astype(np.int64)
    a, b, c = joined[faces].T
    return Solid(name, points, normals, faces[(a != b) & (b != c) & (c != a)], joined)


def turned(solid: Solid, angle: float, name: str) -> Solid:
    """The solid turned about the axis by an angle in the direction of rotation [rad], under another name."""
    cosine, sine = np.cos(angle), np.sin(angle)
    turn = np.array([[1.0, 0.0, 0.0], [0.0, cosine, -sine], [0.0, sine, cosine]])
    return replace(solid, name=name, points=solid.points @ turn.T, normals=solid.normals @ turn.T)


def volume(points: Floats, faces: Ints) -> float:
    """Volume within triangles, positive when they look outwards [length^3]. Closed form (tetrahedra)."""
    centred = points - points.mean(axis=0)
    a, b, c = (centred[faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6.0


def area(points: Floats, faces: Ints) -> float:
    """Area of triangles [length^2]."""
    return float(np.linalg.norm(doubled_areas(points, faces), axis=1).sum()) / 2.0


def doubled_areas(points: Floats, faces: Ints) -> Floats:
    """Normals of triangles, as long as twice their area, shape (k, 3) [length^2]."""
    a, b, c = (points[faces[:, k]] for k in range(3))
    return np.asarray(np.cross(b - a, c - a), dtype=np.float64)


def watertight(faces: Ints) -> bool:
    """True where each edge is run once in each direction, by numbers that are one for each place."""
    if faces.size == 0:
        return False
    start, end = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    size = int(faces.max()) + 1
    there, back = np.sort(start * size + end), np.sort(end * size + start)
    return bool(np.all(there[1:] > there[:-1]) and np.array_equal(there, back))
