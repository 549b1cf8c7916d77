"""One acceptance line: its id, its target, and how it is measured."""

from __future__ import annotations

import os
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Measured:
    """What was found; `ok` is None when it could not be measured here."""

    text: str
    ok: bool | None


@dataclass(frozen=True)
class Line:
    """One row of a proof.

    Attributes
    ----------
    id, target : str
    measure : callable
        () -> Measured.
    minutes : float
        Rough time it takes; lines that do not fit into a cap are said to be not measured.
    quiet : bool
        True for a ratio of speeds: it wants a machine that does nothing else, so a capped run leaves it out.
    """

    id: str
    target: str
    measure: Callable[[], Measured]
    minutes: float = 1.0
    quiet: bool = False


def by_tests(*selection: str) -> Callable[[], Measured]:
    """Measure by a selection of the suite: files, node ids or pytest options."""

    def measure() -> Measured:
        passed, failed, worst = run_tests(*selection)
        shown = f"{passed} checks pass" + (f", {len(failed)} fail: {', '.join(failed[:4])}" if failed else "")
        return Measured(shown + (f"; {worst}" if worst else ""), not failed and passed > 0)

    return measure


def run_tests(*selection: str) -> tuple[int, list[str], str]:
    """(passed, names of failed, measured notes) of a pytest run in a process of its own."""
    with TemporaryDirectory() as folder:
        report = Path(folder) / "report.xml"
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
        subprocess.run(
            [sys.executable, "-m", "pytest", "-q", f"--junitxml={report}", "-o", "junit_family=xunit1", *selection],
            cwd=ROOT,
            env=environment,
            capture_output=True,
            check=False,
        )
        if not report.exists():
            return 0, ["the run itself"], ""
        cases = list(ElementTree.parse(report).getroot().iter("testcase"))
    failed = [c.get("name", "?") for c in cases if c.find("failure") is not None or c.find("error") is not None]
    skipped = sum(c.find("skipped") is not None for c in cases)
    notes = [p.get("value", "") for c in cases for p in c.iter("property") if p.get("name") == "measured"]
    return len(cases) - len(failed) - skipped, failed, "; ".join(dict.fromkeys(notes))
