"""The surface: exact where it should be, monotone where the nodes are, silent where nothing was computed."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.machine.drive_surface import Surface

X, Y = np.array([0.0, 1.0, 2.5, 3.0]), np.array([0.0, 0.5, 2.0])


def test_a_rising_parabola_times_a_line_is_met_exactly() -> None:
    surface = Surface(X, Y, np.outer(2.0 + X + X**2, 1.0 + 3.0 * Y))
    x, y = np.random.default_rng(1).uniform(0.0, [3.0, 2.0], (50, 2)).T
    assert surface.at(x, y) == pytest.approx((2.0 + x + x**2) * (1.0 + 3.0 * y), rel=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0.0, 100.0), min_size=6, max_size=6))
def test_rising_nodes_make_a_rising_line(steps: list[float]) -> None:
    """Along a grid line, whatever the rises."""
    z = np.cumsum(steps)
    surface = Surface(np.arange(6.0), np.array([0.0, 1.0]), np.stack([z, z], axis=1))
    fine = surface.at(np.linspace(0.0, 5.0, 401), np.full(401, 0.5))
    assert np.all(np.diff(fine) >= -1e-10 * max(1.0, z[-1]))


def test_slopes_are_continuous_across_nodes() -> None:
    z = np.random.default_rng(2).normal(size=(4, 3))
    surface = Surface(X, Y, z)
    h = 1e-6
    for x in (1.0, 2.5):
        y = np.array([0.2, 1.1])
        left = (surface.at(x, y) - surface.at(x - h, y)) / h
        right = (surface.at(x + h, y) - surface.at(x, y)) / h
        assert left == pytest.approx(right, abs=1e-4)
    assert surface.at(X[:, None], Y[None, :]) == pytest.approx(z, abs=1e-13)


def test_holes_are_silent_and_do_not_spoil_their_neighbours() -> None:
    x = np.arange(6.0)
    known = np.ones((6, 6), dtype=bool)
    known[:2, :2] = False
    z = np.where(known, x[:, None] + 2.0 * x[None, :], np.nan)
    surface = Surface(x, x, z, known)
    at = np.array([0.5, 1.5, 2.5, 4.5])
    assert list(surface.answers(at, at)) == [False, False, True, True]
    assert np.isnan(surface.at(at, at)[:2]).all()
    assert surface.at(at, at)[2:] == pytest.approx([7.5, 13.5])
    assert surface.at(2.5, 0.5) == pytest.approx(3.5)
