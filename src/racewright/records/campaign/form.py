"""How a logger file is written, and what is wanted of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.records.csv_form import Decimal, Delimiter, Encoding

Floats = NDArray[np.float64]
Clock = Literal["seconds", "stamps", "rate"]

MISSING = ("", "NaN", "nan", "NAN", "-", "--", "---", "NULL", "#N/A")
"""Cells that stand for no value."""


@dataclass(frozen=True)
class LoggerForm:
    """Form of a logger file.

    Attributes
    ----------
    delimiter, decimal, encoding
        As in `CsvForm`; of no meaning for Parquet and TDMS.
    clock : {'seconds', 'stamps', 'rate'}
        Time column in seconds, time column of ISO 8601 stamps, or no time column and a fixed rate.
    time_column : str
        Of the first two clocks.
    rate : float
        Rows a second of a 'rate' clock, > 0 [1/s].
    zone : float
        Offset of stamps that have none of their own [s].
    missing : tuple of str
        Cells that stand for no value.
    """

    delimiter: Delimiter = "auto"
    decimal: Decimal = "point"
    encoding: Encoding = "utf-8"
    clock: Clock = "seconds"
    time_column: str = "time"
    rate: float = math.nan
    zone: float = 0.0
    missing: tuple[str, ...] = MISSING

    def __post_init__(self) -> None:
        if self.clock == "rate" and not (math.isfinite(self.rate) and self.rate > 0.0):
            raise InputError("a logger file without time column needs its rate, like '100 Hz'", key="rate")
        if self.decimal == "comma" and self.delimiter == ",":
            raise InputError(
                "with decimal commas the cells cannot be parted by ','; use ';' or 'tab'", key="delimiter"
            )

    @property
    def delimiters(self) -> tuple[str, ...]:
        """The characters that may part cells, the likeliest first."""
        if self.delimiter == "auto":
            return (",", ";", "\t") if self.decimal == "point" else (";", "\t")
        return ("\t",) if self.delimiter == "tab" else (self.delimiter,)


@dataclass(frozen=True)
class Chunk:
    """Neighbouring rows of a logger file.

    Attributes
    ----------
    time : ndarray, shape (n,)
        Since the first row of the file [s].
    values : ndarray, shape (n, channels)
        As logged, in the logger's own units; 0 where missing.
    missing : ndarray of bool, shape (n, channels)
        True where the file has no value.
    """

    time: Floats
    values: Floats
    missing: NDArray[np.bool_]


@dataclass
class Told:
    """What a reader found besides rows; complete when the last chunk is out.

    Attributes
    ----------
    rows : int
    start : float or None
        Stamp of the first row, seconds since 1970-01-01 UTC; None where the file has no stamps [s].
    units : dict
        Unit by column, from the file's own row of units; empty without one.
    repeated : int
        Rows with the stamp of the row before; their times are spread evenly.
    cut_short : bool
        True when the last line had no end and was left out.
    sha256 : str
        Of the file's bytes, hex.
    preamble : str
        What stands above the header, at most 10 000 characters.
    first_time : float
        Time of the first row as written [s].
    first_tick : int
        The same of a file with stamps, since 1970-01-01 [ns].
    """

    rows: int = 0
    start: float | None = None
    units: dict[str, str] = field(default_factory=dict)
    repeated: int = 0
    cut_short: bool = False
    sha256: str = ""
    preamble: str = ""
    first_time: float = 0.0
    first_tick: int = 0


@dataclass(frozen=True)
class Reading:
    """A logger file being read: `told` fills while `chunks` are taken."""

    told: Told
    chunks: Iterator[Chunk]
