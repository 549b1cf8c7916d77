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
        As `in_single_precision`.
    """
    places, corners, normals = in_single_precision(solid, scale / MILLIMETRE)
    table = np.zeros(len(corners), dtype=_TRIANGLE)
    table["normal"], table["corners"] = normals, places[corners]
    head = f"racewright {solid.name}, unit mm, {AXES}".encode("ascii", "replace")[:80].ljust(80)
    return head + np.uint32(len(corners)).tobytes() + table.tobytes()


def in_single_precision(solid: Solid, factor: float) -> tuple[Floats, Ints, Floats]:
    """Places as a file has them, triangles by places, and unit normals of the triangles.

    Parameters
    ----------
    solid : Solid
        Lengths in m.
    factor : float
        Numbers of the file for 1 m, > 0.

    Raises
    ------
    NoAnswerError
        In single precision the triangles do not close, or one has no area.
    """
    written = (solid.points * factor).astype(np.float32)
    held, back = np.unique(written, axis=0, return_inverse=True)
    corners = back.ravel()[solid.faces].astype(np.int64)
    places = held.astype(np.float64)
    across = doubled_areas(places, corners)
    length = np.linalg.norm(across, axis=1, keepdims=True)
    if np.any(length == 0.0) or not watertight(corners):
        raise NoAnswerError(
            f"the {solid.name} would not be closed in the single precision of its file; a coarser tolerance may do"
        )
    return places, corners, across / length
