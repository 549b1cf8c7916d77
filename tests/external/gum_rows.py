"""The examples of the guide: expected values and inputs."""

from __future__ import annotations

import csv
from pathlib import Path

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / f"{name}.csv").open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def expected(example: str, quantity: str) -> float:
    """The value of one quantity of one example."""
    return next(
        float(row["value"]) for row in _rows("gum_jcgm") if row["example"] == example and row["quantity"] == quantity
    )


def readings(example: str) -> list[float]:
    """The raw readings of an example, or of one channel of it."""
    line = next(row["inputs"] for row in _rows("gum_jcgm_inputs") if row["example"] == example)
    return [float(one) for one in line.split()]
