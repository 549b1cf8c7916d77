"""Tidal records from text files: four forms, gaps, hostile rows; and the packaged strait."""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest

import racewright
from racewright.errors import InputError
from racewright.place import site_from_tide, tide
from racewright.place.tide_turning import Turning
from racewright.records.tide_csv import read_tide

FOLDER = Path(racewright.__file__).parent / "examples" / "tidal_unit"
TOOL = Path(__file__).parents[2] / "tools" / "make_tidal_example.py"
PACKAGED = {
    "form": "east north",
    "time_column": "time",
    "value_columns": ("east_m_s", "north_m_s"),
    "unit": "m/s",
    "zone": "UTC",
    "shown_as": "stream.csv",
}


def lines(columns: str, row, days: int = 5) -> str:
    """A file of half-hourly rows; `row` gives the values' cells by hour."""
    body = "".join(
        f"2026-03-{1 + k // 48:02d}T{k % 48 // 2:02d}:{'30' if k % 2 else '00'},{row(k / 2.0)}\n"
        for k in range(48 * days)
    )
    return f"# a comment\ntime,{columns}\n{body}"


def read(tmp_path: Path, text: str, form: str, *columns: str, unit: str = "m/s", zone: str = "UTC"):
    path = tmp_path / "tide.csv"
    path.write_text(text, encoding="utf-8")
    return read_tide(
        path, form=form, time_column="time", value_columns=columns, unit=unit, zone=zone, shown_as="tide.csv"
    )


def test_four_forms(tmp_path: Path) -> None:
    wave = lambda h: math.cos(0.506 * h)  # noqa: E731
    level = read(tmp_path, lines("h", lambda h: f"{100 * wave(h):.3f}"), "level", "h", unit="cm")
    assert level.kind == "level"
    assert level.value[0, 0] == pytest.approx(1.0)
    along = read(tmp_path, lines("u", lambda h: f"{wave(h):.3f}"), "along", "u", zone="+01:00")
    assert along.time[0] == level.time[0] - 3600
    assert along.value.min() < -0.9
    both = read(tmp_path, lines("e,n", lambda h: f"{wave(h):.3f},{-wave(h):.3f}"), "east north", "e", "n")
    polar = read(
        tmp_path,
        lines("s,d", lambda h: f"{1.41421 * abs(wave(h)):.4f},{135 if wave(h) > 0 else 315}"),
        "speed direction",
        "s",
        "d",
    )
    assert polar.kind == both.kind == "east north"
    assert polar.value == pytest.approx(both.value, abs=2e-3)


def test_blank_rows_are_gaps(tmp_path: Path) -> None:
    text = lines("e,n", lambda h: "," if 20 < h < 30 else f"{math.cos(h / 2):.3f},0.1")
    assert read(tmp_path, text, "east north", "e", "n").time.size == 48 * 5 - 19


@pytest.mark.parametrize(
    ("cells", "form", "columns", "words"),
    [
        ("16,0", "east north", ("e", "n"), "check the unit and the column"),
        ("nan,0", "east north", ("e", "n"), "leave the cell blank"),
        ("-1,20", "speed direction", ("e", "n"), "wanted 0 to 15"),
        ("1,361", "speed direction", ("e", "n"), "no direction"),
        (",", "east north", ("e", "n"), "more than half is no record"),
        ("1,1", "east north", ("e",), "2 columns of values"),
        ("1,1", "east north", ("e", "x"), "no column"),
        ("1,1", "east north", ("e", "n"), "never changes"),
    ],
)
def test_bad_files_are_refused(tmp_path: Path, cells: str, form: str, columns: tuple[str, ...], words: str) -> None:
    with pytest.raises(InputError, match=words):
        read(tmp_path, lines("e,n", lambda _h: cells), form, *columns)


def test_stamps_that_repeat_are_refused_with_the_line(tmp_path: Path) -> None:
    text = lines("u", lambda h: f"{math.cos(h):.2f}")
    with pytest.raises(InputError, match="time") as caught:
        read(tmp_path, text + text.splitlines()[-1] + "\n", "along", "u")
    assert caught.value.line == 243


def test_a_wrong_unit_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="not a unit of speed"):
        read(tmp_path, lines("u", lambda h: f"{math.cos(h):.2f}"), "along", "u", unit="m")


def test_the_tool_makes_the_packaged_strait(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("make_tidal_example", TOOL)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    module.main(tmp_path)
    for name in ("stream.csv", "speeds.csv"):
        assert (tmp_path / name).read_bytes() == (FOLDER / name).read_bytes()


def test_the_packaged_strait_gives_back_what_it_was_made_of() -> None:
    """Ninety-two days with a storm and a gap of four: amplitudes within 0.02 m/s."""
    record = read_tide(FOLDER / "stream.csv", **PACKAGED)
    found = tide(record, math.radians(58.0))
    made = {"M2": 2.28, "S2": 0.78, "N2": 0.45, "K2": 0.212, "K1": 0.16, "O1": 0.11, "P1": 0.053, "M4": 0.14}
    got = {name: found.named(name).amplitude for name in made}
    assert got == pytest.approx(made, abs=0.02)
    assert found.longest_gap == pytest.approx(4.1 * 86400.0, abs=1800.0)
    assert found.mean == pytest.approx((0.09, 0.02), abs=0.04)
    assert found.explained > 0.97
    site = site_from_tide(
        found, Turning("swings"), first_year=2027, period="year", flood_direction=math.radians(60.0), cut_in_speed=0.9
    )
    assert 3.0 < site.springs.spring_peak < 3.8
    assert np.isfinite(site.water.mean_cube_speed)
