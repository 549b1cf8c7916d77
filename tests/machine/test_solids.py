"""Duct, hub, vane and blade as triangles: closed, outwards, near the surface, with its normals and its volume."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.machine.body_mesh import duct_solid, duct_volume, hub_solid, hub_volume
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import throat_x, wall_radius
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_radius
from racewright.machine.machine_solids import MachineSolids, machine_solids, tolerance_limits
from racewright.machine.measures import measures, row_volume
from racewright.machine.row import Row
from racewright.machine.row_ends import StandingRow, standing
from racewright.machine.row_mesh import row_solid
from racewright.machine.row_surface import row_surface
from racewright.machine.row_volume import standing_volume
from racewright.machine.sections import FAMILIES, section_points
from racewright.machine.solid import Solid, area, doubled_areas, turned, volume, watertight
from tests.machine.random_solids import RandomMachine, random_solid_machine
from tests.machine.rows import straight

SEEDS = (1, 4, 11, 18)
EVEN = np.ones(5)
DUCT = Duct(0.5, 1.5, 1.0, 0.12)
HUB = Hub(0.15, -0.2, 0.2, 0.5, 0.4)


@lru_cache(maxsize=4)
def made(seed: int) -> tuple[RandomMachine, MachineSolids, float]:
    machine = random_solid_machine(seed)
    rows = (machine.vanes, machine.blades)
    kept = min(1e-3 * machine.duct.throat_radius, tolerance_limits(machine.duct, machine.hub, rows)[1])
    return machine, machine_solids(machine.duct, machine.hub, *rows, kept), kept


def between(row: Row, low: float, high: float, slope: float = 0.0) -> StandingRow:
    """A row between a cylinder and a cone."""
    inner, outer = (lambda x: np.full(x.shape, low)), (lambda x: high + slope * x)
    reach = (0.8 * low, 1.2 * high)
    return StandingRow(row_surface(row, *reach), inner, outer, reach)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("part", ["duct", "hub", "vane", "blade"])
def test_parts_are_closed_and_hold_their_volume(seed: int, part: str) -> None:
    _machine, solids, _kept = made(seed)
    solid: Solid = getattr(solids, part)
    corners = solid.joined[solid.faces]
    assert watertight(corners)
    assert volume(solid.points, solid.faces) == pytest.approx(solids.volumes[part], rel=1e-3)
    areas = np.linalg.norm(doubled_areas(solid.points, solid.faces), axis=1)
    assert float(areas.min()) > 1e-12 * float(areas.sum())
    assert np.array_equal(solid.points[solid.joined], solid.points)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("part", ["duct", "hub", "vane", "blade"])
def test_normals_are_of_length_one_and_look_out(seed: int, part: str) -> None:
    """Each corner's normal lies within 30 degrees of its triangle's, though both sides of a sharp edge meet there."""
    solid: Solid = getattr(made(seed)[1], part)
    assert np.linalg.norm(solid.normals, axis=1) == pytest.approx(1.0)
    flat = doubled_areas(solid.points, solid.faces)
    flat /= np.linalg.norm(flat, axis=1, keepdims=True)
    assert float(np.einsum("kj,kcj->kc", flat, solid.normals[solid.faces]).min()) > math.cos(math.radians(30.0))


@pytest.mark.parametrize("seed", SEEDS)
def test_vanes_reach_into_hub_and_wall_and_blades_keep_their_gap(seed: int) -> None:
    machine, solids, kept = made(seed)
    for solid, gap in ((solids.vane, None), (solids.blade, machine.blades.clearance)):
        x, radius = solid.points[:, 0], np.hypot(solid.points[:, 1], solid.points[:, 2])
        wall = wall_radius(machine.duct, x)
        assert float((radius / hub_radius(machine.hub, x)).min()) == pytest.approx(0.9, rel=1e-6)
        if gap is None:
            assert float((radius - wall).max()) > 4.0 * kept
        else:
            assert float((wall - radius).min()) == pytest.approx(gap, rel=1e-5)


def test_hub_normals_and_heights_are_those_of_its_ellipsoids() -> None:
    """Nose x = -a cos t, r = R sin t: normal along (x/a2, r/R2). Middles of triangles lie inside by the tolerance."""
    solid = hub_solid(HUB, 1e-4)
    nose = solid.points[:, 0] < HUB.nose_x + 0.999 * HUB.nose_length
    at, found = solid.points[nose], solid.normals[nose]
    meant = np.column_stack(
        [(at[:, 0] - HUB.nose_x - HUB.nose_length) / HUB.nose_length**2, at[:, 1:] / HUB.radius**2]
    )
    meant /= np.linalg.norm(meant, axis=1, keepdims=True)
    assert found == pytest.approx(meant, abs=1e-9)
    middle = solid.points[solid.faces].mean(axis=1)
    inside = hub_radius(HUB, middle[:, 0]) - np.hypot(middle[:, 1], middle[:, 2])
    steep = np.abs(solid.normals[solid.faces].mean(axis=1)[:, 0])
    assert float((inside * np.sqrt(1.0 - np.minimum(steep, 1.0) ** 2)).max()) <= 1e-4
    assert float(inside.min()) > -1e-12


def test_bodies_against_closed_forms() -> None:
    """A sphere; volumes of both bodies as `measures` has them from 400 panels."""
    assert hub_volume(Hub(0.3, -0.3, 0.3, 0.0, 0.3)) == pytest.approx(4.0 / 3.0 * math.pi * 0.027)
    ball = hub_solid(Hub(0.3, -0.3, 0.3, 0.0, 0.3), 1e-4)
    assert area(ball.points, ball.faces) == pytest.approx(4.0 * math.pi * 0.09, rel=2e-3)
    assert ball.normals == pytest.approx(ball.points / 0.3, abs=1e-9)
    whole = measures(DUCT, HUB, straight(), straight("blades", 0.35))
    assert duct_volume(DUCT) == pytest.approx(whole.duct_volume, rel=1e-4)
    assert hub_volume(HUB) == pytest.approx(whole.hub_volume, rel=1e-4)


def test_finer_triangles_come_nearer() -> None:
    """Volume lacks as the tolerance, once that is what sets the triangles."""
    exact = duct_volume(DUCT)
    lack = [1.0 - volume(s.points, s.faces) / exact for s in (duct_solid(DUCT, t) for t in (4e-5, 1e-5))]
    assert 2.5 < lack[0] / lack[1] < 6.0
    stands = standing(straight(stagger=0.4 * EVEN, camber=0.5 * EVEN), DUCT, HUB, rooted=True)
    held = standing_volume(stands)
    lack = [
        abs(1.0 - volume(s.points, s.faces) / held)
        for s in (row_solid(stands, held, t, "vane") for t in (2e-5, 5e-6))
    ]
    assert 2.0 < lack[0] / lack[1] < 8.0


@pytest.mark.parametrize("family", sorted(FAMILIES))
def test_volume_between_cylinders_is_the_rows_own(family: str) -> None:
    """Sections over radius by Simpson's rule; sweep and lean slide sections and change nothing."""
    row = straight(
        stagger=np.linspace(0.6, 0.2, 5),
        camber=np.linspace(0.5, 0.3, 5),
        thickness=np.linspace(0.16, 0.1, 5),
        chord=np.linspace(0.1, 0.16, 5),
        family=family,
    )
    for one in (row, replace(row, sweep=0.3 * EVEN, lean=-0.4 * EVEN)):
        found = standing_volume(between(one, 0.15, 0.5))
        assert found == pytest.approx(row_volume(one) / one.count, rel=2e-5)


