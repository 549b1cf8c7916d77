"""The yardstick of the flow's speed solves the same equations: its kernels agree with the compiled ones."""

from __future__ import annotations

import numpy as np
import pytest
from tools.bench import plain_kernels
from tools.bench.flow_speed import FlowSpeed, difference, table

from racewright.flow import kernels
from racewright.machine.duct_contour import duct_contour
from tests.flow.conftest import DUCT, HUB, solve


@pytest.mark.parametrize("rows", [kernels.VALUES, kernels.TARGET_RATES, kernels.ALL_RATES])
def test_sums_agree_at_every_distance(rows: int) -> None:
    """Targets on panels, at their ends, a hair away, near and far."""
    x, r = duct_contour(DUCT, 15)
    ends = np.column_stack([x[:-1], r[:-1], x[1:], r[1:]])
    xt = np.concatenate([0.5 * (x[1:] + x[:-1]), x[1:8], x[3:6], [30.0, -3.0]])
    rt = np.concatenate([0.5 * (r[1:] + r[:-1]), r[1:8], r[3:6] - 1e-5, [0.4, 6.0]])
    compiled = kernels.panel_sums(xt, rt, ends, rows)
    plain = plain_kernels.panel_sums(xt, rt, ends, rows)
    scale = np.abs(compiled).max(axis=(0, 2, 3), keepdims=True)
    assert np.max(np.abs(plain - compiled) / scale) < 1e-10


def test_responses_agree() -> None:
    one = solve(DUCT, HUB, 16, (0.0, 0.5))
    with plain_kernels.plain_kernels():
        other = solve(DUCT, HUB, 16, (0.0, 0.5))
    assert difference(one, other) < 1e-11
    assert one.profile == pytest.approx(other.profile, abs=1e-11)
    assert np.array_equal(one.iterations, other.iterations)


def test_exponent_and_what_is_not_measured() -> None:
    growth = tuple((n, 1e-4 * n**2.2) for n in (40, 80, 160))
    found = FlowSpeed(0.3, 2.1, 1e-12, 340, 5e-3, 1e-3, growth, 0, float("nan"))
    assert found.exponent == pytest.approx(2.2)
    assert found.ratio == pytest.approx(7.0)
    text = table(found)
    assert "| ratio of the two (wanted: 2.5) | 7.0 |" in text
    assert text.count("not measured") == 2
