"""Reads the reference rows of the stage's checks."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

DATA = Path(__file__).parent / "data"


def table(name: str, skip_text: int = 0) -> tuple[list[list[str]], NDArray[np.float64]]:
    """Text of the first `skip_text` columns, and the other columns as floats (empty = nan)."""
    with (DATA / name).open(newline="") as file:
        rows = list(csv.reader(line for line in file if not line.startswith("#")))[1:]
    numbers = np.array([[float(x) if x else np.nan for x in row[skip_text:]] for row in rows])
    return [row[:skip_text] for row in rows], numbers
