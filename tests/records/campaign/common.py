"""Small logger files for the tests."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from racewright.records.campaign.form import Chunk
from racewright.records.campaign.logger import read_logger
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.reading_columns import ReadingColumns
from racewright.records.campaign.store import Campaign, Run
from racewright.records.campaign.take_in import Source, begin

COLUMNS = ("U_V", "Q_mV")


def text(rows: int = 50, *, rate: float = 100.0, junk: str = "", units: str = "") -> str:
    """A plain file: time, two channels."""
    lines = [f"{i / rate:.2f},{1.0 + 0.01 * i:.4f},{-3.0 + 0.1 * (i % 7):.3f}" for i in range(rows)]
    return junk + "time,U_V,Q_mV\n" + units + "\n".join(lines) + "\n"


def write(folder: Path, content: str | bytes, name: str = "run.csv") -> Path:
    path = folder / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def whole(path: Path, form: LoggerForm | None = None, columns: tuple[str, ...] = COLUMNS) -> tuple[Chunk, object]:
    """All rows in one piece, and what was told."""
    reading = read_logger(path, columns, form or LoggerForm(), path.name)
    parts = list(reading.chunks)
    one = Chunk(
        np.concatenate([p.time for p in parts]),
        np.concatenate([p.values for p in parts]),
        np.concatenate([p.missing for p in parts]),
    )
    return one, reading.told


@dataclass(frozen=True)
class Taken:
    """The run, and whether it was read now."""

    run: Run
    fresh: bool


def take_in(campaign: Campaign, name: str, path: Path, source: Source, shown_as: str) -> Taken:
    """Import one file whole, as the commands do but without reducing it."""
    taking = begin(campaign, name, path, source, shown_as)
    if isinstance(taking, Run):
        return Taken(taking, fresh=False)
    try:
        for _chunk in taking.rows():
            pass
        return Taken(taking.finish(), fresh=True)
    except BaseException:
        taking.drop()
        raise


def one_reading(value: float, error: float | None = None, freedom: float | None = None) -> ReadingColumns:
    """One power coefficient, of the first span."""
    numbers = [np.array([[np.nan if one is None else one]]) for one in (value, error, freedom)]
    return ReadingColumns(np.array([0]), ("CP",), ("-",), *numbers)
