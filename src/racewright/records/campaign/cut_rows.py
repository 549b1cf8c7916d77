"""One run out of a logger file that holds several."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from pathlib import Path

import numpy as np

from racewright.errors import InputError
from racewright.records.campaign.form import Chunk

SLACK = 1.0
"""Seconds by which `end` may pass the file's, since files end within a second. Own choice."""


def cut_rows(chunks: Iterable[Chunk], begin: float, end: float, shown_as: str) -> Iterator[Chunk]:
    """Rows from `begin` on and before `end`, times counted from the first of them.

    Parameters
    ----------
    chunks : iterable of Chunk
        All of the file, to its end: only then is its digest known.
    begin, end : float
        After the file's first row; end may be infinite [s].
    shown_as : str
        Name of the file in messages.

    Raises
    ------
    InputError
        No row lies between, or a finite end lies over a second beyond the file's; its key is 'begin' or 'end'.
    """
    first: float | None = None
    last = 0.0
    for chunk in chunks:
        last = float(chunk.time[-1])
        inside = (chunk.time >= begin) & (chunk.time < end)
        if not inside.any():
            continue
        time = chunk.time[inside]
        if first is None:
            first = float(time[0])
        whole = bool(inside.all())
        yield Chunk(
            np.asarray(time - first),
            chunk.values if whole else chunk.values[inside],
            chunk.missing if whole else chunk.missing[inside],
        )
    name = Path(shown_as).name
    if first is None:
        message = (
            f"{name} has no row from {begin:g} s to {end:g} s after its first; it ends {last:.6g} s after it, so a"
            " time before that is wanted"
        )
        raise InputError(message, file=shown_as, key="begin")
    if last + SLACK < end < math.inf:
        message = (
            f"{end:g} s lies beyond the end of {name}, {last:.6g} s after its first row; write a time up to"
            f" {last:.6g} s, or leave end out for all of the file"
        )
        raise InputError(message, file=shown_as, key="end")
