"""The glossary, and which of its identifiers the code no longer uses."""

from __future__ import annotations

import re
from pathlib import Path

from tools.docs.fault import Fault


def identifiers(text: str) -> list[tuple[str, str]]:
    """(name, identifier) of each row of the glossary's table; a row may hold several identifiers, or none."""
    found = []
    for line in text.splitlines():
        cells = [part.strip() for part in line.strip().strip("|").split(" | ")]
        if line.startswith("|") and len(cells) >= 4 and cells[0] not in ("name", "---"):
            outside_brackets = re.sub(r"\(.*?\)", "", cells[1])
            found += [(cells[0], name) for name in re.findall(r"`([^`]+)`", outside_brackets)]
    return found


def stale(text: str, source: Path) -> list[Fault]:
    """Identifiers that stand in no Python file below `source`."""
    words: set[str] = set()
    for file in source.rglob("*.py"):
        words |= set(re.findall(r"[A-Za-z_]\w*", file.read_text("utf-8")))
    return [
        Fault(f"glossary, {name}", f"the identifier '{identifier}' stands nowhere in the code")
        for name, identifier in identifiers(text)
        if identifier not in words
    ]
