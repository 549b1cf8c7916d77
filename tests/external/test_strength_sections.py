"""Properties of sections and bending against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.strength.bending import bending_stress
from racewright.strength.section_area import section_area
from tests.external.record import Record

TILT = 0.4


def _points(a: float, b: float, count: int) -> np.ndarray:
    angle = 2.0 * np.pi * np.arange(count) / count
    flat = np.column_stack([a * np.cos(angle), b * np.sin(angle)])
    cosine, sine = math.cos(TILT), math.sin(TILT)
    return flat @ np.array([[cosine, sine], [-sine, cosine]]) + np.array([3.0, -2.0])


@pytest.mark.outside(
    source="ellipse and circle: area pi a b, moments pi a b^3/4 and pi a^3 b/4",
    status="closed form",
    tolerance="1e-4 at 400 points; order 2 within 0.01",
)
@pytest.mark.parametrize(("a", "b"), [(0.08, 0.01), (0.5, 0.5)])
def test_ellipse(a: float, b: float, record_property: Record) -> None:
    """Tilted and moved. The polygon lies inside, so that area and moments are low by O(1/N^2)."""
    exact = (math.pi * a * b, math.pi * a * b**3 / 4.0, math.pi * a**3 * b / 4.0)
    misses = []
    for count in (50, 100, 200, 400):
        found = section_area(_points(a, b, count))
        misses.append(np.array([found.area, found.principal_small, found.principal_large]) / exact - 1.0)
        assert (found.centroid_x, found.centroid_y) == pytest.approx((3.0, -2.0), abs=1e-12)
    order = np.log2(np.array(misses[:-1]) / np.array(misses[1:]))
    record_property(
        "measured", f"{np.abs(misses[-1]).max():.0e}, order {order[-1].min():.3f} to {order[-1].max():.3f}"
    )
    assert np.abs(misses[-1]).max() < 1e-4
    assert order[-1] == pytest.approx(2.0, abs=0.01)
    if a > b:
        assert found.long_axis == pytest.approx(TILT, abs=1e-9)


@pytest.mark.outside(
    source="rectangle and triangle: b h^3/12, b h^3/36, product moment b^2 h^2/72",
    status="closed form",
    tolerance="1e-12",
)
def test_polygons_are_exact() -> None:
    box = section_area([[0.0, 0.0], [0.3, 0.0], [0.3, 0.1], [0.0, 0.1]])
    assert (box.area, box.centroid_x, box.centroid_y) == pytest.approx((0.03, 0.15, 0.05), rel=1e-12)
    assert (box.moment_xx, box.moment_yy) == pytest.approx((0.3 * 1e-3 / 12.0, 0.1 * 0.027 / 12.0), rel=1e-12)
    assert box.modulus_small == pytest.approx(0.3 * 0.01 / 6.0, rel=1e-12)
    corner = section_area([[0.0, 0.0], [0.3, 0.0], [0.0, 0.1]])
    assert corner.moment_xx == pytest.approx(0.3 * 1e-3 / 36.0, rel=1e-12)
    assert corner.moment_yy == pytest.approx(0.1 * 0.027 / 36.0, rel=1e-12)
    assert corner.moment_xy == pytest.approx(-(0.3**2) * 0.1**2 / 72.0, rel=1e-12)


@pytest.mark.outside(
    source="sharp-cornered angle 80 x 80 x 10 mm as two rectangles, by the parallel-axis rule",
    status="closed form",
    tolerance="1e-12",
)
def test_angle_section() -> None:
    """Two rectangles 80 x 10 and 10 x 70 mm, summed by the parallel-axis rule."""
    legs = ((0.08, 0.01, 0.04, 0.005), (0.01, 0.07, 0.005, 0.045))
    area = sum(w * h for w, h, _x, _y in legs)
    cx, cy = (sum(w * h * (x, y)[i] for w, h, x, y in legs) / area for i in (0, 1))
    xx = sum(w * h**3 / 12.0 + w * h * (y - cy) ** 2 for w, h, _x, y in legs)
    xy = sum(w * h * (x - cx) * (y - cy) for w, h, x, y in legs)
    mm = [[0, 0], [80, 0], [80, 10], [10, 10], [10, 80], [0, 80]]
    found = section_area(1e-3 * np.array(mm, dtype=np.float64))
    assert (found.area, found.centroid_x, found.centroid_y) == pytest.approx((area, cx, cy), rel=1e-12)
    assert (found.moment_xx, found.moment_xy) == pytest.approx((xx, xy), rel=1e-12)
    assert found.principal_large == pytest.approx(xx + abs(xy), rel=1e-12)
    assert found.principal_small == pytest.approx(xx - abs(xy), rel=1e-12)
    assert found.long_axis == pytest.approx(-math.pi / 4.0)


@pytest.mark.outside(source="skew bending by principal axes, textbook", status="closed form", tolerance="1e-10")
def test_skew_bending(record_property: Record) -> None:
    """A tilted 60 x 10 mm bar bent along x alone: the moment in parts along both principal axes."""
    cosine, sine = math.cos(TILT), math.sin(TILT)
    bar = 0.5 * np.array([[-0.06, -0.01], [0.06, -0.01], [0.06, 0.01], [-0.06, 0.01]])
    tilted = bar @ np.array([[cosine, sine], [-sine, cosine]])
    found = bending_stress(section_area(tilted), tilted, 100.0, 0.0)
    along, across = 100.0 * cosine, -100.0 * sine
    exact = abs(along) * 0.03 / (0.01 * 0.06**3 / 12.0) + abs(across) * 0.005 / (0.06 * 0.01**3 / 12.0)
    record_property("measured", f"{abs(found.highest / exact - 1.0):.0e}")
    assert found.highest == pytest.approx(exact, rel=1e-10)
