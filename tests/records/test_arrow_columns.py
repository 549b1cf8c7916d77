"""Columns made by their bytes hold what the library's own way would hold."""

from __future__ import annotations

import numpy as np
import pyarrow as pa
import pytest

from racewright.records.arrow_cells import arrow_values
from racewright.records.arrow_columns import column_of, number_column


@pytest.mark.parametrize(
    "values",
    [
        ["speed", "", "Größe", "N m"],
        ("a", "bc"),
        [True, False, True, True, False, False, True, True, True],
        [3, -7, 1 << 40],
        [0.5, None, -1e300, 0.0],
        [None, None, 2.0],
    ],
)
def test_columns_of_plain_values(values: list[object]) -> None:
    found = column_of(values)  # type: ignore[arg-type]
    found.validate(full=True)
    assert found.to_pylist() == list(values)
    assert found.null_count == list(values).count(None)


def test_numbers_with_gaps_there_and_back() -> None:
    values, missing = np.arange(20.0), np.arange(20) % 3 == 0
    column = number_column(values, missing)
    column.validate(full=True)
    assert column.equals(pa.array(values, mask=missing))
    for first in (0, 1, 9):
        back, null = arrow_values(column.slice(first, 11))
        assert (null == missing[first : first + 11]).all()
        assert (back == np.where(null, 0.0, values[first : first + 11])).all()


def test_columns_of_other_kinds_become_floats() -> None:
    back, null = arrow_values(pa.array([1, None, 3], pa.int32()).slice(1))
    assert (back.tolist(), null.tolist()) == ([0.0, 3.0], [True, False])
    assert arrow_values(pa.array([], pa.float64()))[0].size == 0
