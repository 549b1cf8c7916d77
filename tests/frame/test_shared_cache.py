"""Processes share one cache safely: many runs at once, a hundred in the full proof, with clears and trims between."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from tests.frame.common import ROOT, copy_example, count
from tests.frame.share_cache import main


def test_concurrent_runs_agree(tmp_path: Path, record_property: Callable[[str, object], None]) -> None:
    scheme = copy_example(tmp_path / "demo")
    alone = main(scheme, tmp_path / "alone", 0, 1)
    processes, turns = count(3, 10), 10
    running = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.frame.share_cache", scheme, tmp_path / "cache", str(number), str(turns)],
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for number in range(processes)
    ]
    digests: list[str] = []
    for child in running:
        out, err = child.communicate(timeout=300)
        assert child.returncode == 0, err
        digests += json.loads(out)
    assert len(digests) == processes * turns
    assert set(digests) == set(alone)
    record_property("measured", f"{len(digests)} runs in {processes} processes, one answer")
