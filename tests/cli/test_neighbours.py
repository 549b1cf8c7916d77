"""Commands passage and sound: what they refuse before anything is computed, and their tables."""

from __future__ import annotations

import contextlib
import io
import json
from pathlib import Path

import pytest

from racewright.cli.encode import to_json
from racewright.cli.main import run
from racewright.cli.neighbours_case import KEPT_STATIONS, neighbours_figures
from racewright.cli.passage import _write as write_passage
from racewright.cli.passage_table import passage_table
from racewright.cli.sound import _write as write_sound
from racewright.cli.sound_table import sound_table
from tests.dossier.neighbours_sample import neighbours
from tests.ledger.common import FULL_EXAMPLE, load_changed


def told(*arguments: str) -> tuple[int, str]:
    err = io.StringIO()
    with contextlib.redirect_stderr(err), contextlib.redirect_stdout(io.StringIO()):
        code = run(list(arguments))
    return code, err.getvalue()


@pytest.mark.parametrize("command", ["passage", "sound"])
def test_a_case_without_neighbours_says_what_it_needs(tmp_path: Path, command: str) -> None:
    load_changed(tmp_path / "demo")
    code, words = told(command, str(tmp_path / "demo" / "scheme.toml"))
    assert code == 2
    assert "add a [neighbours.NAME] table" in words
    assert "Traceback" not in words


def test_sound_without_its_table(tmp_path: Path) -> None:
    loaded = load_changed(tmp_path / "demo", example=FULL_EXAMPLE)
    path = loaded.folder / "scheme.toml"
    text = path.read_text("utf-8")
    start = text.index("[neighbours.otter_bend.sound]")
    path.write_text(text[:start] + text[text.index("# ---- the community") :], "utf-8")
    code, words = told("sound", str(path))
    assert code == 2
    assert "neighbours.otter_bend" in words


@pytest.mark.parametrize("command", ["passage", "sound"])
def test_a_csv_that_cannot_be_written_is_refused_first(tmp_path: Path, command: str) -> None:
    load_changed(tmp_path / "demo", example=FULL_EXAMPLE)
    code, words = told(command, str(tmp_path / "demo" / "scheme.toml"), "--csv", str(tmp_path))
    assert code == 2
    assert "name a file" in words


def test_tables_hold_figures_with_cautions() -> None:
    words = passage_table(neighbours())
    assert "speaks against the machine" in words
    assert "biologist" in words
    assert "\u202e" not in words
    heard = sound_table(neighbours().sound)
    assert "+-" in heard
    assert "acoustician" in heard
    assert all(row.edition in heard for at in neighbours().sound if at.level for row in at.level.thresholds[:1])


def test_csv_has_a_row_for_every_radius_and_band(tmp_path: Path) -> None:
    write_passage(tmp_path / "a.csv", neighbours())
    lines = (tmp_path / "a.csv").read_text().splitlines()
    assert lines[1].startswith("fish,point,row,radius")
    assert len(lines) == 2 + 3 * 2 * 2 * 33
    write_sound(tmp_path / "b.csv", neighbours().sound)
    rows = (tmp_path / "b.csv").read_text().splitlines()
    assert len(rows) == 2 + sum(at.level.received.size for at in neighbours().sound if at.level is not None)


def test_json_is_strict_and_every_number_has_a_unit() -> None:
    small = neighbours_figures(neighbours())
    whole = json.loads(to_json({"case": "x", "neighbours": small}, {}))
    assert "neighbours.fish[].at[].passage.strike.chance[]" in whole["units"]
    assert whole["units"]["neighbours.sound[].level.received_dB_re_1_uPa[][]"] == "dB re 1 uPa"
    lines = whole["neighbours"]["fish"][0]["at"][0]["passage"]["exposure"]["lines"]
    passage = neighbours().fish[0].at[0].passage
    assert passage is not None
    assert len(lines["x_m"]) == -(-passage.exposure.lines.x.size // KEPT_STATIONS)
