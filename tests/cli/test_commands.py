"""Commands end to end: the two inputs to dossiers, equal answers, faults, exit codes, quick imports."""

from __future__ import annotations

import json
import math
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from racewright.cli.main import run
from tests.interrupts import hears_interrupts
from tests.ledger.common import EXAMPLE

DATA = Path(__file__).parent.parent / "external" / "data"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    return tmp_path / "demo" / "scheme.toml"


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def report_json(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert run(["report", *arguments, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_the_same_scheme_twice_gives_equal_answers(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first, second = (report_json(capsys, str(demo)) for _turn in range(2))
    assert {k: v for k, v in first.items() if k != "provenance"} == {
        k: v for k, v in second.items() if k != "provenance"
    }
    reports = sorted(p for p in (demo.parent / "reports").iterdir() if p.name[0].isdigit())
    for name in ("dossier.html", "dossier.pdf", "results.json"):
        assert (reports[0] / name).read_bytes() == (reports[1] / name).read_bytes()
    assert first["machine"]["design_point"]["shaft_power_W"] > 1000.0
    assert set(_numeric_paths({k: v for k, v in first.items() if k not in ("units", "provenance")})) <= set(
        first["units"]
    )


def _numeric_paths(tree: Any, path: str = "") -> set[str]:
    """Every numeric leaf of a JSON tree, list items written as []."""
    if isinstance(tree, bool) or tree is None or isinstance(tree, str):
        return set()
    if isinstance(tree, dict):
        return {p for k, v in tree.items() for p in _numeric_paths(v, f"{path}.{k}" if path else k)}
    if isinstance(tree, list):
        return {p for item in tree for p in _numeric_paths(item, f"{path}[]")}
    assert math.isfinite(tree)
    return {path}


@pytest.mark.usefixtures("drawn_once")
def test_the_real_record_in_an_invented_reach_gives_a_dossier(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    answer = report_json(capsys, str(DATA / "fish_river_scheme.toml"), "--out", str(tmp_path / "out"))
    page = (tmp_path / "out" / "latest" / "dossier.html").read_text("utf-8")
    assert "The reach, its transect and its rating are invented" in page
    assert "The record is invented" not in page
    assert (tmp_path / "out" / "latest" / "dossier.pdf").read_bytes().startswith(b"%PDF")
    assert any(r["about"] == "clearance" and r["severity"] == "warning" for r in answer["remarks"])
    assert answer["place"]["standings"][0]["clearance_m"] < 0.0


def test_point_prints_json(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["point", str(demo), "--stream-speed", "2 m/s", "--rotor-speed", "85 rpm", "--json"]) == 0
    point = json.loads(capsys.readouterr().out)["point"]
    assert point["rotor_speed_rad_per_s"] == pytest.approx(85 * math.pi / 30)
    assert point["shaft_power_W"] == pytest.approx(point["torque_N_m"] * point["rotor_speed_rad_per_s"], rel=1e-9)


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


FAULTS = [
    ("wrong unit", ('throat_diameter = "1 m"', 'throat_diameter = "1 kg"'), ("scheme.toml:", "throat_diameter")),
    ("unknown key", ('length = "1 m"', 'lenght = "1 m"'), ("scheme.toml:", "lenght", "'length'")),
    ("missing file", ('file = "discharge.csv"', 'file = "dicharge.csv"'), ("scheme.toml:", "record.file")),
    ("outside file", ('file = "discharge.csv"', 'file = "../discharge.csv"'), ("scheme.toml:", "outside")),
    ("rows leave duct", ('place_x = "0.36 m"', 'place_x = "0.98 m"'), ("scheme.toml:", "rotor.place_x")),
    ("no duct opens so", ('length = "1 m"', 'length = "0.2 m"'), ("scheme.toml:",)),
]


@pytest.mark.parametrize("command", ["check", "report"])
@pytest.mark.parametrize(("_name", "edit", "words"), FAULTS, ids=[f[0] for f in FAULTS])
def test_a_fault_gives_one_message_and_exit_2(
    demo: Path,
    capsys: pytest.CaptureFixture[str],
    command: str,
    _name: str,
    edit: tuple[str, str],
    words: tuple[str, ...],
) -> None:
    change(demo, *edit)
    before = snapshot(demo.parent)
    assert run([command, str(demo)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert all(word in told for word in words)
    assert "Traceback" not in told
    assert snapshot(demo.parent) == before


@pytest.mark.parametrize("command", ["check", "report"])
def test_an_empty_record_is_said_with_its_file(demo: Path, capsys: pytest.CaptureFixture[str], command: str) -> None:
    (demo.parent / "discharge.csv").write_text("date,discharge_m3s\n", "utf-8")
    assert run([command, str(demo)]) == 2
    told = capsys.readouterr().err
    assert "discharge.csv" in told
    assert "no rows" in told


def test_an_empty_scheme_gives_a_dossier_that_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "scheme.toml"
    path.write_text("format = 1\n", "utf-8")
    assert run(["report", str(path)]) == 0
    assert "empty" in (tmp_path / "reports" / "latest" / "dossier.html").read_text("utf-8").lower()


def test_usage_faults_exit_2(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["report"]) == 2
    assert run(["fly", "x"]) == 2
    assert run(["point", "x.toml", "--rotor-speed"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def loaded_by(*arguments: str) -> set[str]:
    """Top-level modules after a command, in a fresh process."""
    code = "import sys; from racewright.cli.main import run; run(sys.argv[1:]); print('|'.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True, timeout=120
    )
    return set(done.stdout.splitlines()[-1].split("|"))


def test_help_and_check_load_no_numerical_library(demo: Path) -> None:
    for arguments in (["--help"], ["check", str(demo)]):
        assert not loaded_by(*arguments) & {"numpy", "scipy", "numba", "matplotlib", "nicegui"}


def test_point_loads_no_drawing_library(demo: Path) -> None:
    found = loaded_by("point", str(demo))
    assert "numpy" in found
    assert not found & {"matplotlib", "nicegui", "scipy.stats", "pandas"}


@pytest.mark.parametrize("workers", ["1", "2"])
def test_an_interrupt_ends_with_130_and_leaves_no_report(demo: Path, tmp_path: Path, workers: str) -> None:
    """SIGINT to the whole process group, as Ctrl-C in a terminal does, while the flow is being solved."""
    environment = {**os.environ, "RACEWRIGHT_CACHE": str(tmp_path / "cache")}
    command = [sys.executable, "-m", "racewright", "--verbose", "report", str(demo), "--workers", workers]
    running = subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=environment,
        start_new_session=True,
        preexec_fn=hears_interrupts,
    )
    deadline = time.monotonic() + 60.0
    while not list((tmp_path / "cache").glob("??/*.npz")) and time.monotonic() < deadline:
        time.sleep(0.05)  # until the first node is kept: the flow comes after it
    os.killpg(running.pid, signal.SIGINT)
    _out, told = running.communicate(timeout=30)
    assert running.returncode == 130, told
    assert "cancelled" in told
    assert "Traceback" not in told
    assert not (demo.parent / "reports" / "latest").exists()


def test_verbose_says_what_is_remembered(demo: Path, tmp_path: Path) -> None:
    environment = {**os.environ, "RACEWRIGHT_CACHE": str(tmp_path / "cache")}
    command = [sys.executable, "-m", "racewright", "--verbose", "point", str(demo)]
    first, second = (
        subprocess.run(command, capture_output=True, text=True, env=environment, check=True).stderr for _ in range(2)
    )
    assert "flow: computed in" in first
    assert "flow: remembered" in second


def test_names_that_cannot_be_printed_are_escaped(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    change(demo, 'community = "landing"', 'community = "x\\ny\\u202e"')
    assert run(["check", str(demo)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "\u202e" not in told
