"""Duct and hub as closed bodies of revolution in triangles that keep a chord height."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.machine.annular_section import side_places
from racewright.machine.duct import Duct
from racewright.machine.duct_section import duct_section
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import check_hub
from racewright.machine.measures import volume_of_revolution
from racewright.machine.solid import Patch, Solid, grid_faces, sewn

Floats = NDArray[np.float64]

LEAST_AROUND = 180
"""Corners around, at least: a body of revolution then lacks 0.02 % of its volume. Closed form."""
VOLUME_SHARE = 2.5e-4
"""Largest share of its volume that a contour may lose to straight lines, whatever the chord height. Own choice."""
MOST = 20000
_FINE = 40000
_GROWTH = 1.3


def duct_solid(duct: Duct, tolerance: float) -> Solid:
    """The duct, its trailing edge sharp.

    Parameters
    ----------
    duct : Duct
    tolerance : float
        Largest distance between a triangle and the surface, > 0 [m].

    Raises
    ------
    InputError
        As `duct_section`.
    NoAnswerError
        The tolerance asks for more than 20000 corners one way.
    """
    section = duct_section(duct)
    exact, panels = duct_volume(duct), 24
    while True:
        fine = side_places(section.thickness, 2 * panels, section.lip)
        place = np.concatenate([-fine[:0:-1], fine])
        x, r = (np.where(place < 0.0, *both) for both in zip(*_sides(duct, np.abs(place)), strict=True))
        off = _height(x, r)
        share = abs(volume_of_revolution(x[::2], r[::2]) / exact - 1.0)
        if off <= 0.5 * tolerance and share <= VOLUME_SHARE:
            break
        panels = _grown(panels)
    place, x, r = place[::2], x[::2], r[::2]
    x[-1], r[-1] = x[0], r[0]
    return sewn("duct", [_revolved(x, r, *_duct_slope(duct, place), _around(float(r.max()), tolerance))])


def hub_solid(hub: Hub, tolerance: float) -> Solid:
    """The hub, closed on the axis at nose and tail; arguments and errors as `duct_solid`."""
    check_hub(hub)
    exact, panels = hub_volume(hub), 8
    while True:
        angle = 0.5 * np.pi * np.linspace(0.0, 1.0, 2 * panels + 1)
        nose = -hub.nose_length * np.cos(angle), hub.radius * np.sin(angle)
        tail = hub.tail_length * np.sin(angle), hub.radius * np.cos(angle)
        off = max(_height(*nose), _height(*tail))
        x, r, slope_x, slope_r = _hub_line(hub, panels)
        share = abs(volume_of_revolution(x, r) / exact - 1.0)
        if off <= 0.5 * tolerance and share <= VOLUME_SHARE:
            return sewn("hub", [_revolved(x, r, slope_x, slope_r, _around(hub.radius, tolerance))])
        panels = _grown(panels)


def duct_volume(duct: Duct) -> float:
    """Volume of the duct, as if solid: 40,000 frusta a side of its section, within 1e-8 [m3]."""
    root = np.sin(0.5 * np.linspace(0.0, np.pi, _FINE + 1))
    (inner_x, inner_r), (outer_x, outer_r) = _sides(duct, root)
    x = np.concatenate([inner_x[::-1], outer_x[1:]])
    return volume_of_revolution(x, np.concatenate([inner_r[::-1], outer_r[1:]]))


def hub_volume(hub: Hub) -> float:
    """Volume of the hub, as if solid [m3]. Closed form: two half ellipsoids and a cylinder."""
    return math.pi * hub.radius**2 * (2.0 / 3.0 * (hub.nose_length + hub.tail_length) + hub.cylinder_length)


def _sides(duct: Duct, root: Floats) -> tuple[tuple[Floats, Floats], tuple[Floats, Floats]]:
    section = duct_section(duct)
    return section.side(root, -1.0), section.side(root, 1.0)


def _duct_slope(duct: Duct, place: Floats) -> tuple[Floats, Floats]:
    """Direction of the contour at signed roots: inner side below 0, outer side above."""
    step = 1e-5
    low, high = np.maximum(place - step, -1.0), np.minimum(place + step, 1.0)
    ends = []
    for one in (low, high):
        inner, outer = _sides(duct, np.abs(one))
        ends.append(np.where(one < 0.0, np.array(inner), np.array(outer)))
    along = ends[1] - ends[0]
    return along[0], along[1]


def _hub_line(hub: Hub, panels: int) -> tuple[Floats, Floats, Floats, Floats]:
    """Contour of the hub from tail to nose, and its direction."""
    angle = 0.5 * np.pi * np.linspace(0.0, 1.0, panels + 1)
    shoulder = hub.nose_x + hub.nose_length
    end = shoulder + hub.cylinder_length
    cells = max(1, min(panels, math.ceil(4.0 * hub.cylinder_length / hub.radius)))
    middle = np.linspace(shoulder, end, cells + 1)[1:-1] if hub.cylinder_length > 0.0 else np.zeros(0)
    nose_x, tail_x = shoulder - hub.nose_length * np.cos(angle), end + hub.tail_length * np.sin(angle)
    if hub.cylinder_length == 0.0:
        tail_x, tail = tail_x[1:], angle[1:]
    else:
        tail = angle
    nose_r, tail_r = hub.radius * np.sin(angle), hub.radius * np.cos(tail)
    nose_r[0] = tail_r[-1] = 0.0
    even = np.ones_like(middle)
    x = np.concatenate([nose_x, middle, tail_x])
    r = np.concatenate([nose_r, hub.radius * even, tail_r])
    slope_x = np.concatenate([hub.nose_length * np.sin(angle), even, hub.tail_length * np.cos(tail)])
    slope_r = np.concatenate([hub.radius * np.cos(angle), 0.0 * even, -hub.radius * np.sin(tail)])
    return x, r, slope_x, slope_r


def _height(x: Floats, r: Floats) -> float:
    """Largest distance of every second point from the chord between its neighbours."""
    along_x, along_r = x[2::2] - x[:-2:2], r[2::2] - r[:-2:2]
    off = along_x * (r[1::2] - r[:-2:2]) - along_r * (x[1::2] - x[:-2:2])
    return float(np.max(np.abs(off) / np.hypot(along_x, along_r)))


def _grown(panels: int) -> int:
    panels = math.ceil(_GROWTH * panels)
    if panels > MOST:
        raise NoAnswerError(f"the contours would need more than {MOST} corners; a coarser tolerance will do")
    return panels


def _around(radius: float, tolerance: float) -> int:
    """Corners around, whose chords keep half the tolerance."""
    needed = math.pi / math.acos(max(1.0 - 0.5 * tolerance / radius, 0.0))
    if needed > MOST:
        raise NoAnswerError(f"the circles would need more than {MOST} corners; a coarser tolerance will do")
    return max(LEAST_AROUND, math.ceil(needed))


def _revolved(x: Floats, r: Floats, slope_x: Floats, slope_r: Floats, around: int) -> Patch:
    """A contour turned about the axis; the outside lies to the left of its direction, with r upwards."""
    angle = 2.0 * np.pi * np.arange(around + 1) / around
    cosine, sine = np.cos(angle), np.sin(angle)
    cosine[-1], sine[-1] = cosine[0], sine[0]
    even = np.ones(around + 1)
    points = np.stack([np.outer(x, even), np.outer(r, cosine), np.outer(r, sine)], axis=-1)
    length = np.hypot(slope_x, slope_r)
    out_x, out_r = -slope_r / length, slope_x / length
    normals = np.stack([np.outer(out_x, even), np.outer(out_r, cosine), np.outer(out_r, sine)], axis=-1)
    return Patch(points, normals, grid_faces(x.size, around + 1, flip=True))
