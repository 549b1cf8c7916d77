"""One random machine through its files and back by an independent reader, for the tests and the proof."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
import trimesh

from racewright.machine.machine_solids import machine_solids, tolerance_limits
from racewright.machine.solid import Solid, turned
from racewright.records.solid_fuse import fused, shared_volume
from racewright.records.stl_file import stl_bytes
from tests.machine.random_solids import random_solid_machine


@dataclass(frozen=True)
class Verdict:
    """What a reader found in the files of one machine.

    Attributes
    ----------
    seed : int
    off : dict
        Part -> largest share by which its volume differs from the parametric solid.
    faults : tuple of str
        What is not as it should be.
    """

    seed: int
    off: dict[str, float]
    faults: tuple[str, ...]


def read_stl(content: bytes) -> trimesh.Trimesh:
    """Through the library's own reader, equal corners joined."""
    found = trimesh.load_mesh(io.BytesIO(content), file_type="stl")
    assert isinstance(found, trimesh.Trimesh)
    return found


def judged(seed: int, scale: float = 1.0) -> Verdict:
    """Parts and whole of a random machine: closed, outwards, volume, handles, apart from each other."""
    machine = random_solid_machine(seed)
    rows = (machine.vanes, machine.blades)
    kept = min(1e-3 * machine.duct.throat_radius, tolerance_limits(machine.duct, machine.hub, rows)[1])
    solids = machine_solids(machine.duct, machine.hub, *rows, kept)
    whole, handles = fused(solids.all_parts())
    faults, off = [], {}
    for one in (solids.duct, solids.hub, solids.vane, solids.blade, whole):
        found = read_stl(stl_bytes(one, scale))
        off[one.name] = abs(found.volume * 1e-9 / scale**3 / solids.volumes[one.name] - 1.0)
        if not (found.is_watertight and found.is_winding_consistent and found.volume > 0.0):
            faults.append(f"{one.name} is not closed")
        if float(found.area_faces.min()) <= 0.0:
            faults.append(f"{one.name} has a triangle without area")
        if not np.allclose(np.linalg.norm(one.normals, axis=1), 1.0):
            faults.append(f"{one.name} has a normal that is not of length 1")
    if handles != solids.vanes:
        faults.append(f"{handles} handles for {solids.vanes} vanes")
    faults += _overlaps(solids.vane, solids.vanes, solids.blade, solids.blades)
    return Verdict(seed, off, tuple(faults))


def _overlaps(vane: Solid, vanes: int, blade: Solid, blades: int) -> list[str]:
    """Neighbours of a row, and each blade with the vane."""
    pairs = [("vanes", vane, turned(vane, 2.0 * np.pi / vanes, "next"))]
    pairs += [("blades", blade, turned(blade, 2.0 * np.pi / blades, "next"))]
    pairs += [("vane and blade", vane, turned(blade, 2.0 * np.pi * k / blades, "other")) for k in range(blades)]
    return [f"{names} overlap" for names, a, b in pairs if shared_volume(a, b) > 0.0]
