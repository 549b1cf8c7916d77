"""A solid as a binary STL file: triangles alone, in millimetres."""

from __future__ import annotations

import numpy as np

from racewright.errors import NoAnswerError
from racewright.machine.solid import Floats, Ints, Solid, doubled_areas, watertight

MILLIMETRE = 1e-3
"""Unit of the file [m]. STL has none of its own; makers' programs take its numbers for millimetres."""

AXES = "x downstream, y up, z right"
"""Axes of every file, seen looking downstream; the rotor turns from y to z, clockwise."""

_TRIANGLE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])


def stl_bytes(solid: Solid, scale: float) -> bytes:
    """The file's content, the same bytes for the same solid.

    Parameters
    ----------
    solid : Solid
        Lengths in m.
    scale : float
        Size of the file's body over that of the solid, > 0 [-].

    Raises
    ------
    NoAnswerError
        In the file's single precision the triangles would not close or would have no area.
    """
    places, corners, normals = in_single_precision(solid, scale)
    if not watertight(corners):
        raise NoAnswerError(f"the {solid.name} would not be closed in single precision; a coarser tolerance may do")
    table = np.zeros(len(corners), dtype=_TRIANGLE)
    table["normal"], table["corners"] = normals, places[corners]
    head = f"racewright {solid.name}, unit mm, {AXES}".encode("ascii", "replace")[:80].ljust(80)
    return head + np.uint32(len(corners)).tobytes() + table.tobytes()


def in_single_precision(solid: Solid, scale: float) -> tuple[Floats, Ints, Floats]:
    """Places in mm as the file has them, triangles by places, and unit normals of the triangles."""
    written = (solid.points * (scale / MILLIMETRE)).astype(np.float32)
    places, back = np.unique(written, axis=0, return_inverse=True)
    corners = back.ravel()[solid.faces].astype(np.int64)
    across = doubled_areas(places.astype(np.float64), corners)
    length = np.linalg.norm(across, axis=1, keepdims=True)
    if np.any(length == 0.0):
        raise NoAnswerError(
            f"triangles of the {solid.name} have no area in single precision; a coarser tolerance may do"
        )
    return places.astype(np.float64), corners, across / length
