"""Invented machines and lines that the tests of this room share."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from racewright.holding import (
    Body,
    FixedPoint,
    Layout,
    LoadState,
    Segment,
    Stream,
    Tether,
    cylinder_outline,
    ring_wing,
    segment,
    steady_state,
)
from racewright.holding.added_mass import inertia_matrix

STREAM = Stream(2.0, depth=8.0, reference_height=4.0)


def machine(**how: object) -> Body:
    """A duct of 1.6 m over all, 600 kg."""
    body = Body(
        6000.0,
        11000.0,
        (0.0, 0.0, -0.15),
        (0.0, 0.0, 0.10),
        cylinder_outline(0.8, -0.5, 0.5),
        duct=ring_wing(1.4, 1.0),
        side_drag_area=0.8,
        inertia=inertia_matrix(
            600.0, (0.0, 0.0, -0.15), (0.5, 0.4, 0.4), (500.0, 1500.0, 1500.0, 50.0, 150.0, 150.0)
        ),
    )
    return replace(body, **how)  # type: ignore[arg-type]


def light(length: float, stiffness: float = 1e8) -> Segment:
    """Without weight in fresh water and without drag."""
    return Segment("light", length, 0.01, 0.1, 1e-4, stiffness, math.inf, 0.0)


def spread(body: Body | None = None, *, share: float = 0.995, diameter: float = 0.032) -> Layout:
    """Four polyester lines, two ahead and two behind, from piles in the bed; the machine 4 m over it."""
    tethers = []
    for name, azimuth in (("port bow", 135), ("starboard bow", 225), ("port stern", 45), ("starboard stern", 315)):
        a, down = math.radians(azimuth), 0.2
        lead = np.array([0.4 * math.copysign(1.0, math.cos(a)), 0.6 * math.copysign(1.0, math.sin(a)), 0.0])
        reach = 4.0 / math.sin(down)
        foot = lead + reach * math.cos(down) * np.array([math.cos(a), math.sin(a), 0.0])
        rope = segment("polyester", share * reach, diameter)
        tethers.append(Tether(name, FixedPoint(tuple(foot), uplift_limit=math.inf), (rope,), tuple(lead)))
    return Layout(body or machine(), tuple(tethers), (0.0, 0.0, 4.0))


def states() -> tuple[LoadState, ...]:
    """Five states, the last a tree on the nose."""
    loads = (
        ("on load", 4000, 50),
        ("loss of load", 3500, 250),
        ("held", 4500, -400),
        ("clogged", 6000, 0),
        ("tree", 9000, 0),
    )
    return tuple(steady_state(name, thrust, roll, 300.0, 2.5) for name, thrust, roll in loads)
