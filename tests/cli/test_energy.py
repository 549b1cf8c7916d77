"""`racewright energy`: what it prints, the table by speed, faults."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from racewright.cli.energy_table import printable
from racewright.cli.main import run
from tests.ledger.river import SCHEMES, TEXT, written


def test_json_and_the_table_by_speed_agree(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme, bins = written(tmp_path, TEXT), tmp_path / "bins.csv"
    assert run(["energy", str(scheme), "--json", "--csv", str(bins)]) == 0
    out, told = capsys.readouterr()
    answer = json.loads(out)
    units, *rest = bins.read_text("utf-8").splitlines()
    assert units == "# units: m/s, m/s, -, W, kWh"
    rows = list(csv.DictReader(rest))
    assert list(rows[0]) == ["speed_from", "speed_to", "share", "power", "energy"]
    assert sum(float(row["share"]) for row in rows) == pytest.approx(1.0, abs=1e-6)
    made = sum(float(row["energy"]) for row in rows) * 3.6e6
    assert made == pytest.approx(answer["energy"]["total_J"]["value"], rel=1e-6)
    assert [float(row["speed_to"]) for row in rows[:-1]] == [float(row["speed_from"]) for row in rows[1:]]
    assert answer["energy"]["total_J"] == answer["energy_parts"]["band"]["total_J"]
    assert len(answer["energy_parts"]["months"]["rows"]) == 12
    assert f"{made / 3.6e9:.2f} MWh" in told
    for words in ("P90 of one year", "lost to debris", "power curve", "Apr", "2023", str(bins)):
        assert words in told


@pytest.mark.usefixtures("drawn_once")
def test_energy_and_report_give_the_same_answer(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = written(tmp_path, TEXT)
    answers = []
    for command in (["energy"], ["report", "--out", str(tmp_path / "out")]):
        assert run([command[0], str(scheme), *command[1:], "--json"]) == 0
        answers.append(json.loads(capsys.readouterr().out))
    for key in ("energy", "energy_parts", "case", "count"):
        assert answers[0][key] == answers[1][key]


@pytest.mark.parametrize("name", ["spots", "histogram", "speed", "four"])
def test_other_places_print_what_they_have(tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    assert run(["energy", str(written(tmp_path, SCHEMES[name])), "--json"]) == 0
    out, told = capsys.readouterr()
    answer = json.loads(out)
    dated = name in ("speed", "four")
    assert (answer["energy_parts"]["months"] is not None) == dated
    assert ("by month" in told) == dated
    assert ("of all 4" in told) == (name == "four")
    assert answer["remarks"] == sorted(
        answer["remarks"], key=lambda r: ["warning", "caution", "note"].index(r["severity"])
    )


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('place = "otter_bend"\n', "", "no place, so no energy"),
        ('machine = "river_unit"\n', "", "no machine, so no energy"),
        ("yearly = 20", "yearly = 900", "longer than the year"),
    ],
)
def test_faults_are_told_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str
) -> None:
    assert old in TEXT
    assert run(["energy", str(written(tmp_path, TEXT.replace(old, new, 1)))]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert told.count("\n") == 1


def test_a_file_that_cannot_be_written_ends_with_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["energy", str(written(tmp_path, TEXT)), "--csv", str(tmp_path / "no" / "bins.csv")]) == 2
    assert "cannot be written" in capsys.readouterr().err


def test_names_cannot_command_the_terminal() -> None:
    assert printable("ice\x1b[2J\u202e") == "ice?[2J?"


def test_check_tells_gaugings_and_spot_speeds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", str(written(tmp_path / "a", TEXT)), "--json"]) == 0
    out, told = capsys.readouterr()
    assert "4383 rows of discharge, 12 gaugings, transect with 15 points" in told
    assert json.loads(out)["places"]["otter_bend"]["gaugings"] == 12
    assert run(["check", str(written(tmp_path / "b", SCHEMES["spots"])), "--json"]) == 0
    out, told = capsys.readouterr()
    assert "place otter_bend: 2 spot speeds" in told
    assert json.loads(out)["places"]["otter_bend"] == {
        "record_rows": None,
        "transect_points": 0,
        "gaugings": 0,
        "spot_speeds": 2,
    }
