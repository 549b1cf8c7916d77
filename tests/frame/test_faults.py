"""Every fault of the input: one message with file, line and key, the right exit code, nothing changed on disk."""

from __future__ import annotations

import dataclasses
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest

from racewright.cli.main import run
from racewright.errors import NoAnswerError
from racewright.flow import axisymmetric as solver
from racewright.flow.wake import Solution
from tests.frame.common import ROOT, change, copy_example, snapshot
from tests.frame.faults import FAULTS, Fault

CASES = [(f, command) for f in FAULTS for command in ([f.command] if f.command else ["check", "report"])]


@pytest.mark.parametrize(("fault", "command"), CASES, ids=[f"{f.name}, {c}" for f, c in CASES])
def test_a_fault_is_one_message(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], fault: Fault, command: str
) -> None:
    scheme = copy_example(tmp_path / "demo")
    fault.harm(scheme)
    before = snapshot(tmp_path)
    code = run([command, str(scheme)])
    said = capsys.readouterr()
    assert code == fault.exit_code, said.err
    assert said.out == ""
    assert_one_message(said.err, *fault.words)
    assert snapshot(tmp_path) == before


def assert_one_message(said: str, *words: str) -> None:
    assert said.startswith("racewright: ")
    assert said.count("\n") == 1
    assert "Traceback" not in said
    for word in words:
        assert word.lower() in said.lower(), (word, said)


@pytest.mark.parametrize(
    ("solved", "words"), [(0, "unloaded duct was not found"), (3, "only up to a head coefficient")]
)
def test_a_diverging_solve_is_exit_3(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    solved: int,
    words: str,
) -> None:
    scheme = copy_example(tmp_path / "demo")
    change(scheme, 'throat_diameter = "1 m"', 'throat_diameter = "1.01 m"')
    real = solver.walk

    def diverging(*arguments: Any) -> list[Solution]:
        loads = arguments[4]
        found = real(*arguments[:4], loads[: max(solved, 1)], *arguments[5:])
        return [*found[:solved], dataclasses.replace(found[-1], residual=1.0)]

    monkeypatch.setattr(solver, "walk", diverging)
    before = snapshot(tmp_path)
    assert run(["report", str(scheme)]) == NoAnswerError.exit_code == 3
    assert_one_message(capsys.readouterr().err, words)
    assert snapshot(tmp_path) == before


def test_faults_of_permission_as_an_ordinary_user(record_property: Callable[[str, object], None]) -> None:
    base = Path(mkdtemp(prefix="racewright-ordinary-"))
    base.chmod(0o755)
    try:
        package = _reachable_copy(base / "package")
        work = base / "work"
        work.mkdir()
        work.chmod(0o777)
        done = subprocess.run(
            [sys.executable, "-m", "tests.frame.ordinary_user", str(work)],
            cwd=package,
            env={**os.environ, "PYTHONPATH": str(package)},
            capture_output=True,
            text=True,
            timeout=900,
            check=False,
        )
        assert done.returncode == 0, done.stderr[-2000:]
        answer = json.loads(done.stdout)
        assert answer["user"] != 0
        for case, (code, said) in answer["found"].items():
            assert code == 2, (case, said)
            reading = "unreadable" in case
            named = "scheme.toml" if "scheme" in case and reading else "discharge.csv" if reading else str(work)
            assert_one_message(said, named, "permission denied")
        (work / "record" / "discharge.csv").chmod(0o600)
        for name, before in answer["before"].items():
            assert sorted(snapshot(work / name)) == before
        record_property("measured", f"{len(answer['found'])} faults of permission as user {answer['user']}")
    finally:
        shutil.rmtree(base)


def _reachable_copy(folder: Path) -> Path:
    """The package and the tests' helpers where every user may read them, compiled kernels with them."""
    import racewright

    shutil.copytree(Path(racewright.__file__).parent, folder / "racewright")
    for name in ("tests", "tests/ledger", "tests/frame"):
        (folder / name).mkdir()
        for source in (ROOT / name).glob("*.py"):
            shutil.copy2(source, folder / name)
    for path in (folder, *folder.rglob("*")):
        path.chmod(0o755 if path.is_dir() else 0o644)
    return folder
