"""Quantities of many readings as columns of the store's table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pyarrow as pa
from numpy.typing import NDArray

from racewright.records.arrow_columns import column_of, number_column

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ReadingColumns:
    """A table of readings by quantities.

    Attributes
    ----------
    span : ndarray of int, shape (n,)
        Number of the span that each reading is of [-].
    quantities, units : sequence of str, length m
    value, standard_uncertainty, degrees_of_freedom : ndarray, shape (n, m)
        NaN where there is none; a quantity without value has no row.
    """

    span: NDArray[np.int64]
    quantities: Sequence[str]
    units: Sequence[str]
    value: Floats
    standard_uncertainty: Floats
    degrees_of_freedom: Floats

    def table(self) -> pa.Table | None:
        """Rows of span, quantity, value, uncertainty, degrees of freedom and unit; None without any."""
        there = ~np.isnan(self.value)
        at, place = np.nonzero(there)
        if not at.size:
            return None
        numbers = [self.value[there], self.standard_uncertainty[there], self.degrees_of_freedom[there]]
        words = [
            pa.DictionaryArray.from_arrays(number_column(place), column_of(list(names)))
            for names in (self.quantities, self.units)
        ]
        value, error, freedom = (number_column(column, np.isnan(column)) for column in numbers)
        columns = [number_column(self.span[at]), words[0], value, error, freedom, words[1]]
        return pa.Table.from_arrays(columns, [f"c{i}" for i in range(len(columns))])
