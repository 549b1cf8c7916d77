"""Rainflow counting: an independent count, invariances, ends, refusals."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import Cancelled, InputError
from racewright.strength.cycles import rainflow_cycles, reversals

SERIES = st.lists(st.integers(-20, 20).map(float), min_size=2, max_size=60)


def four_points(series):
    """Another route: whole cycles by the four-point rule, what stays open as half cycles between neighbours."""
    open_, found = [], []
    for value in reversals(np.asarray(series, dtype=np.float64)):
        open_.append(float(value))
        while len(open_) >= 4:
            a, b, c, d = open_[-4:]
            if min(b, c) >= min(a, d) and max(b, c) <= max(a, d):
                found.append((abs(b - c), 0.5 * (b + c), 1.0))
                del open_[-3:-1]
            else:
                break
    found += [(abs(p - q), 0.5 * (p + q), 0.5) for p, q in pairwise(open_)]
    return [cycle for cycle in found if cycle[0] > 0.0]


def totals(cycles):
    """Count by (range, mean)."""
    found = {}
    for size, mean, count in cycles:
        found[(size, mean)] = found.get((size, mean), 0.0) + count
    return found


@given(SERIES)
def test_the_four_point_rule_counts_the_same_damage(series):
    """Ranges and counts agree; where equal ranges follow each other the two rules may pair other means."""
    found = rainflow_cycles(series)
    here = totals(
        zip(found.stress_range.tolist(), np.zeros(found.mean.size).tolist(), found.count.tolist(), strict=True)
    )
    there = totals((size, 0.0, count) for size, _mean, count in four_points(series))
    assert here == pytest.approx(there)


@given(SERIES, st.floats(-100.0, 100.0).map(round))
def test_a_shift_moves_the_means_alone(series, shift):
    one, other = rainflow_cycles(series), rainflow_cycles(np.asarray(series) + shift)
    assert other.stress_range == pytest.approx(one.stress_range)
    assert other.mean == pytest.approx(one.mean + shift)


@given(SERIES, st.sampled_from([-4.0, -1.0, 0.5, 2.0]))
def test_scaling_and_turning_over(series, scale):
    one, other = rainflow_cycles(series), rainflow_cycles(scale * np.asarray(series))
    assert other.stress_range == pytest.approx(abs(scale) * one.stress_range)
    assert other.mean == pytest.approx(scale * one.mean)
    assert other.count == pytest.approx(one.count)


@given(SERIES)
def test_the_largest_range_is_there(series):
    found = rainflow_cycles(series)
    span = max(series) - min(series)
    assert found.stress_range.max(initial=0.0) == span


@given(SERIES)
def test_half_the_reversals_are_cycles(series):
    """Every stretch between reversals is half a cycle."""
    found = rainflow_cycles(series)
    turns = reversals(np.asarray(series))
    assert 2.0 * found.count.sum() == turns.size - 1


@given(SERIES, st.integers(0, 59))
def test_a_repeated_block_counts_whole_cycles_wherever_it_begins(series, start):
    whole = rainflow_cycles(series, ends="repeated")
    begin = start % len(series)
    other = rainflow_cycles(series[begin:] + series[:begin], ends="repeated")
    one, two = (
        totals(zip(f.stress_range.tolist(), [0.0] * f.mean.size, f.count.tolist(), strict=True))
        for f in (whole, other)
    )
    assert one == pytest.approx(two)
    assert all(count == round(count) for count in one.values())


@given(SERIES, st.integers(1, 5))
def test_values_between_reversals_do_not_count(series, points):
    fine = np.interp(np.linspace(0, len(series) - 1, (len(series) - 1) * points + 1), np.arange(len(series)), series)
    fine[::points] = series
    assert rainflow_cycles(fine).stress_range == pytest.approx(rainflow_cycles(series).stress_range)


def test_short_series():
    assert rainflow_cycles([0.0, 1.0]).stress_range.tolist() == [1.0]
    assert rainflow_cycles([0.0, 1.0]).count.tolist() == [0.5]
    assert rainflow_cycles([2.0, 2.0, 2.0]).count.size == 0
    assert rainflow_cycles([0.0, 1.0], ends="repeated").count.sum() == 1.0


@pytest.mark.parametrize("series", [[1.0], [], [[1.0, 2.0]], [1.0, math.nan], [1.0, math.inf, 0.0]])
def test_bad_series(series):
    with pytest.raises(InputError, match="stress series"):
        rainflow_cycles(series)


def test_bad_ends():
    with pytest.raises(InputError, match="the ends are"):
        rainflow_cycles([0.0, 1.0], ends="open")  # type: ignore[arg-type]


def test_it_can_be_stopped():
    calls = []

    def tick(fraction):
        calls.append(fraction)
        if len(calls) > 2:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        rainflow_cycles(np.sin(np.arange(0, 400000, 1.5)), tick=tick)
    assert all(0.0 <= fraction <= 1.0 for fraction in calls)
