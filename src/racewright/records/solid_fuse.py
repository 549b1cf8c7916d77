"""Parts joined into one body."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import numpy as np

from racewright.errors import NoAnswerError
from racewright.machine.solid import Floats, Solid, watertight

SHORTEST = 2e-6
"""Edges below this share of the body's size are taken out after joining: single precision, in which the files are
written, does not hold them apart. Own choice."""


def fused(parts: Sequence[Solid], name: str = "whole") -> tuple[Solid, int]:
    """All parts as one body, and how many handles it has (a ring has one).

    Parameters
    ----------
    parts : sequence of Solid
        Each overlaps another one; normals are carried along.
    name : str

    Raises
    ------
    NoAnswerError
        The parts do not touch, or their union is not closed.
    """
    size = float(np.ptp(np.concatenate([part.points for part in parts]), axis=0).max())
    whole = manifold3d.Manifold.batch_boolean([_body(part) for part in parts], manifold3d.OpType.Add)
    whole = whole.simplify(SHORTEST * size)
    pieces = whole.decompose()
    if whole.status() != manifold3d.Error.NoError or len(pieces) != 1:
        raise NoAnswerError(
            f"the parts make {len(pieces)} bodies instead of one ({whole.status().name}); a finer tolerance, or rows "
            "that stand clear of the hub's ends, may join them"
        )
    solid = _solid(whole.to_mesh64(), name)
    if not watertight(solid.joined[solid.faces]):
        raise NoAnswerError("the joined body is not closed; another tolerance may close it")
    return solid, int(whole.genus())


def shared_volume(first: Solid, second: Solid) -> float:
    """Volume that two solids have in common, 0 when they stand apart [m3]."""
    return float((_body(first) ^ _body(second)).volume())


def _body(solid: Solid) -> manifold3d.Manifold:
    twice = np.flatnonzero(solid.joined != np.arange(solid.joined.size))
    mesh = manifold3d.Mesh64(
        vert_properties=np.ascontiguousarray(np.hstack([solid.points, solid.normals])),
        tri_verts=np.ascontiguousarray(solid.faces.astype(np.uint64)),
        merge_from_vert=twice.astype(np.uint64),
        merge_to_vert=solid.joined[twice].astype(np.uint64),
    )
    body = manifold3d.Manifold(mesh)
    if body.status() != manifold3d.Error.NoError:
        raise NoAnswerError(f"the {solid.name} is not closed ({body.status().name}); another tolerance may close it")
    return body


def _solid(mesh: manifold3d.Mesh64, name: str) -> Solid:
    table: Floats = np.asarray(mesh.vert_properties, dtype=np.float64)
    joined = np.arange(len(table))
    joined[np.asarray(mesh.merge_from_vert, dtype=np.int64)] = np.asarray(mesh.merge_to_vert, dtype=np.int64)
    faces = np.asarray(mesh.tri_verts, dtype=np.int64)
    points = table[joined, :3]
    normals = table[:, 3:6]
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    return Solid(name, points, normals / np.where(length > 0.0, length, 1.0), faces, joined)
