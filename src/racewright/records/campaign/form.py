"""What comes out of a logger file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def by_channel(rows: int, channels: int) -> tuple[Floats, NDArray[np.bool_]]:
    """Room for values and for where they are missing, shape (rows, channels); a channel's values lie side by side."""
    return np.empty((channels, rows)).T, np.zeros((channels, rows), np.bool_).T


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
