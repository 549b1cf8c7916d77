"""`strength` end to end: what it prints, that every number carries its basis, and what it refuses."""

from __future__ import annotations

import csv
import json
import re
import shutil
from pathlib import Path

import pytest

from racewright.cli.main import run
from tests.ledger.common import EXAMPLE, load_changed
from tests.safety.walk import bare_numbers


def demo(folder: Path, *changes: tuple[str, str]) -> str:
    load_changed(folder, *changes)
    return str(folder / "scheme.toml")


def test_strength_prints_every_check_with_its_basis(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "roots.csv"
    assert run(["strength", demo(tmp_path / "demo"), "--json", "--csv", str(table)]) == 0
    printed = capsys.readouterr()
    found = json.loads(printed.out)
    strength = found["strength"]
    assert list(bare_numbers(strength)) == []
    assert found["units"]["strength.stresses.roots[].highest_stress_Pa"] == "Pa"
    keys = {factor["key"] for factor in strength["stresses"]["factors"]}
    assert keys == {"tidal_load_ultimate", "tidal_steel", "tidal_composite", "tidal_fatigue"}
    for words in ("use", "Natural frequencies in water", "licensed engineer", "certificate", "tidal_steel: 1.25"):
        assert words in printed.err
    lines = table.read_text("utf-8").splitlines()
    assert lines[0].startswith("# units: 1 vane or 2 blade")
    rows = list(csv.DictReader(lines[1:]))
    roots = strength["stresses"]["roots"]
    assert [float(row["use"]) for row in rows] == [root["check"]["use"] for root in roots]


def test_a_part_that_is_too_weak_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    thin = ('diameter = "65 mm"', 'diameter = "45 mm"')
    assert run(["strength", demo(tmp_path / "demo", thin)]) == 0
    told = capsys.readouterr().err
    assert "TOO WEAK" in told
    assert re.search(r"warning: stress: shaft, braked: The stress with its factors is \d\.\d\d times", told)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (('material = "316l"', 'material = "wood"'), "wood"),
        (('diameter = "65 mm"', 'diameter = "65 mm"\nbore = "70 mm"'), "bore"),
        (('diameter = "65 mm"', 'diameter = "nan mm"'), "diameter"),
        (('material = "316l"', 'material = "own"'), "own"),
    ],
)
def test_bad_words_are_refused_at_the_door(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], change: tuple[str, str], told: str
) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    path = tmp_path / "demo" / "scheme.toml"
    path.write_text(path.read_text("utf-8").replace(*change), "utf-8")
    assert run(["strength", str(path)]) == 2
    said = capsys.readouterr()
    assert told in said.err
    assert said.out == ""


def test_without_a_table_the_command_says_what_it_wants(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = Path(demo(tmp_path / "demo"))
    text = path.read_text("utf-8")
    start = text.index("[machine.river_unit.strength]")
    path.write_text(text[:start] + text[text.index("# ---- its neighbours") :], "utf-8")
    assert run(["strength", str(path)]) == 2
    assert "[machine.NAME.strength]" in capsys.readouterr().err
