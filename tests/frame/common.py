"""Shared by the frame's tests: counts, a copy of the example, what lies in a folder, one child process."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.ledger.common import EXAMPLE

ROOT = Path(__file__).resolve().parents[2]

FULL = os.environ.get("RACEWRIGHT_FULL") == "1"
"""True in the full proof; the suite runs the same tests at reduced counts."""


PLACE_ALONE = ('machine = "river_unit"\ncommunity = "landing"\n', "")
"""The change that takes machine and community out of the example's case."""


def count(suite: int, full: int) -> int:
    """How often: the first number in the suite, the second in the full proof."""
    return full if FULL else suite


def copy_example(folder: Path) -> Path:
    """Copy the bundled example into `folder`; returns the scheme's path."""
    shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    return folder / "scheme.toml"


def copy_small(folder: Path) -> Path:
    """Copy the example for tests of files and processes: its place alone in the suite, computed and drawn in little
    time, and all of it in the full proof."""
    scheme = copy_example(folder)
    if not FULL:
        change(scheme, *PLACE_ALONE)
    return scheme


def change(path: Path, old: str, new: str) -> None:
    """Replace the first `old`, which must be there."""
    text = path.read_text("utf-8")
    assert old in text, old
    path.write_text(text.replace(old, new, 1), "utf-8")


def snapshot(folder: Path) -> dict[str, bytes | None]:
    """Content of every file below a folder; None for folders, the target for links."""
    found: dict[str, bytes | None] = {}
    for path in sorted(folder.rglob("*")):
        name = str(path.relative_to(folder))
        if path.is_symlink():
            found[name] = os.readlink(path).encode()
        else:
            found[name] = path.read_bytes() if path.is_file() else None
    return found


def racewright(
    *arguments: str, cache: Path | None = None, timeout: float = 300.0
) -> subprocess.CompletedProcess[str]:
    """Run the command line in a process of its own."""
    extra = {} if cache is None else {"RACEWRIGHT_CACHE": str(cache)}
    return subprocess.run(
        [sys.executable, "-m", "racewright", *arguments],
        env={**os.environ, **extra},
        capture_output=True,
        text=True,
        timeout=timeout,
        check=False,
    )
