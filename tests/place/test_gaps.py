"""Gaps of a record: counted, measured, placed."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.place.gaps import Gaps, gaps_of
from racewright.place.result import Series

DAY = 86400


def _series(days: np.ndarray) -> Series:
    return Series("discharge", np.asarray(np.asarray(days) * DAY, dtype=np.int64), np.ones(len(days)))


@pytest.mark.parametrize(
    ("days", "count", "longest", "since"),
    [
        (np.arange(30), 0, 0, None),
        (np.delete(np.arange(30), 7), 1, 2, 6),
        (np.delete(np.arange(30), [7, 9]), 2, 2, 6),
        (np.delete(np.arange(30), [7, 20, 21, 22]), 2, 4, 19),
        (np.delete(np.arange(30), 1), 1, 2, 0),
        (np.delete(np.arange(30), 28), 1, 2, 27),
        (np.concatenate((np.arange(0, 3, 0.125), np.arange(3, 30))), 0, 0, None),
        (np.concatenate((np.arange(30), np.arange(30, 33, 0.125))), 0, 0, None),
        (np.concatenate((np.arange(30), np.delete(np.arange(30, 33, 0.125), [9, 10]))), 1, 0.375, 31),
        ([0, 1, 2, 5], 1, 3, 2),
        ([0, 1], 0, 0, None),
        ([0], 0, 0, None),
        (np.cumsum(np.r_[0, np.tile([31, 28, 31, 30], 6)]), 0, 0, None),
    ],
)
def test_gaps_are_counted_and_placed(days: np.ndarray, count: int, longest: float, since: float | None) -> None:
    """Intervals that change for good, and months of 28 to 31 days, are no gaps."""
    assert gaps_of(_series(days)) == Gaps(count, longest * DAY, None if since is None else since * DAY)


@given(st.sets(st.integers(1, 58), max_size=6))
def test_gaps_of_an_even_record_are_its_missing_runs(missing: set[int]) -> None:
    """Where never more than two of five intervals are wide, as many gaps as runs of missing stamps."""
    kept = np.array([i for i in range(60) if i not in missing])
    step = np.diff(kept)
    wide = step > 1
    windows = [wide[max(0, min(i - 2, step.size - 5)) :][:5].sum() for i in range(step.size)]
    if max(windows) <= 2:
        found = gaps_of(_series(kept))
        assert found.count == wide.sum()
        assert found.longest == (step.max() * DAY if wide.any() else 0)
