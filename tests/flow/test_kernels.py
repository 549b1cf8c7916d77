"""Kernels: derivatives against differences, limits, integrals against fine sums."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.special import ellipe, ellipk

from racewright.flow.influence import cylinder_influence, sheet_influence
from racewright.flow.kernels import VALUES, cylinder_rows, legendre, panel_sums, ring_values

Floats = NDArray[np.float64]
END = np.array([0.0, 1.0, 0.3, 1.1])


def _panel(x: float, r: float, end: Floats) -> Floats:
    """Rows value, by the target's radius, by the first and the second end's; columns psi, ux, ur."""
    found = sheet_influence(np.array([x]), np.array([r]), end[::2], end[1::2])
    rows = [(found.value(c), found.by_target(c), *found.by_ends(c)) for c in range(3)]
    return np.array(rows)[:, :, 0, 0].T


def ring(dx: float, r: float, p: float) -> tuple[float, float, float]:
    """psi, ux, ur at radius r, dx downstream of a ring of radius p and unit circulation."""
    out = np.empty((3, 1))
    ring_values(1, np.array([[dx], [r - p]]), r, out)
    return float(out[0, 0]), float(out[1, 0]), float(out[2, 0])


def _cylinder(x: float, r: float, radius: float) -> Floats:
    """Rows value, by the target's radius, by the cylinder's; columns psi, ux, ur."""
    found = cylinder_influence(np.array([x]), np.array([r]), 0.0, radius)
    rows = [(found.value(c), found.by_target(c), found.by_radius(c)) for c in range(3)]
    return np.array(rows)[:, :, 0].T


def _beside(x: float, r: float, x0: float, radius: float) -> Floats:
    return cylinder_rows(np.array([x]), np.array([r]), x0, radius, VALUES)[:, 0]


@pytest.mark.parametrize("e", [1e-12, 1e-6, 0.01, 1.0, 2.999, 3.001, 40.0])
def test_legendre_function_is_that_of_the_elliptic_integrals(e: float) -> None:
    """Q = (2/k - k) K - 2/k E with k^2 = 2/(2 + e); near e = 3 both branches are on trial."""
    m = 2.0 / (2.0 + e)
    k = np.sqrt(m)
    first = ellipk(m) if e > 1e-3 else None
    if first is None:
        from scipy.special import ellipkm1

        first = ellipkm1(e / (2.0 + e))
    exact = (2.0 / k - k) * first - 2.0 / k * ellipe(m)
    assert legendre(e)[0] == pytest.approx(exact, rel=1e-10)
    step = 1e-5 * e
    slope = (legendre(e + step)[0] - legendre(e - step)[0]) / (2.0 * step)
    assert legendre(e)[1] == pytest.approx(slope, rel=1e-7)


def test_ring_is_smooth_to_the_axis_and_across_its_branches() -> None:
    psi, axial, radial = ring(0.7, 0.0, 1.0)
    assert (psi, radial) == (0.0, 0.0)
    assert axial == pytest.approx(0.5 / (1.0 + 0.49) ** 1.5, rel=1e-14)
    near = ring(0.7, 1e-4, 1.0)
    assert near[1] == pytest.approx(axial, rel=1e-7)
    for r in np.linspace(0.1, 0.5, 41):
        step = 1e-6
        slope = (ring(0.7, r + step, 1.0)[0] - ring(0.7, r - step, 1.0)[0]) / (2.0 * step)
        assert ring(0.7, r, 1.0)[1] == pytest.approx(slope / r, rel=1e-7)


def test_ring_stream_function_is_the_same_when_source_and_target_change_places() -> None:
    assert ring(0.3, 0.4, 1.2)[0] == pytest.approx(ring(-0.3, 1.2, 0.4)[0], rel=1e-14)


@pytest.mark.parametrize(("x", "r"), [(0.1, 1.3), (2.0, 0.5), (0.15, 1.06), (-0.2, 0.98), (0.32, 1.12)])
def test_panel_derivatives_match_differences(x: float, r: float) -> None:
    out, d = _panel(x, r, END), 1e-6
    first, second = np.array([0.0, d, 0.0, 0.0]), np.array([0.0, 0.0, 0.0, d])
    for row, difference in (
        (1, _panel(x, r + d, END)[0] - _panel(x, r - d, END)[0]),
        (2, _panel(x, r, END + first)[0] - _panel(x, r, END - first)[0]),
        (3, _panel(x, r, END + second)[0] - _panel(x, r, END - second)[0]),
    ):
        assert out[row] == pytest.approx(difference / (2.0 * d), rel=2e-5, abs=2e-6)


def test_moving_a_panel_with_its_own_target_matches_differences() -> None:
    """The singular parts cancel only together: d/dr1 of the mid-point's values, d/dr1 of node 1's psi."""
    d = 1e-5
    move = np.array([0.0, d, 0.0, 0.0])
    out = _panel(0.15, 1.05, END)
    difference = _panel(0.15, 1.05 + d / 2, END + move)[0] - _panel(0.15, 1.05 - d / 2, END - move)[0]
    assert 0.5 * out[1] + out[2] == pytest.approx(difference / (2.0 * d), rel=1e-6, abs=1e-7)
    out = _panel(0.0, 1.0, END)
    difference = _panel(0.0, 1.0 + d, END + move)[0] - _panel(0.0, 1.0 - d, END - move)[0]
    assert out[1, 0] + out[2, 0] == pytest.approx(difference[0] / (2.0 * d), rel=1e-6)


@pytest.mark.parametrize(("x", "r"), [(0.15, 1.05), (0.0, 1.0), (0.15, 1.0501), (0.31, 1.1), (0.6, 1.1), (5.0, 1.0)])
def test_panel_psi_is_that_of_many_small_panels(x: float, r: float) -> None:
    """Splitting the panel in 3 must not change its integral, wherever the target is."""
    cuts = np.linspace(0.0, 1.0, 4)
    parts = [END[:2] + t * (END[2:] - END[:2]) for t in cuts]
    total = sum(_panel(x, r, np.concatenate([a, b]))[0, 0] for a, b in pairwise(parts))
    assert _panel(x, r, END)[0, 0] == pytest.approx(total, rel=1e-7)


@pytest.mark.parametrize(("x", "r"), [(0.4, 0.9), (0.1, 1.3), (2.0, 0.5), (0.15, 1.06), (0.1, 0.0)])
def test_linear_strength_is_that_of_steps(x: float, r: float) -> None:
    """A strength that rises along the panel against forty short panels of constant strength, to their 1/1600."""
    at, steps = (np.array([x]), np.array([r])), 40
    cuts = END[:2] + np.linspace(0.0, 1.0, steps + 1)[:, None] * (END[2:] - END[:2])
    parts = panel_sums(*at, np.column_stack([cuts[:-1], cuts[1:]]), VALUES)[0, :, 0]
    rising = panel_sums(*at, END[None, :], VALUES)[1, :, 0, 0]
    assert rising == pytest.approx(parts @ ((np.arange(steps) + 0.5) / steps), rel=5e-3, abs=1e-12)


@pytest.mark.parametrize(("x", "r"), [(-1.0, 1.0), (-1.0, 0.3), (-0.1, 1.0), (-0.5, 1.7)])
def test_cylinder_derivatives_match_differences(x: float, r: float) -> None:
    out, d = _cylinder(x, r, 1.0), 1e-5
    by_target = (_cylinder(x, r + d, 1.0)[0] - _cylinder(x, r - d, 1.0)[0]) / (2.0 * d)
    by_radius = (_cylinder(x, r, 1.0 + d)[0] - _cylinder(x, r, 1.0 - d)[0]) / (2.0 * d)
    assert out[1] == pytest.approx(by_target, rel=1e-6, abs=1e-8)
    assert out[2] == pytest.approx(by_radius, rel=1e-6, abs=1e-8)


def test_cylinder_continues_a_panel() -> None:
    """A cylinder from 0 is a panel from 0 to 2 and a cylinder from 2."""
    for x, r in ((0.5, 0.5), (-1.0, 1.2), (3.0, 0.7), (1.0, 1.4)):
        joined = _beside(x, r, 2.0, 1.0) + _panel(x, r, np.array([0.0, 1.0, 2.0, 1.0]))[0]
        assert _beside(x, r, 0.0, 1.0) == pytest.approx(joined, rel=1e-7, abs=1e-8)
