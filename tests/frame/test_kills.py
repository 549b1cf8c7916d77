"""A writer killed at any step, or at any moment of a real report, leaves the old report or the new one, whole."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from racewright.records.reports import KEPT
from tests.frame.common import ROOT, copy_small, count, racewright

Note = Callable[[str, object], None]


def test_a_kill_at_each_write_step(tmp_path: Path, record_property: Note) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.frame.kill_steps", str(tmp_path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=300,
        check=True,
    )
    answer = json.loads(done.stdout)
    kills = 0
    for earlier, turns in answer.items():
        assert [t["killed"] for t in turns] == [True] * (len(turns) - 1) + [False]
        assert len(turns) > 20
        kills += len(turns) - 1
        for number, turn in enumerate(turns):
            at = (earlier, number)
            assert turn["after"] == "whole" or (turn["after"] == "absent" and earlier == "0"), at
            assert turn["next"] == "whole", at
            assert turn["leftovers"] == [], at
            assert turn["whole"], at
            assert turn["standing"] <= KEPT, at
    record_property("measured", f"{kills} kills at write steps")


def whole(latest: Path, files: set[str]) -> bool:
    """A report with these files and no others, each complete."""
    html, pdf = ((latest / f"dossier.{kind}").read_bytes() for kind in ("html", "pdf"))
    json.loads((latest / "results.json").read_text("utf-8"))
    json.loads((latest / "provenance.json").read_text("utf-8"))
    figures = list(latest.glob("*.svg"))
    named = {path.name for path in latest.iterdir()} == files
    closed = html.rstrip().endswith(b"</html>") and b"%%EOF" in pdf[-64:]
    return closed and named and all(f.read_bytes().rstrip().endswith(b"</svg>") for f in figures)


def test_kills_at_random_times_of_a_real_report(tmp_path: Path, frame_cache: Path, record_property: Note) -> None:
    scheme = copy_small(tmp_path / "demo")
    latest = tmp_path / "out" / "latest"
    command = [sys.executable, "-m", "racewright", "report", str(scheme), "--out", str(tmp_path / "out")]
    assert racewright("report", str(scheme), "--out", str(tmp_path / "out"), cache=frame_cache).returncode == 0
    start = time.monotonic()
    assert racewright("report", str(scheme), "--out", str(tmp_path / "out"), cache=frame_cache).returncode == 0
    long = time.monotonic() - start
    files = {path.name for path in latest.iterdir()}
    assert sum(name.endswith(".svg") for name in files) >= count(3, 5)
    times = random.Random(3)
    turns = count(2, 30)
    killed = 0
    for turn in range(turns):
        share = times.uniform(0.0, 1.05) if turn % 2 else times.uniform(0.85, 1.02)
        child = subprocess.Popen(
            command,
            env={**os.environ, "RACEWRIGHT_CACHE": str(frame_cache)},
            stderr=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
        )
        time.sleep(share * long)
        child.kill()
        killed += child.wait() < 0
        assert whole(latest, files), (turn, share)
    assert racewright("report", str(scheme), "--out", str(tmp_path / "out"), cache=frame_cache).returncode == 0
    assert whole(latest, files)
    assert not list((tmp_path / "out").glob("*.part"))
    record_property("measured", f"{killed} of {turns} runs killed at random times of {long:.1f} s")
