"""Commands grow and programme: what they refuse before anything is computed, their tables and files."""

from __future__ import annotations

import contextlib
import io
import json
import re
from pathlib import Path

import numpy as np
import pytest

from racewright.cli.encode import to_json
from racewright.cli.grow import _write as write_sizes
from racewright.cli.growth_case import growth_figures
from racewright.cli.growth_table import growth_table
from racewright.cli.main import run
from racewright.cli.programme import _write as write_quarters
from racewright.cli.programme_table import programme_table
from tests.dossier.growth_sample import GROWN
from tests.ledger.common import FULL_EXAMPLE, load_changed


def told(*arguments: str) -> tuple[int, str]:
    err = io.StringIO()
    with contextlib.redirect_stderr(err), contextlib.redirect_stdout(io.StringIO()):
        code = run(list(arguments))
    return code, err.getvalue()


@pytest.mark.parametrize("command", ["grow", "programme"])
def test_a_case_without_growth_says_what_it_needs(tmp_path: Path, command: str) -> None:
    load_changed(tmp_path / "demo")
    code, words = told(command, str(tmp_path / "demo" / "scheme.toml"))
    assert code == 2
    assert "add a [growth.NAME] table" in words
    assert "Traceback" not in words


@pytest.mark.parametrize("command", ["grow", "programme"])
def test_a_csv_that_cannot_be_written_is_refused_first(tmp_path: Path, command: str) -> None:
    load_changed(tmp_path / "demo", example=FULL_EXAMPLE)
    code, words = told(command, str(tmp_path / "demo" / "scheme.toml"), "--csv", str(tmp_path))
    assert code == 2
    assert "name a file" in words


def test_a_growth_without_a_programme(tmp_path: Path) -> None:
    path = load_changed(tmp_path / "demo", example=FULL_EXAMPLE).folder / "scheme.toml"
    blocks = re.split(r"(?m)^(?=\[)", path.read_text("utf-8"))
    kept = [one for one in blocks if not re.match(r"\[growth\.[\w.]*\bprogramme\b", one)]
    path.write_text("".join(kept), "utf-8")
    code, words = told("programme", str(path))
    assert code == 2
    assert "[growth.NAME.programme]" in words


def test_a_programme_needs_no_machine_solved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RACEWRIGHT_CACHE", str(tmp_path / "cache"))
    load_changed(tmp_path / "demo", example=FULL_EXAMPLE)
    csv = tmp_path / "quarters.csv"
    code, words = told("programme", str(tmp_path / "demo" / "scheme.toml"), "--csv", str(csv))
    assert code == 0
    assert "value of stopping early" in words
    assert "invented" in words
    assert csv.read_text("utf-8").splitlines()[1].startswith("quarter,expected")


def test_tables_say_sizes_claims_and_that_they_are_invented() -> None:
    words = growth_table(GROWN)
    for part in ("tidal unit", "step-up says", "duct mass", "not yet", "The growth is invented."):
        assert part in words
    assert GROWN.programme is not None
    assert "one big leap" in programme_table(GROWN.programme, invented=False)
    assert "invented" not in programme_table(GROWN.programme, invented=False)


def test_printed_json_names_units_and_the_currency() -> None:
    answer = json.loads(to_json({"growth": growth_figures(GROWN)}, {}, "EUR"))
    sizes = answer["growth"]["sizes"]
    assert sizes[0]["before"] is None
    assert sizes[2]["before"]["name"] == "river unit"
    assert answer["growth"]["programme"]["value"]["value_of_stopping"]["amount_EUR"] > 0.0
    assert answer["units"]["growth.sizes[].throat_diameter_m"] == "m"


def test_files_hold_a_row_a_size_and_a_row_a_quarter(tmp_path: Path) -> None:
    write_sizes(tmp_path / "s.csv", GROWN.growth)
    rows = np.genfromtxt(tmp_path / "s.csv", delimiter=",", skip_header=2)
    assert rows[:, 1].tolist() == pytest.approx([0.43, 1.0, 14.0])
    assert (rows[:, 3] < rows[:, 4]).all()
    assert GROWN.programme is not None
    cash = GROWN.programme.cash
    write_quarters(tmp_path / "q.csv", cash, "EUR")
    rows = np.genfromtxt(tmp_path / "q.csv", delimiter=",", skip_header=2)
    assert rows[:, 1] == pytest.approx(cash.expected, rel=1e-9, abs=1e-6)
