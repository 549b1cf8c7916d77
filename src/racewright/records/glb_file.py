"""Solids as a binary glTF 2.0 file (GLB): named nodes, true normals, plain colours, in metres."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

from racewright.machine.solid import Solid
from racewright.records.stl_file import AXES, in_single_precision

COLOURS = {
    "duct": (0.36, 0.47, 0.52),
    "hub": (0.16, 0.19, 0.21),
    "vane": (0.55, 0.59, 0.62),
    "blade": (0.54, 0.20, 0.02),
    "whole": (0.45, 0.50, 0.53),
}
"""Red, green and blue, 0 to 1, linear."""

_FLOAT, _UNSIGNED, _ARRAY, _ELEMENT = 5126, 5125, 34962, 34963
_HEAD, _JSON, _BINARY = 0x46546C67, 0x4E4F534A, 0x004E4942


@dataclass(frozen=True)
class Placed:
    """A solid and where it stands.

    Attributes
    ----------
    solid : Solid
        Lengths in m; its name chooses the colour.
    nodes : tuple of (str, float)
        Name and angle about the axis, in the direction of rotation, of each copy [rad].
    """

    solid: Solid
    nodes: tuple[tuple[str, float], ...]


def glb_bytes(things: Sequence[Placed], scale: float) -> bytes:
    """The file's content, the same bytes for the same things.

    Parameters
    ----------
    things : sequence of Placed
        Copies share their triangles.
    scale : float
        Size of the file's bodies over that of the solids, > 0 [-].

    Raises
    ------
    NoAnswerError
        As `in_single_precision`.
    """
    binary = _Binary()
    meshes, materials, nodes = [], [], []
    for number, thing in enumerate(things):
        solid = thing.solid
        in_single_precision(solid, scale)
        attributes = {
            "POSITION": binary.add((solid.points * scale).astype("<f4"), "VEC3", _ARRAY, bounds=True),
            "NORMAL": binary.add(solid.normals.astype("<f4"), "VEC3", _ARRAY),
        }
        faces = binary.add(solid.faces.astype("<u4").ravel(), "SCALAR", _ELEMENT)
        meshes.append(
            {"name": solid.name, "primitives": [{"attributes": attributes, "indices": faces, "material": number}]}
        )
        materials.append(_material(solid.name))
        for name, angle in thing.nodes:
            turn = {"rotation": [math.sin(0.5 * angle), 0.0, 0.0, math.cos(0.5 * angle)]} if angle else {}
            nodes.append({"name": name, "mesh": number, **turn})
    top = {"name": "machine", "children": list(range(len(nodes)))}
    tree: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "racewright", "extras": {"unit": "m", "axes": AXES}},
        "scene": 0,
        "scenes": [{"nodes": [len(nodes)]}],
        "nodes": [*nodes, top],
        "meshes": meshes,
        "materials": materials,
        "accessors": binary.accessors,
        "bufferViews": binary.views,
        "buffers": [{"byteLength": binary.size}],
    }
    text = json.dumps(tree, separators=(",", ":"), allow_nan=False).encode()
    chunks = _chunk(_JSON, text, b" ") + _chunk(_BINARY, b"".join(binary.parts), b"\0")
    return _words(_HEAD, 2, 12 + len(chunks)) + chunks


def _material(name: str) -> dict[str, Any]:
    colour = [*COLOURS[name], 1.0]
    return {
        "name": name,
        "pbrMetallicRoughness": {"baseColorFactor": colour, "metallicFactor": 0.0, "roughnessFactor": 0.7},
    }


class _Binary:
    """Arrays one behind the other, each with its view and accessor."""

    def __init__(self) -> None:
        self.parts: list[bytes] = []
        self.views: list[dict[str, int]] = []
        self.accessors: list[dict[str, Any]] = []
        self.size = 0

    def add(self, values: NDArray[Any], kind: str, target: int, *, bounds: bool = False) -> int:
        content = values.tobytes()
        self.views.append({"buffer": 0, "byteOffset": self.size, "byteLength": len(content), "target": target})
        one: dict[str, Any] = {
            "bufferView": len(self.views) - 1,
            "componentType": _UNSIGNED if kind == "SCALAR" else _FLOAT,
            "count": len(values),
            "type": kind,
        }
        if bounds:
            one |= {"min": values.min(axis=0).tolist(), "max": values.max(axis=0).tolist()}
        self.accessors.append(one)
        self.parts.append(content)
        self.size += len(content)
        return len(self.accessors) - 1


def _chunk(kind: int, content: bytes, pad: bytes) -> bytes:
    content += pad * (-len(content) % 4)
    return _words(len(content), kind) + content


def _words(*values: int) -> bytes:
    return b"".join(value.to_bytes(4, "little") for value in values)
