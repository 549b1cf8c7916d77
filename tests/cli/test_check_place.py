"""`check` refuses gaugings and transects of which nothing can be made, and machines that do not fit the water."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example
from racewright.errors import InputError


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    return tmp_path / "demo" / "scheme.toml"


def refused(scheme: Path) -> str:
    with pytest.raises(InputError) as fault:
        check_scheme(scheme, as_json=False)
    return str(fault.value)


def swap(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("3.31,81.8", "3.31,-81.8", "gaugings.csv:4: discharge_m3s: a gauging of -81.8 m3/s"),
        ("3.31,81.8", "3.31,0", "gaugings.csv:4: discharge_m3s: a gauging of 0 m3/s"),
        ("3.31,81.8", "-3.31,81.8", "gaugings.csv:4: level_m: a gauged level of -3.31 m is not above the zero level"),
    ],
)
def test_gaugings_below_nought_are_refused_with_their_line(scheme: Path, old: str, new: str, said: str) -> None:
    swap(scheme.parent / "gaugings.csv", old, new)
    assert said in refused(scheme)


def test_distances_that_go_back_are_refused_with_their_line(scheme: Path) -> None:
    swap(scheme.parent / "transect.csv", "6.5,5.30", "2.5,5.30")
    assert "transect.csv:4: distance_m: the distance 2.5 m follows 3 m" in refused(scheme)