def test_volume_under_a_cone_is_that_of_its_centroid() -> None:
    """Equal sections along the axis: area times the outer radius at the section's centroid less the inner one."""
    points = 0.1 * section_points("circular_arc", 0.0, 0.12, 2000)
    x, y = points.T
    cross = x[:-1] * y[1:] - x[1:] * y[:-1]
    size = 0.5 * float(cross.sum())
    centroid = 0.15 + float(np.sum((x[:-1] + x[1:]) * cross)) / (6.0 * size)
    found = standing_volume(between(straight(), 0.15, 0.5, slope=0.4))
    assert found == pytest.approx(size * (0.5 + 0.4 * centroid - 0.15), rel=1e-5)


def test_surface_points_lie_within_the_tolerance_of_the_triangles() -> None:
    """A twisted, swept blade at 400 random places of its surface."""
    row = straight(
        "blades", 0.35, stagger=np.linspace(-1.0, -0.3, 5), camber=-0.6 * EVEN, sweep=0.3 * EVEN, clearance=0.004
    )
    stands = standing(row, DUCT, HUB, rooted=True)
    solid = row_solid(stands, standing_volume(stands), 2e-4, "blade")
    draw = np.random.default_rng(3)
    place = draw.uniform(-1.0, 1.0, 400)
    inner, outer = stands.ends(place)
    points = stands.surface.point(place, inner + draw.uniform(0.0, 1.0, 400) * (outer - inner))
    off = np.array([_distance(point, solid) for point in points])
    assert float(off.max()) <= 2e-4
    assert float(off.max()) > 1e-6


