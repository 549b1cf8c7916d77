"""Read a reference table that stands beside the checks."""

from __future__ import annotations

import csv
from pathlib import Path


def rows(name: str) -> list[dict[str, str]]:
    """Rows of data/`name`.csv, comment lines left out."""
    with (Path(__file__).parent / "data" / f"{name}.csv").open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))
