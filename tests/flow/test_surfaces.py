"""Panels of the walls."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.flow.surfaces import area_true


@pytest.mark.parametrize("panels", [12, 40])
def test_panels_enclose_the_area_of_the_wall(panels: int) -> None:
    """A half disc of unequal panels: polygons with ends on the arc lose a share as h^2, these as h^4."""
    angle = math.pi * np.linspace(0.0, 1.0, panels + 1) ** 1.2
    x, r = area_true(-np.cos(angle), np.sin(angle))

    def area(x: np.ndarray, r: np.ndarray) -> float:
        return float(np.sum(np.diff(x) * 0.5 * (r[1:] + r[:-1])))

    lost = 0.5 * math.pi - area(-np.cos(angle), np.sin(angle))
    assert abs(0.5 * math.pi - area(x, r)) < 0.1 * lost


def test_straight_walls_and_ends_stay() -> None:
    x, r = np.array([0.0, 0.1, 0.5, 1.0]), np.array([0.2, 0.24, 0.4, 0.6])
    moved_x, moved_r = area_true(x, r)
    assert moved_x == pytest.approx(x, abs=1e-15)
    assert moved_r == pytest.approx(r, abs=1e-15)
    assert (moved_x[0], moved_r[-1]) == (x[0], r[-1])
