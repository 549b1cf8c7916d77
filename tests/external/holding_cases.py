"""Cases of the tether table, and bodies and lines that the checks share."""

from __future__ import annotations

import math

import numpy as np

from racewright.holding import Body, FixedPoint, Layout, Segment, Stream, Tether
from tests.external.supply_rows import rows


def case(name: str) -> tuple[dict[str, float], dict[str, float]]:
    """Inputs and results of one row."""
    row = next(r for r in rows("holding_tethers") if r["case"] == name)
    found = []
    for column in ("inputs", "results"):
        pairs = (part.split("=") for part in row[column].split(";"))
        found.append({key: float(value) for key, value in pairs})
    return found[0], found[1]


def heavy(length: float, weight: float, stiffness: float) -> Segment:
    """A line of a stated weight in fresh water, without drag; breaks nowhere."""
    area = 1e-4
    mass = weight / 9.80665 + 1000.0 * area
    return Segment("stated", length, 0.01, mass, area, stiffness, math.inf, 0.0)


def light(length: float, stiffness: float = 1e10) -> Segment:
    """A line without weight in fresh water and without drag."""
    return Segment("light", length, 0.01, 0.1, 1e-4, stiffness, math.inf, 0.0)


def even(speed: float, depth: float = 50.0) -> Stream:
    """A stream of one speed."""
    return Stream(speed, depth, 0.5 * depth, profile=math.inf)


def held(body: Body, points: list[tuple[float, float, float]], start: tuple[float, float, float]) -> Layout:
    """A body on light lines from fixed points, as long as the way to `start`, all at its origin."""
    tethers = []
    for i, point in enumerate(points):
        length = float(np.linalg.norm(np.array(point) - np.array(start)))
        tethers.append(Tether(f"line {i}", FixedPoint(point, "bank", math.inf), (light(length),), (0.0, 0.0, 0.0)))
    return Layout(body, tuple(tethers), start)


def ball(weight: float, net: float, **how: object) -> Body:
    """A body whose weight and buoyancy keep it upright."""
    outline = np.array([[0.3, 0.0, 0.0], [-0.3, 0.0, 0.0], [0.0, 0.0, 0.3], [0.0, 0.0, -0.3]])
    given = {"centre_of_weight": (0.0, 0.0, -0.1), "centre_of_buoyancy": (0.0, 0.0, 0.1), **how}
    return Body(weight, weight + net, outline=outline, **given)  # type: ignore[arg-type]
