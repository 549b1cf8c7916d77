"""Slivers that single precision does not hold are mended: the solid stays closed, with its volume and handles."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import NoAnswerError
from racewright.machine.solid import Floats, Ints, Solid, doubled_areas, volume, watertight
from racewright.machine.solid_slivers import HELD, heights, without_slivers
from racewright.records.solid_fuse import fused
from racewright.records.stl_file import stl_bytes

CUBE = np.array([[x, y, z] for x in (0.1, 0.2) for y in (0.1, 0.2) for z in (0.1, 0.2)])
SIDES = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]


def cube_with(points: Floats, lid: list[tuple[int, int, int]], foot: list[tuple[int, int, int]]) -> Solid:
    """A cube whose sides share no points; `lid` and `foot` are the triangles of the sides x = 0.2 and y = 0.1.

    Places 8, 9 ... are the points that are added to the cube's own.
    """
    places = np.vstack([CUBE, points])
    faces: list[tuple[int, int, int]] = []
    sides: list[int] = []
    for number, (a, b, c, d) in enumerate(SIDES):
        own = {1: lid, 2: foot}.get(number, [(a, b, c), (a, c, d)])
        faces += own
        sides += [number] * len(own)
    normals = np.array([[-1, 0, 0], [1, 0, 0], [0, -1, 0], [0, 1, 0], [0, 0, -1], [0, 0, 1]], dtype=float)
    keys = sorted({(side, place) for side, face in zip(sides, faces, strict=True) for place in face})
    number_of = {key: k for k, key in enumerate(keys)}
    table = np.array([[number_of[side, p] for p in face] for side, face in zip(sides, faces, strict=True)])
    first: dict[int, int] = {}
    joined = np.array([first.setdefault(place, k) for k, (_side, place) in enumerate(keys)])
    at = np.array([place for _side, place in keys])
    return Solid("hub", places[at], normals[[side for side, _place in keys]], table, joined)


def thinnest(solid: Solid) -> float:
    return float(heights(solid.points, solid.joined[solid.faces]).min()) / float(np.abs(solid.points).max())


def handles(corners: Ints) -> int:
    return 1 - (int(np.unique(corners).size) - len(corners) // 2) // 2


def sound(solid: Solid) -> bool:
    """Closed, one ball, the cube's volume, and each point with the normal of its side."""
    corners = solid.joined[solid.faces]
    flat = doubled_areas(solid.points, solid.faces)
    flat /= np.linalg.norm(flat, axis=1, keepdims=True)
    upright = all(np.allclose(flat, solid.normals[solid.faces[:, k]], atol=1e-3) for k in range(3))
    held = volume(solid.points, solid.faces) == pytest.approx(1e-3, rel=1e-6)
    return watertight(corners) and handles(corners) == 0 and held and upright


def two_points_in_the_lid(apart: float) -> Solid:
    """Two places on the lid, nearer to each other than single precision holds, as where a corner all but touches."""
    points = np.array([[0.2, 0.15, 0.15], [0.2, 0.15, 0.15 + apart]])
    lid = [(4, 6, 8), (6, 9, 8), (6, 7, 9), (7, 5, 9), (5, 4, 9), (4, 8, 9)]
    return cube_with(points, lid, [(0, 4, 5), (0, 5, 1)])


def test_places_that_fall_together_become_one() -> None:
    """4 nm on a body of 0.2 m: the file was refused."""
    solid = two_points_in_the_lid(4e-9)
    assert sound(solid)
    with pytest.raises(NoAnswerError, match="single precision"):
        stl_bytes(solid, 1.0)
    mended = without_slivers(solid)
    assert sound(mended)
    assert len(mended.faces) == len(solid.faces) - 2
    assert thinnest(mended) > HELD
    for scale in (0.01, 0.37, 1.0, 25.0):
        assert len(stl_bytes(mended, scale)) == 84 + 50 * len(mended.faces)


