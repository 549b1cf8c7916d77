"""Parquet files for tests: made up, small."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

from racewright.place.result import Series
from racewright.records.series_parquet import read_series_parquet

START = 1577836800
"""2020-01-01T00:00Z."""

DAYS = pa.array([datetime(2020, 1, 1) + timedelta(days=i) for i in range(4)], pa.timestamp("ms"))
FLOW = pa.array([10.0, 11.5, 12.0, 9.0])


def moments(count: int, unit: str = "us", zone: str | None = None, step: int = 60) -> pa.Array:
    """Rising stamps from 2020-01-01."""
    first = datetime(2020, 1, 1, tzinfo=UTC if zone else None)
    return pa.array([first + timedelta(seconds=step * i) for i in range(count)], pa.timestamp(unit, zone))


def write(folder: Path, time: Any, value: Any, names: tuple[str, str] = ("date", "flow"), **other: Any) -> Path:
    """A file of two columns."""
    path = folder / "river.parquet"
    pq.write_table(pa.Table.from_arrays([pa.array(time), pa.array(value)], names=list(names)), path, **other)
    return path


def read(path: Path, **other: Any) -> Series:
    """Read it as a record of discharge."""
    wanted = {"time_column": "date", "value_column": "flow", "unit": "m3/s", "kind": "discharge", "zone": "UTC"}
    return read_series_parquet(path, shown_as="river.parquet", **(wanted | other))
