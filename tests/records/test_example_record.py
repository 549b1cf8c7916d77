"""The packaged example: made by its tool, and a good place for its machine."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import numpy as np
import pytest

import racewright
from racewright.place import quantile, site_from_discharge
from racewright.place.rating import Rating
from racewright.place.transect import Transect
from racewright.records.series_csv import read_series
from racewright.records.table_csv import read_columns

FOLDER = Path(racewright.__file__).parent / "examples" / "river_unit"
TOOL = Path(__file__).parents[2] / "tools" / "make_example_record.py"


def test_the_tool_makes_the_packaged_files(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("make_example_record", TOOL)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    module.main(tmp_path)
    for name in ("discharge.csv", "transect.csv", "gaugings.csv"):
        assert (tmp_path / name).read_bytes() == (FOLDER / name).read_bytes()


def test_the_example_reach_carries_a_river_unit() -> None:
    """Twelve years; depth near 4.5 m at the median, 3 m at low water; never aground, never over its banks."""
    series = read_series(
        FOLDER / "discharge.csv",
        time_column="date",
        value_column="discharge_m3s",
        unit="m3/s",
        kind="discharge",
        zone="UTC",
        shown_as="discharge.csv",
    )
    table = read_columns(FOLDER / "transect.csv", {"distance_m": "m", "bed_level_m": "m"}, "transect.csv")
    site = site_from_discharge(
        series,
        Rating(6.4, 0.30, 2.32),
        Transect(table["distance_m"], table["bed_level_m"]),
        27.0,
        hub_depth=1.2,
        outer_radius=0.65,
        capture_radius=0.5,
    )
    assert series.value.size == 4383
    assert site.years == pytest.approx(12.0)
    assert series.value.min() > 40.0
    assert series.value.max() < 960.0
    assert site.discharge_curve is not None
    assert quantile(site.discharge_curve, 0.5) == pytest.approx(192.1, abs=0.05)
    low, median, high = site.standings
    np.testing.assert_allclose([low.depth, median.depth, high.depth], [2.976, 4.533, 6.667], atol=0.001)
    np.testing.assert_allclose([low.speed, median.speed, high.speed], [1.338, 2.014, 2.864], atol=0.001)
    assert low.clearance > 0.5
    assert [remark.severity for remark in site.remarks] == ["note"]
