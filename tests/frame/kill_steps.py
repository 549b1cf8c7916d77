"""Run as a program: kill the writer of a report before, in and after each of its write steps, in turn.

Usage: kill_steps ROOT. Each turn forks a child that writes a report and dies at its nth step by SIGKILL; the
parent then looks at `latest`, writes the next report and looks for leftovers. Prints a JSON list of turns.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from racewright.records import reports

CONTENT = {"dossier.html": b"x" * 200_000 + b"</html>\n", "dossier.pdf": b"%PDF" + b"y" * 300_000 + b"%%EOF\n"}
STEPS = (
    (reports, "_write"),
    (reports, "force"),
    *((Path, name) for name in ("mkdir", "rename", "unlink", "rmdir", "symlink_to", "replace")),
)


class Countdown:
    """Kills this process at the nth chance; remembers what the chances were."""

    def __init__(self, fatal: int) -> None:
        self.left = fatal

    def chance(self, _what: str) -> None:
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        self.left -= 1

    def around(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def step(*arguments: Any, **named: Any) -> Any:
            self.chance(f"before {name}")
            if name == "_write":
                arguments[0].write_bytes(arguments[1][: len(arguments[1]) // 2])
                self.chance("in _write")
            answer = real(*arguments, **named)
            self.chance(f"after {name}")
            return answer

        return step


def write_and_die(root: Path, fatal: int, content: dict[str, bytes]) -> bool:
    """True when the child was killed, False when it finished first."""
    child = os.fork()
    if child == 0:
        countdown = Countdown(fatal)
        for owner, name in STEPS:
            setattr(owner, name, countdown.around(name, getattr(owner, name)))
        reports.write_report(root, "new", content)
        os._exit(0)
    _pid, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status) or os.WEXITSTATUS(status) == 0
    return os.WIFSIGNALED(status)


def state(root: Path) -> str:
    """'absent', 'whole' or what is wrong with `latest`."""
    latest = root / reports.LATEST
    if not latest.is_symlink():
        return "absent" if not latest.exists() else "no link"
    if not latest.is_dir():
        return "dangling"
    found = {p.name: p.read_bytes() for p in latest.iterdir() if p.name != reports.MARKER}
    return "whole" if found == CONTENT else f"broken: {sorted(found)}"


def main(base: Path, earlier: int) -> list[dict[str, Any]]:
    """Turns from step 0 until the writer outlives its steps, onto a folder of `earlier` reports."""
    turns: list[dict[str, Any]] = []
    old = base / f"old{earlier}"
    old.mkdir()
    for _turn in range(earlier):
        reports.write_report(old, "old", CONTENT)
    killed = True
    while killed:
        root = base / f"reports{earlier}_{len(turns)}"
        if earlier:
            shutil.copytree(old, root, symlinks=True)
        killed = write_and_die(root, len(turns), CONTENT)
        after = state(root)
        reports.write_report(root, "next", CONTENT)
        standing = [p.name for p in root.iterdir() if p.is_dir() and not p.is_symlink()]
        turns.append(
            {
                "killed": killed,
                "after": after,
                "next": state(root),
                "leftovers": [p.name for p in root.iterdir() if p.name.endswith(".part")],
                "whole": all(
                    {p.name for p in (root / name).iterdir()} == {*CONTENT, reports.MARKER} for name in standing
                ),
                "standing": len(standing),
            }
        )
        shutil.rmtree(root)
    return turns


if __name__ == "__main__":
    folder = Path(sys.argv[1])
    sys.stdout.write(json.dumps({earlier: main(folder, earlier) for earlier in (0, 1, reports.KEPT)}) + "\n")