@pytest.mark.parametrize("where", ["flat", "sharp"])
def test_a_corner_on_the_edge_across_gives_the_edge_away(where: str) -> None:
    """A triangle without a short edge, but without height: within a side, and along the cube's edge."""
    deep = 2e-9
    if where == "flat":
        points = np.array([[0.2, 0.16, 0.16 + deep]])
        lid = [(4, 6, 7), (4, 7, 8), (7, 5, 8), (5, 4, 8)]
    else:
        points = np.array([[0.2, 0.1 + deep, 0.16]])
        lid = [(4, 6, 8), (6, 7, 8), (7, 5, 8), (5, 4, 8)]
    solid = cube_with(points, lid, [(0, 4, 5), (0, 5, 1)])
    assert thinnest(solid) < HELD
    with pytest.raises(NoAnswerError, match="single precision"):
        stl_bytes(solid, 1.0)
    mended = without_slivers(solid)
    assert sound(mended)
    assert len(mended.faces) == len(solid.faces)
    assert thinnest(mended) > 1e4 * HELD
    stl_bytes(mended, 1.0)


def test_what_is_held_apart_stays_to_the_last_bit() -> None:
    solid = two_points_in_the_lid(1e-3)
    mended = without_slivers(solid)
    for name in ("points", "normals", "faces", "joined"):
        assert np.array_equal(getattr(mended, name), getattr(solid, name))


def test_an_edge_whose_ends_share_a_third_neighbour_is_not_drawn_together() -> None:
    """Two triangles would lie back to back on one edge and the body would no longer be closed."""
    apart = 4e-9
    points = np.array([[0.2, 0.15, 0.15], [0.2, 0.15, 0.15 + apart], [0.2, 0.1501, 0.15]])
    lid = [(4, 6, 8), (6, 10, 8), (6, 9, 10), (10, 9, 8), (6, 7, 9), (7, 5, 9), (5, 4, 9), (4, 8, 9)]
    mended = without_slivers(cube_with(points, lid, [(0, 4, 5), (0, 5, 1)]))
    corners = mended.joined[mended.faces]
    assert watertight(corners)
    assert handles(corners) == 0


def post(sunk: float) -> Solid:
    """A twisted post of eight sides on the cube's lid, whose middle corners lie so far below the lid."""
    around = 2.0 * np.pi * np.arange(8) / 8
    rings = [(0.15, 0.02, 0.0), (0.2 - sunk, 0.025, 0.1), (0.25, 0.02, 0.3)]
    points = [
        [x, 0.15 + r * np.cos(t + twist), 0.15 + r * np.sin(t + twist)] for x, r, twist in rings for t in around
    ]
    faces: list[tuple[int, int, int]] = []
    for k in range(8):
        after = (k + 1) % 8
        for low in (0, 8):
            a, b, c, d = low + k, low + after, low + 8 + k, low + 8 + after
            faces += [(a, b, d), (a, d, c)]
        faces += [(24, after, k), (25, 16 + k, 16 + after)]
    places = np.array([*points, [0.15, 0.15, 0.15], [0.25, 0.15, 0.15]])
    away = places - places.mean(axis=0)
    away /= np.linalg.norm(away, axis=1, keepdims=True)
    return Solid("vane", places, away, np.array(faces), np.arange(26))


@pytest.mark.parametrize("sunk", [4e-9, -4e-9])
def test_parts_join_where_corners_all_but_lie_on_a_surface(sunk: float) -> None:
    """The edges that meet in such a corner leave the surface side by side: the union's points fall together."""
    cube = cube_with(np.empty((0, 3)), [(4, 6, 7), (4, 7, 5)], [(0, 4, 5), (0, 5, 1)])
    whole, holes = fused([cube, post(sunk)])
    corners = whole.joined[whole.faces]
    assert handles(corners) == holes == 0
    assert thinnest(whole) > HELD
    above = volume(post(0.0).points, post(0.0).faces) - volume(*_below())
    assert volume(whole.points, whole.faces) == pytest.approx(1e-3 + above, rel=1e-6)
    for scale in (0.01, 0.37, 1.0, 25.0):
        assert len(stl_bytes(whole, scale)) == 84 + 50 * len(whole.faces)


def _below() -> tuple[Floats, Ints]:
    """The part of the post within the cube, with a lid of its own."""
    whole = post(0.0)
    points = whole.points.copy()
    points[16:24], points[25] = points[8:16], (0.2, 0.15, 0.15)
    return points, whole.faces
