"""Flow-duration curves against worked and recorded discharges."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from racewright.place import duration_curve, quantile
from racewright.place.result import Series
from racewright.records.series_csv import read_series
from tests.external.record import Record

DATA = Path(__file__).parent / "data"
KAFU = [107.9, 112.7, 116.3, 115.1, 109.8, 100.8, 91.7, 83.3, 76.5, 70.7, 65.5]
"""Eleven daily discharges of the River Kafu [m3/s]."""

CUBIC_FOOT = 0.3048**3


def fish_river() -> Series:
    """The public two-year record, by the product's own reader."""
    return read_series(
        DATA / "usgs_01013500_daily_2019_2020.csv",
        time_column="date",
        value_column="discharge_cfs",
        unit="ft3/s",
        kind="discharge",
        zone="-05:00",
        shown_as="usgs_01013500_daily_2019_2020.csv",
    )


@pytest.mark.outside(
    source="River Kafu, eleven daily flows of a worked example on a student questions site; "
    "its formula m/(N+1) applied anew, for its printed 81.6 follows from m/N instead",
    status="published",
    tolerance="exact: the rank is whole",
)
def test_kafu_q75(record_property: Record) -> None:
    found = quantile(duration_curve(KAFU), 0.75)
    record_property("measured", f"{found:g} m3/s")
    assert found == 76.5


@pytest.mark.outside(
    source="m/(N+1) with linear interpolation on the eleven flows of the River Kafu, by hand",
    status="closed form",
    tolerance="1e-9, arithmetic",
)
@pytest.mark.parametrize(("percent", "flow"), [(10, 116.06), (25, 112.7), (50, 100.8), (90, 66.54)])
def test_kafu_other_quantiles(percent: int, flow: float) -> None:
    assert quantile(duration_curve(KAFU), percent / 100.0) == pytest.approx(flow, rel=1e-9)


@pytest.mark.outside(
    source="US Geological Survey, gauge 01013500, Fish River, Maine, daily discharge 2019-2020 (public domain)",
    status="published",
    tolerance="the bytes are the ones obtained (SHA-256)",
)
def test_fish_river_file_is_untouched() -> None:
    digest = hashlib.sha256((DATA / "usgs_01013500_daily_2019_2020.csv").read_bytes()).hexdigest()
    assert digest == "9c1b75c20897d1554becbb38ba8faf3f033cdfcaeab5e26cca4287c5bb51fdf7"


@pytest.mark.outside(
    source="Statistics of the Fish River record (US Geological Survey 01013500, 2019-2020) by a separate computation",
    status="computed",
    tolerance="1e-4: the reference has six digits or fewer",
)
def test_fish_river_statistics(record_property: Record) -> None:
    series = fish_river()
    curve = duration_curve(series.value / CUBIC_FOOT)
    assert series.value.size == 731
    assert series.value.mean() / CUBIC_FOOT == pytest.approx(1633.887, rel=1e-4)
    expected = {5: 5750, 10: 4198, 25: 1850, 50: 895, 75: 354, 80: 258.8, 90: 165.4, 95: 86.8}
    miss = max(abs(quantile(curve, percent / 100.0) / flow - 1.0) for percent, flow in expected.items())
    record_property("measured", f"{miss:.0e} at most on eight quantiles")
    for percent, flow in expected.items():
        assert quantile(curve, percent / 100.0) == pytest.approx(flow, rel=1e-4), percent
