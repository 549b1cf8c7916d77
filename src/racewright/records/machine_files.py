"""The files of a machine's geometry, and what each part measures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.machine.machine_solids import MachineSolids
from racewright.machine.solid import Solid, area, volume, watertight
from racewright.records.glb_file import Placed, glb_bytes
from racewright.records.stl_file import MILLIMETRE, in_single_precision, stl_bytes


@dataclass(frozen=True)
class PartFacts:
    """One part as it is written, at the scale of the files, as if solid.

    Attributes
    ----------
    name : str
        'duct', 'hub', 'vane', 'blade', or 'whole' for all of them as one body.
    count : int
        How many there are in the machine.
    volume : float
        Of one, within its triangles [m3].
    parametric_volume : float
        Of one, by quadrature of its surface without triangles [m3].
    difference : float
        Volume over parametric volume, less 1 [-].
    area : float
        Of one, roots and ends counted [m2].
    triangles : int
        Of one.
    watertight : bool
        True where each edge of the written file is run once in each direction.
    lowest, highest : tuple of float
        Corners of the box around it, in its first place: x, y, z [m].
    mass : float or None
        Of one; None without a density [kg].
    """

    name: str
    count: int
    volume: float
    parametric_volume: float
    difference: float
    area: float
    triangles: int
    watertight: bool
    lowest: tuple[float, float, float]
    highest: tuple[float, float, float]
    mass: float | None


def part_facts(solid: Solid, count: int, exact: float, scale: float, density: float | None) -> PartFacts:
    """What a part measures at a scale.

    Parameters
    ----------
    solid : Solid
        Lengths in m, at full size.
    count : int
    exact : float
        Its parametric volume at full size [m3].
    scale : float
        > 0 [-].
    density : float or None
        Of its material [kg/m3].
    """
    places, corners, _normals = in_single_precision(solid, scale / MILLIMETRE)
    places = places * MILLIMETRE
    held, meant = volume(places, corners), exact * scale**3
    low, high = places.min(axis=0).tolist(), places.max(axis=0).tolist()
    return PartFacts(
        solid.name,
        count,
        held,
        meant,
        held / meant - 1.0,
        area(places, corners),
        len(corners),
        watertight(corners),
        (low[0], low[1], low[2]),
        (high[0], high[1], high[2]),
        None if density is None else density * held,
    )


def machine_files(solids: MachineSolids, whole: Solid | None, kinds: set[str], scale: float) -> dict[str, bytes]:
    """Files of the solids by name.

    Parameters
    ----------
    solids : MachineSolids
    whole : Solid or None
        All parts as one body.
    kinds : set of str
        'stl': each part and the whole, in mm. 'glb': the same, and `machine.glb` with every part in its place
        under its name, in m.
    scale : float
        > 0 [-].
    """
    parts = [solids.duct, solids.hub, solids.vane, solids.blade]
    bodies = parts if whole is None else [*parts, whole]
    files = {f"{one.name}.stl": stl_bytes(one, scale) for one in bodies if "stl" in kinds}
    if "glb" in kinds:
        files |= {f"{one.name}.glb": glb_bytes([Placed(one, ((one.name, 0.0),))], scale) for one in bodies}
        files["machine.glb"] = glb_bytes(placed(solids), scale)
    return files


def placed(solids: MachineSolids) -> list[Placed]:
    """Every part of the machine in its place, copies numbered from 1 in the direction of rotation."""
    found = [Placed(one, ((one.name, 0.0),)) for one in (solids.duct, solids.hub)]
    for one, count in ((solids.vane, solids.vanes), (solids.blade, solids.blades)):
        found.append(Placed(one, tuple((f"{one.name}_{k + 1}", 2.0 * math.pi * k / count) for k in range(count))))
    return found
