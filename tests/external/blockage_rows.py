"""Reference rows of blockage theory."""

from __future__ import annotations

import csv
from pathlib import Path

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, float]]:
    """Numeric columns of data/blockage_`name`.csv."""
    with (DATA / f"blockage_{name}.csv").open() as file:
        table = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return [{key: float(value) for key, value in row.items() if key != "case" and value} for row in table]
