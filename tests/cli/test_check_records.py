"""`check` knows what `report` would refuse in a data file."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example
from racewright.errors import InputError
from racewright.ledger.chain import compute
from racewright.scheme import load_scheme


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    return tmp_path / "demo" / "scheme.toml"


def _both_say(scheme: Path) -> str:
    """The one message of check, which is report's too."""
    with pytest.raises(InputError) as checked:
        check_scheme(scheme, as_json=False)
    with pytest.raises(InputError) as computed:
        compute(load_scheme(scheme))
    assert str(checked.value) == str(computed.value)
    return str(checked.value)


def test_missing_column_is_said_of_the_key_that_names_it(scheme: Path) -> None:
    scheme.write_text(scheme.read_text("utf-8").replace('"discharge_m3s"', '"flow"'), "utf-8")
    said = _both_say(scheme)
    assert "scheme.toml:30: place.otter_bend.record.value_column: discharge.csv, line 1: no column 'flow'" in said


def test_missing_default_column_is_said_of_the_table(scheme: Path) -> None:
    text = scheme.read_text("utf-8").replace('distance_column = "distance_m"\n', "")
    scheme.write_text(text, "utf-8")
    table = scheme.parent / "transect.csv"
    table.write_text(table.read_text("utf-8").replace("distance_m", "across"), "utf-8")
    said = _both_say(scheme)
    assert "place.otter_bend.transect.distance_column: transect.csv, line" in said


def test_short_record(scheme: Path) -> None:
    record = scheme.parent / "discharge.csv"
    record.write_text("".join(record.read_text("utf-8").splitlines(keepends=True)[:15]), "utf-8")
    with pytest.raises(InputError, match=r"the record has 1\d values; at least 19"):
        check_scheme(scheme, as_json=False)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("0,1,0.5\n1.5,2,0.5\n", "bin 2 starts at 1.5 m/s but bin 1 ends at 1 m/s"),
        ("0,1,0.5\n1,2,0.2\n", "they sum to 0.7"),
        ("0,1,0.5\n1,30,0.5\n", "at most 20 m/s"),
    ],
)
def test_histogram(scheme: Path, rows: str, said: str) -> None:
    (scheme.parent / "speeds.csv").write_text("speed_from,speed_to,share\n" + rows, "utf-8")
    head, rest = scheme.read_text("utf-8").split("[place.otter_bend.record]\n")
    tail = rest.split("# ---- the machine", 1)[1]
    record = 'file = "speeds.csv"\nkind = "histogram"\nvalue_column = "share"\nunit = "m/s"\n'
    scheme.write_text(f"{head}[place.otter_bend.record]\n{record}# ---- the machine{tail}", "utf-8")
    assert said in _both_say(scheme)


def test_axis_above_the_water(scheme: Path) -> None:
    text = scheme.read_text("utf-8").replace('hub_height = "1.9 m"', 'hub_height = "3 m"')
    text = text.replace("profile_exponent = 6 ", 'depth = "2.5 m"\nprofile_exponent = 6 ')
    scheme.write_text(text, "utf-8")
    with pytest.raises(InputError, match=r"case\.first_unit\.hub_height: the axis 3 m above the bed"):
        load_scheme(scheme)
