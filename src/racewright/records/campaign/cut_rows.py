"""One run out of a logger file that holds several."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from racewright.errors import InputError
from racewright.records.campaign.form import Chunk


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
        No row lies between.
    """
    first: float | None = None
    for chunk in chunks:
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
    if first is None:
        raise InputError(f"has no row from {begin:g} s to {end:g} s after its first", file=shown_as)
