"""Vanes that carry the hub: closed forms and the balance about the axis."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.strength.hub_carried import carried_hub
from racewright.strength.span_load import SpanLoad, root_loads

INNER, OUTER, COUNT = 0.13, 0.51, 7
SPAN = OUTER - INNER


def even(axial: float, tangential: float) -> SpanLoad:
    radius = np.linspace(INNER, OUTER, 5)
    return SpanLoad(radius, np.full(5, axial), np.full(5, tangential))


def test_an_even_load_with_a_free_hub_bends_as_a_guided_beam() -> None:
    held = root_loads(even(300.0, 0.0), INNER, support="both ends")
    found = carried_hub(held, COUNT, INNER, OUTER, 0.0, 0.0)
    whole = 300.0 * SPAN**2
    assert found.axial_force == pytest.approx(0.0, abs=1e-9)
    assert found.outer_axial_force == pytest.approx(300.0 * SPAN)
    assert found.outer_axial_bending == pytest.approx(whole / 3.0)
    assert found.axial_bending == pytest.approx(-whole / 6.0)


def test_push_and_torque_of_the_hub_reach_the_duct_whole() -> None:
    held = root_loads(even(300.0, -200.0), INNER, support="both ends")
    found = carried_hub(held, COUNT, INNER, OUTER, 1500.0, 600.0)
    assert COUNT * found.outer_axial_force == pytest.approx(1500.0 + COUNT * 300.0 * SPAN)
    on_duct = COUNT * (found.outer_tangential_force * OUTER - found.outer_tangential_bending)
    assert on_duct == pytest.approx(600.0 - COUNT * 200.0 * 0.5 * (OUTER**2 - INNER**2))
    on_hub = COUNT * (found.tangential_force * INNER + found.tangential_bending)
    assert on_hub == pytest.approx(-600.0)


def test_a_turned_hub_bends_vanes_as_slope_deflection_says() -> None:
    """A beam of finite elements, its inner end turned with the hub about the axis, against the closed form."""
    held = root_loads(even(0.0, 0.0), INNER, support="both ends")
    found = carried_hub(held, 1, INNER, OUTER, 0.0, 100.0)
    n = 40
    step = SPAN / n
    one = np.array(
        [[12, 6 * step, -12, 6 * step], [6 * step, 4 * step**2, -6 * step, 2 * step**2],
         [-12, -6 * step, 12, -6 * step], [6 * step, 2 * step**2, -6 * step, 4 * step**2]]
    ) / step**3  # fmt: skip
    stiff = np.zeros((2 * n + 2, 2 * n + 2))
    for k in range(n):
        stiff[2 * k : 2 * k + 4, 2 * k : 2 * k + 4] += one
    free = np.zeros((2 * n + 2, 2 * n - 1))  # one turn of the hub, then the nodes between
    free[0, 0], free[1, 0] = INNER, 1.0
    free[2 : 2 * n, 1:] = np.eye(2 * n - 2)
    load = np.zeros(2 * n - 1)
    load[0] = 100.0
    ends = stiff @ (free @ np.linalg.solve(free.T @ stiff @ free, load))
    assert -found.tangential_force == pytest.approx(ends[0], rel=1e-6)
    assert -found.tangential_bending == pytest.approx(ends[1], rel=1e-6)
    assert found.outer_tangential_force == pytest.approx(-ends[-2], rel=1e-6)
    assert found.outer_tangential_bending == pytest.approx(ends[-1], rel=1e-6)


def test_vanes_of_one_end_carry_no_hub() -> None:
    with pytest.raises(InputError, match="held at both ends"):
        carried_hub(root_loads(even(1.0, 1.0), INNER), COUNT, INNER, OUTER, 0.0, 0.0)
    with pytest.raises(InputError, match="does not stand above"):
        carried_hub(root_loads(even(1.0, 1.0), INNER, support="both ends"), COUNT, OUTER, INNER, 0.0, 0.0)
