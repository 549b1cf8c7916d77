"""Every example in the pages runs and prints what the page says."""

from __future__ import annotations

import json
import os
import shlex
import sys
from pathlib import Path

import pytest
from tools.docs.commands import examples

from racewright.cli.app import app
from racewright.cli.main import run
from racewright.dossier.build import Dossier, build
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.store import Store
from tests.docs.examples import close, compare, perform, same, steps, unrun

DOCS = Path(__file__).resolve().parents[2] / "docs"
PAGES = sorted(p for p in DOCS.rglob("*.md") if steps(p.read_text("utf-8")))
ENVIRONMENT = {
    **os.environ,
    "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
    "OMP_NUM_THREADS": "1",
    "NUMBA_NUM_THREADS": "1",
}
IN_A_SHELL = "first_dossier.md"
"""The page whose commands run as the reader types them, each a process of its own."""

_drawn: dict[tuple[str, str], Dossier] = {}


@pytest.fixture(autouse=True)
def _drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the scheme that several examples report, the dossier is drawn for the first of them."""

    def once(findings: Findings) -> Dossier:
        key = (findings.scheme_hash, findings.case)
        if key not in _drawn:
            _drawn[key] = build(findings)
        return _drawn[key]

    monkeypatch.setattr("racewright.cli.report.build", once)


@pytest.mark.parametrize("page", PAGES, ids=[str(p.relative_to(DOCS)) for p in PAGES])
def test_the_examples_of_a_page(page: Path, tmp_path: Path) -> None:
    for step in steps(page.read_text("utf-8")):
        assert perform(step, tmp_path, ENVIRONMENT, shell=page.name == IN_A_SHELL) == ""


def test_the_guides_have_examples_and_none_is_left_unrun() -> None:
    assert {p.name for p in PAGES} >= {"first_dossier.md", "scheme.md", "dossier.md"}
    assert [p.name for p in DOCS.rglob("*.md") if unrun(p.read_text("utf-8"))] == []


def test_the_examples_of_the_commands_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    found = examples(app, "racewright")
    assert len(found) >= 8
    assert run(["new", "bench", "--example", "model_test"]) == 0
    for example in sorted(found, key=lambda text: not text.startswith("racewright new")):
        words = shlex.split(example)
        assert words[0] == "racewright"
        if "--clear" in words:  # what the suite has computed stays
            monkeypatch.setenv("RACEWRIGHT_CACHE", str(tmp_path / "cache"))
            Store(tmp_path / "cache", CLASSES).put("ab" + "0" * 62, 1.0)
            assert run(words[1:]) == 0
            assert not list((tmp_path / "cache").glob("*/*.npz"))
            monkeypatch.setenv("RACEWRIGHT_CACHE", ENVIRONMENT["RACEWRIGHT_CACHE"])
        elif words[1] != "desk":  # serves until it is stopped: tests/desk/test_command.py runs it
            assert run(words[1:]) == 0, example


def test_the_commands_of_the_readme_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    readme = (DOCS.parent / "README.md").read_text("utf-8")
    found = [shlex.split(line, comments=True) for line in readme.splitlines() if line.startswith("racewright ")]
    assert [words[1] for words in found] == [
        "new", "check", "size", "point", "map", "energy", "tethers", "passage", "supply", "report",
        "new", "trials", "trials",
    ]  # fmt: skip
    for words in found:
        assert run(words[1:]) == 0, words


def test_a_wrong_example_is_found(tmp_path: Path) -> None:
    page = "```console run\n$ echo power 2.838 kW\npower 2.7 kW\n```\n"
    assert "wanted 'power 2.7 kW', got 'power 2.838 kW'" in perform(steps(page)[0], tmp_path, os.environ)
    (tmp_path / "scheme.toml").write_text("format = 1\n", "utf-8")
    for shell in (True, False):
        wrong = "```console run\n$ racewright check scheme.toml --json > said\nno word\n```\n"
        fault = perform(steps(wrong)[0], tmp_path, ENVIRONMENT, shell=shell)
        assert "wanted 'no word', got 'scheme.toml: sound." in fault
        assert json.loads((tmp_path / "said").read_text("utf-8"))
        (tmp_path / "said").unlink()
        wrong = "```console run\n$ racewright check nowhere.toml\n```\n"
        assert "exit code 2, wanted 0" in perform(steps(wrong)[0], tmp_path, ENVIRONMENT, shell=shell)
    assert "exit code 3, wanted 0" in perform(steps("```console run\n$ exit 3\n```\n")[0], tmp_path, os.environ)
    assert perform(steps("```console run\n$ exit 3\n[exit 3]\n```\n")[0], tmp_path, os.environ) == ""
    assert unrun("```console\n$ echo\n```\n") == ["$ echo\n"]


def test_comparing_lines_and_numbers() -> None:
    assert compare(["a", "...", "z 1.0"], ["a", "b", "c", "z 1.0004"]) == ""
    assert compare(["a", "..."], ["a"]) == ""
    assert compare(["..."], []) == ""
    assert compare(["a"], ["a", "b"]).startswith("more was printed")
    assert compare(["a", "b"], ["a"]).startswith("not printed")
    assert same("sound. ... rows", "sound. Format 1. 12 rows")
    assert not same("power 2.8 kW", "power 2.8 W")
    assert not same("power 2.8 kW", "torque 2.8 kW")
    assert close("2.838", "2.84")
    assert not close("2.838", "2.86")
    assert close("0.75", "0.76")
    assert not close("0.75", "0.77")
    assert not close("15", "14")
