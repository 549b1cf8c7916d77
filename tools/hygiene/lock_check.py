"""Fail when a lock does not fit pyproject.toml: a requirement not locked, or locked at a version it refuses."""

from __future__ import annotations

import re
import sys
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.version import Version

ROOT = Path(__file__).resolve().parents[2]
_PIN = re.compile(r"^([A-Za-z0-9._-]+)==([^\s;\\]+)", re.MULTILINE)


def faults(pyproject: str, lock: str, test_lock: str) -> list[str]:
    """What does not fit, in words."""
    project = tomllib.loads(pyproject)
    wanted = [(lock, "requirements.lock", text) for text in project["project"]["dependencies"]]
    wanted += [(test_lock, "requirements-test.lock", text) for text in project["dependency-groups"]["dev"]]
    wanted += [(test_lock, "requirements-test.lock", text) for text in project["project"]["dependencies"]]
    found = []
    for content, name, text in wanted:
        need = Requirement(text)
        pins = {_plain(m[1]): [] for m in _PIN.finditer(content)}
        for m in _PIN.finditer(content):
            pins[_plain(m[1])].append(Version(m[2]))
        versions = pins.get(_plain(need.name), [])
        if not versions:
            found.append(f"{name}: {need.name} is not locked")
        elif not all(v in need.specifier for v in versions):
            found.append(f"{name}: {need.name} is locked at {versions[0]}, but {text} is wanted")
    if "://" in lock + test_lock:
        found.append("a lock names a host")
    return found


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


if __name__ == "__main__":
    said = faults(
        *(
            (ROOT / name).read_text("utf-8")
            for name in ("pyproject.toml", "requirements.lock", "requirements-test.lock")
        )
    )
    print("\n".join(said) or "locks fit pyproject.toml")
    sys.exit(bool(said))
