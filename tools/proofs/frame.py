"""The frame that everything stands in: ledger, faults, kills, equal answers, imports, hostile input, clone, docs."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from tools.proofs.line import ROOT, Line, Measured, by_tests

LONG_ROWS = 10_000_000
"""One-minute discharge over 19 years."""
MOST_MEMORY = 2.0 * 1024**3


def full(*selection: str) -> Callable[[], Measured]:
    """By tests at full counts."""

    def measure() -> Measured:
        os.environ["RACEWRIGHT_FULL"] = "1"
        try:
            return by_tests(*selection)()
        finally:
            del os.environ["RACEWRIGHT_FULL"]

    return measure


def both(*parts: Callable[[], Measured]) -> Callable[[], Measured]:
    """One line measured in parts."""

    def measure() -> Measured:
        found = [part() for part in parts]
        ok = False if any(f.ok is False for f in found) else None if any(f.ok is None for f in found) else True
        return Measured("; ".join(f.text for f in found), ok)

    return measure


def write_minutes(path: Path, rows: int) -> None:
    """A record of one value a minute: a yearly swing, no repeats of stamps."""
    day = [f"{minute // 60:02d}:{minute % 60:02d}" for minute in range(1440)]
    with path.open("w", encoding="utf-8") as stream:
        stream.write("date,discharge_m3s\n")
        first = time.gmtime(1_072_915_200)
        assert first.tm_year == 2004
        for number in range(rows // 1440 + 1):
            date = time.strftime("%Y-%m-%d", time.gmtime(1_072_915_200 + 86_400 * number))
            level = 90.0 + 60.0 * abs((number % 365) / 182.5 - 1.0)
            block = [f"{date}T{clock},{level + 0.01 * (i % 50):.2f}\n" for i, clock in enumerate(day)]
            stream.writelines(block[: rows - 1440 * number])


def long_record(rows: int = LONG_ROWS) -> Measured:
    """Report over a long record in a process of its own; the peak is of the largest process of its tree."""
    with TemporaryDirectory() as folder:
        demo = Path(folder) / "demo"
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "RACEWRIGHT_CACHE": f"{folder}/cache"}
        run = [sys.executable, "-m", "racewright"]
        subprocess.run([*run, "new", str(demo)], check=True, capture_output=True, env=environment)
        write_minutes(demo / "discharge.csv", rows)
        size = (demo / "discharge.csv").stat().st_size
        said = Path(folder) / "said"
        start = time.monotonic()
        with said.open("wb") as stream:
            child = subprocess.Popen([*run, "report", str(demo / "scheme.toml")], env=environment, stderr=stream)
            _pid, status, used = os.wait4(child.pid, 0)
        took, code = time.monotonic() - start, os.waitstatus_to_exitcode(status)
        child.returncode = code
        last = (said.read_text("utf-8").strip() or "said nothing").splitlines()[-1]
    peak = 1024.0 * used.ru_maxrss
    text = f"{rows:.0e} rows, {size / 1e6:.0f} MB: exit {code}, {took:.0f} s, peak {peak / 2**30:.2f} GiB"
    return Measured(text + (f": {last}" if code else ""), code == 0 and peak < MOST_MEMORY)


def clone() -> Measured:
    """Tests and docs build of a clone, with this Python and nothing beside it."""
    with TemporaryDirectory() as folder:
        there = Path(folder) / "clone"
        subprocess.run(["git", "clone", "-q", str(ROOT), str(there)], check=True)
        environment = {**os.environ, "PYTHONPATH": str(there / "src"), "RACEWRIGHT_CACHE": f"{folder}/cache"}
        tests = subprocess.run(
            [sys.executable, "-m", "pytest"], cwd=there, env=environment, capture_output=True, text=True, check=False
        )
        said = (tests.stdout.strip() or "no output").splitlines()[-1]
        text = f"tests exit {tests.returncode}: {said}"
        if not (there / "tools" / "docs" / "build.py").exists():
            return Measured(f"{text}; docs build not there", None)
        docs = subprocess.run(
            [sys.executable, "tools/docs/build.py", "--check"],
            cwd=there,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
        text += f"; docs build --check exit {docs.returncode}"
        if docs.returncode:
            text += f": {(docs.stdout + docs.stderr).strip().splitlines()[-1][:200]}"
    return Measured(text, tests.returncode == 0 and docs.returncode == 0)


LINES = [
    Line(
        "frame-1",
        "each scheme key changed alone: exactly the declared nodes and what reads them recompute; a node sees only "
        "what it declares; no key is dead; 1000 mm and 1 m share keys; damaged or foreign cache values are misses; "
        "100 concurrent runs on one cache agree",
        full(
            "tests/frame/test_scheme_keys.py",
            "tests/frame/test_codec_damage.py",
            "tests/frame/test_shared_cache.py",
        ),
        4,
    ),
    Line(
        "frame-2",
        "eighteen faults: one message with file, line and key, exit 2 or 3, nothing changed on disk; those of "
        "permission as an ordinary user",
        full("tests/frame/test_faults.py"),
        2,
    ),
    Line(
        "frame-3",
        "kill -9 at each write step and at 30 random times: the old report or the new one, whole, and the next "
        "sweeps; 1e7 rows answered under 2 GiB",
        both(full("tests/frame/test_kills.py"), long_record),
        8,
    ),
    Line(
        "frame-4",
        "cold, warm, cleared and deleted cache, one and two workers: equal bytes outside provenance",
        full("tests/frame/test_same_answers.py"),
        3,
    ),
    Line(
        "frame-5",
        "help, check, new, cache load no numerical library; point loads no drawing library",
        full("tests/frame/test_imports.py"),
    ),
    Line(
        "frame-6",
        "100,000 hostile schemes and records: an answer or one message; no traceback, no check over 1 s, no file "
        "outside report and cache folder",
        full("tests/frame/test_hostile_input.py"),
        40,
    ),
    Line("frame-7", "a clone with nothing beside it: tests and docs build pass", clone, 12),
    Line(
        "frame-8",
        "the docs build fails for an undocumented option, scheme key or JSON key",
        by_tests("tests/docs")
        if (ROOT / "tests" / "docs").exists()
        else lambda: Measured("no tests/docs here", None),
    ),
]
