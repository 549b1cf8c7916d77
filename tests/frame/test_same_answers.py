"""Cold, warm and deleted cache, one worker and two: the same bytes."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.frame.common import copy_example, count, racewright


def one_report(scheme: Path, out: Path, cache: Path, workers: int) -> dict[str, Any]:
    """Content of a fresh report by file name; provenance left out."""
    done = racewright("report", str(scheme), "--out", str(out), "--workers", str(workers), "--json", cache=cache)
    assert done.returncode == 0, done.stderr
    printed = json.loads(done.stdout)
    found: dict[str, Any] = {p.name: p.read_bytes() for p in (out / "latest").iterdir()}
    del found["provenance.json"]
    for text in (found["results.json"], done.stdout):
        assert json.loads(text) == printed
    found["results.json"] = {k: v for k, v in printed.items() if k != "provenance"}
    return found


def test_the_cache_and_the_workers_change_no_byte(
    tmp_path: Path, frame_cache: Path, record_property: Callable[[str, object], None]
) -> None:
    scheme = copy_example(tmp_path / "demo")
    cache, pair = tmp_path / "cache", tmp_path / "cache2"
    turns = {"cold, 2 workers": (pair, 2), "warm": (frame_cache, 1)}
    if count(0, 1):
        turns |= {
            "cold": (cache, 1),
            "its cache, warm": (cache, 1),
            "its cache, warm, 2 workers": (cache, 2),
            "cache of two workers, warm": (pair, 1),
        }
    found = {name: one_report(scheme, tmp_path / name, *how) for name, how in turns.items()}
    if count(0, 1):
        assert racewright("cache", "--clear", cache=cache).returncode == 0
        found["cleared"] = one_report(scheme, tmp_path / "cleared", cache, 1)
        shutil.rmtree(cache)
        found["deleted"] = one_report(scheme, tmp_path / "deleted", cache, 2)
    first = found.pop("cold, 2 workers")
    assert {"dossier.html", "dossier.pdf", "results.json"} < set(first)
    assert sum(name.endswith(".svg") for name in first) >= 5
    for name, other in found.items():
        assert other.keys() == first.keys()
        differ = [file for file in first if first[file] != other[file]]
        assert not differ, (name, differ)
    record_property(
        "measured", f"{len(first)} files equal in {len(found) + 1} runs: cold with 2 workers, {', '.join(found)}"
    )