def _distance(point: np.ndarray[tuple[int], np.dtype[np.float64]], solid: Solid) -> float:
    """From a point to the nearest triangle whose column it stands over, along its normal."""
    a, b, c = (solid.points[solid.faces[:, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    size = np.einsum("kj,kj->k", normal, normal)
    over = np.ones(len(a), dtype=bool)
    for first, second in ((a, b), (b, c), (c, a)):
        over &= np.einsum("kj,kj->k", np.cross(second - first, point - first), normal) >= -1e-9 * size
    height = np.abs(np.einsum("kj,kj->k", point - a, normal)) / np.sqrt(size)
    return float(height[over].min())


@pytest.mark.parametrize("family", ["plate", "four_digit_modified"])
def test_an_open_edge_has_a_face_of_its_own(family: str) -> None:
    row = straight(family=family, stagger=0.2 * EVEN)
    stands = standing(row, DUCT, HUB, rooted=True)
    solid = row_solid(stands, standing_volume(stands), 2e-4, "vane")
    behind = solid.normals[:, 0] > 0.97 * math.cos(0.2)
    assert watertight(solid.joined[solid.faces])
    assert int(behind.sum()) >= 12


def test_a_turned_copy_stands_further_along_the_rotation() -> None:
    stands = standing(straight(), DUCT, HUB, rooted=True)
    vane = row_solid(stands, standing_volume(stands), 1e-3, "vane")
    quarter = turned(vane, 0.5 * math.pi, "vane_2")
    assert vane.points[:, 1].mean() == pytest.approx(quarter.points[:, 2].mean())
    assert quarter.points[:, 2].mean() > 0.3


def test_closed_means_each_edge_twice() -> None:
    faces = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]])
    assert watertight(faces)
    assert not watertight(faces[:3])
    assert not watertight(np.vstack([faces[:3], faces[3:, ::-1]]))
    assert not watertight(np.vstack([faces, faces[:1]]))
    assert not watertight(np.zeros((0, 3), dtype=np.int64))


@pytest.mark.parametrize("tolerance", [1e-9, 0.1, math.nan, -1.0])
def test_a_tolerance_out_of_range_is_refused(tolerance: float) -> None:
    blades = straight("blades", 0.35, clearance=0.004)
    with pytest.raises(InputError, match="tip gap, roots and throat"):
        machine_solids(DUCT, HUB, straight(), blades, tolerance)


def test_rows_that_leave_hub_or_duct_are_refused() -> None:
    blades = straight("blades", 0.35, clearance=0.004)
    with pytest.raises(InputError, match="the duct from 0 to"):
        machine_solids(DUCT, replace(HUB, nose_x=-0.5, cylinder_length=0.9), straight(place_x=0.03), blades, 1e-4)
    with pytest.raises(InputError, match="whose radius falls to"):
        machine_solids(DUCT, replace(HUB, nose_x=0.14), straight(), blades, 1e-4)
    with pytest.raises(InputError, match="overlap"):
        machine_solids(DUCT, HUB, straight(), straight("blades", 0.22, clearance=0.004), 1e-4)
    with pytest.raises(NoAnswerError, match="coarser tolerance"):
        hub_solid(HUB, 1e-12)


def test_blades_without_a_gap_are_said_to_be_fast() -> None:
    place = throat_x(DUCT)
    vanes, blades = straight(place_x=place - 0.1), straight("blades", place + 0.1)
    solids = machine_solids(DUCT, HUB, vanes, blades, 1e-4)
    assert "cannot turn" in solids.remarks[0].text
    assert [one.name for one in solids.all_parts()][-2:] == ["blade_6", "blade_7"]
