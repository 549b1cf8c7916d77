"""Run as a program: faults of permission, met by an ordinary user.

The example is computed, then read from the cache, so that everything is loaded; then the process gives up root for
good, if it has it, and runs each case. Prints {case: [exit code, what was said, files left as they were]} as JSON.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import sys
from pathlib import Path

from racewright.cli.main import run
from tests.frame.common import copy_small, snapshot

NOBODY = 65534


def told(arguments: list[str]) -> tuple[int, str]:
    said = io.StringIO()
    with contextlib.redirect_stderr(said):
        code = run(arguments)
    return code, said.getvalue()


def become_ordinary() -> None:
    if os.getuid() == 0:
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)


def main(base: Path) -> dict[str, object]:
    schemes = {name: copy_small(base / name) for name in ("record", "scheme", "folder", "good")}
    os.environ["RACEWRIGHT_CACHE"] = str(base / "cache")
    (base / "out").mkdir()
    for _made_then_remembered in range(2):
        assert told(["report", str(schemes["good"]), "--out", str(base / "warm")])[0] == 0
    for path in base.rglob("*"):
        path.chmod(0o777 if path.is_dir() else 0o666, follow_symlinks=False) if not path.is_symlink() else None
    before = {name: snapshot(scheme.parent) for name, scheme in schemes.items()}
    (base / "record" / "discharge.csv").chmod(0)
    schemes["scheme"].chmod(0)
    (base / "folder").chmod(0o555)
    (base / "out").chmod(0o555)
    become_ordinary()
    found = {
        "check, unreadable record": told(["check", str(schemes["record"])]),
        "report, unreadable record": told(["report", str(schemes["record"])]),
        "check, unreadable scheme": told(["check", str(schemes["scheme"])]),
        "report, unreadable scheme": told(["report", str(schemes["scheme"])]),
        "report, read-only scheme folder": told(["report", str(schemes["folder"])]),
        "report, read-only --out": told(["report", str(schemes["good"]), "--out", str(base / "out" / "reports")]),
        "new, read-only folder": told(["new", str(base / "folder" / "demo")]),
    }
    return {"user": os.getuid(), "found": found, "before": {k: sorted(v) for k, v in before.items()}}


if __name__ == "__main__":
    sys.stdout.write(json.dumps(main(Path(sys.argv[1]))) + "\n")
