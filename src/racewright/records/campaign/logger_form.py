"""How a logger file is written; loads no numerical library."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.records.csv_form import Decimal, Delimiter, Encoding

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
