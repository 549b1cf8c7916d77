"""STL, GLB and the joined body, read back by an independent library."""

from __future__ import annotations

import io
import json
import math

import numpy as np
import pytest
import trimesh

from racewright.errors import NoAnswerError
from racewright.machine.body_mesh import hub_solid
from racewright.machine.hub import Hub
from racewright.machine.machine_solids import MachineSolids, machine_solids
from racewright.machine.solid import Solid, turned
from racewright.records.glb_file import Placed, glb_bytes
from racewright.records.machine_files import machine_files, part_facts
from racewright.records.solid_fuse import fused, shared_volume
from racewright.records.stl_file import stl_bytes
from tests.machine.random_solids import random_solid_machine
from tests.machine.rows import straight
from tests.machine.test_solids import DUCT, HUB
from tests.records.judged_solids import judged, read_stl


@pytest.fixture(scope="module")
def plain() -> MachineSolids:
    return machine_solids(DUCT, HUB, straight(), straight("blades", 0.35, clearance=0.004), 5e-4)


@pytest.mark.parametrize(("seed", "scale"), [(0, 1.0), (3, 0.1), (9, 25.0), (16, 1.0)])
def test_random_machines_pass_an_independent_reader(seed: int, scale: float) -> None:
    found = judged(seed, scale)
    assert not found.faults
    assert max(found.off.values()) < 2e-3


def test_the_whole_is_one_body_and_the_gap_stays_open(plain: MachineSolids) -> None:
    """A ring and a ball joined by seven vanes have seven handles; blades that touched the ring would add theirs."""
    whole, handles = fused(plain.all_parts())
    assert handles == 7
    fast = machine_solids(DUCT, HUB, straight(), straight("blades", 0.35), 5e-4)
    assert fused(fast.all_parts())[1] == 14
    with pytest.raises(NoAnswerError, match="2 bodies instead of one"):
        fused([plain.duct, plain.hub])
    assert np.linalg.norm(whole.normals, axis=1) == pytest.approx(1.0)


def test_overlap_is_found(plain: MachineSolids) -> None:
    assert shared_volume(plain.vane, turned(plain.vane, 0.01, "next")) > 0.0
    assert shared_volume(plain.vane, turned(plain.vane, 0.9, "next")) == 0.0


def test_stl_is_in_millimetres_and_says_so(plain: MachineSolids) -> None:
    content = stl_bytes(plain.hub, 0.5)
    assert content.startswith(b"racewright hub, unit mm, x downstream, y up, z right")
    assert len(content) == 84 + 50 * len(plain.hub.faces)
    found = read_stl(content)
    assert found.bounds[:, 0] == pytest.approx([-100.0, 450.0])
    assert found.face_normals == pytest.approx(np.asarray(found.triangles_cross) / (2.0 * found.area_faces[:, None]))
    assert content == stl_bytes(plain.hub, 0.5)


def test_glb_names_places_and_colours_every_part(plain: MachineSolids) -> None:
    files = machine_files(plain, None, {"glb"}, 2.0)
    assert sorted(files) == ["blade.glb", "duct.glb", "hub.glb", "machine.glb", "vane.glb"]
    scene = trimesh.load_scene(io.BytesIO(files["machine.glb"]), file_type="glb")
    names = {"duct", "hub", *(f"vane_{k}" for k in range(1, 8)), *(f"blade_{k}" for k in range(1, 8))}
    assert set(scene.graph.nodes_geometry) == names
    assert scene.units == "meters"
    assert scene.bounds[:, 0] == pytest.approx([-0.4, 2.0 * plain.duct.points[:, 0].max()], rel=1e-6)
    placed, _mesh = scene.graph["blade_3"]
    meant = turned(plain.blade, 4.0 * math.pi / 7.0, "blade_3").points[:5] * 2.0
    assert trimesh.transform_points(2.0 * plain.blade.points[:5], placed) == pytest.approx(meant, abs=1e-6)
    vane = scene.geometry["vane"]
    assert vane.vertex_normals == pytest.approx(plain.vane.normals, abs=1e-6)
    colours = {tuple(one.visual.material.baseColorFactor) for one in scene.geometry.values()}
    assert len(colours) == 4
    vane.merge_vertices(merge_norm=True)
    assert vane.is_watertight


def test_glb_is_well_formed(plain: MachineSolids) -> None:
    """Head, chunk lengths and alignment as glTF 2.0 has them; unit, axes and bounds said."""
    content = glb_bytes([Placed(plain.hub, (("hub", 0.0),))], 1.0)
    assert content[:4] == b"glTF"
    total, size = (int.from_bytes(content[at : at + 4], "little") for at in (8, 12))
    assert total == len(content)
    assert size % 4 == 0
    tree = json.loads(content[20 : 20 + size])
    assert tree["asset"]["extras"] == {"unit": "m", "axes": "x downstream, y up, z right"}
    assert tree["accessors"][0]["max"][0] == pytest.approx(0.9)
    assert all(view["byteOffset"] % 4 == 0 for view in tree["bufferViews"])
    assert int.from_bytes(content[20 + size : 24 + size], "little") == tree["buffers"][0]["byteLength"]
    assert content == glb_bytes([Placed(plain.hub, (("hub", 0.0),))], 1.0)


def test_what_single_precision_cannot_hold_is_refused() -> None:
    """A ball of 1 mm at 10 km from the axes' origin falls together in the file."""
    ball = hub_solid(Hub(0.001, 0.0, 0.001, 0.0, 0.001), 1e-6)
    far = Solid("hub", ball.points + 10_000.0, ball.normals, ball.faces, ball.joined)
    with pytest.raises(NoAnswerError, match="single precision"):
        stl_bytes(far, 1.0)
    with pytest.raises(NoAnswerError, match="single precision"):
        glb_bytes([Placed(far, (("hub", 0.0),))], 1.0)


def test_what_a_part_measures_follows_the_scale(plain: MachineSolids) -> None:
    one, half = (part_facts(plain.hub, 1, plain.volumes["hub"], scale, 1000.0) for scale in (1.0, 0.5))
    assert one.volume == pytest.approx(8.0 * half.volume, rel=1e-6)
    assert one.area == pytest.approx(4.0 * half.area, rel=1e-6)
    assert one.mass == pytest.approx(1000.0 * one.volume)
    assert half.lowest == pytest.approx((-0.1, -0.075, -0.075), rel=1e-3)
    assert one.difference == pytest.approx(half.difference, abs=1e-6)
    assert part_facts(plain.hub, 1, plain.volumes["hub"], 1.0, None).mass is None


def test_joining_gives_the_same_bytes_twice() -> None:
    machine = random_solid_machine(10)
    found = []
    for _turn in range(2):
        solids = machine_solids(machine.duct, machine.hub, machine.vanes, machine.blades, 2e-3 * machine.hub.radius)
        found.append(stl_bytes(fused(solids.all_parts())[0], 1.0))
    assert found[0] == found[1]
