"""Columns of an Arrow batch: stamps as seconds, values as floats."""

from __future__ import annotations

import re

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
from numpy.typing import NDArray

_PER_SECOND = {"s": 1, "ms": 10**3, "us": 10**6, "ns": 10**9}
_DAY = 86400
_FIRST, _LAST = -62135596800, 253402300799
"""Years 1 to 9999, as in text [s since 1970-01-01]."""


def arrow_stamps(column: pa.Array, shift: int) -> tuple[NDArray[np.int64], tuple[int, str] | None]:
    """Seconds since 1970-01-01 UTC of each stamp, and the first fault (index, what is wrong).

    Parameters
    ----------
    column : pyarrow Array
        Timestamps of any resolution, with or without zone, or dates.
    shift : int
        Offset of stamps without a zone [s].
    """
    kind = column.type
    per_second, local = 1, True
    if pa.types.is_timestamp(kind):
        per_second, local = _PER_SECOND[kind.unit], kind.tz is None
        ticks = column.view(pa.int64()) if not column.null_count else pc.fill_null(column.cast(pa.int64()), 0)
    else:
        ticks = pc.fill_null(column.cast(pa.date32()).cast(pa.int32()), 0).cast(pa.int64())
    counts: NDArray[np.int64] = ticks.to_numpy(zero_copy_only=False)
    seconds = counts // per_second if per_second > 1 else counts.copy()
    null = np.asarray(column.is_null().to_numpy(zero_copy_only=False))
    beyond = np.zeros(seconds.size, dtype=np.bool_)
    if pa.types.is_date(kind):
        beyond = (seconds < _FIRST // _DAY) | (seconds > _LAST // _DAY)
        seconds = np.where(beyond, 0, seconds) * _DAY
    beyond |= (seconds < _FIRST) | (seconds > _LAST)
    broken = counts != seconds * per_second if per_second > 1 else np.zeros(seconds.size, dtype=np.bool_)
    bad = np.flatnonzero(null | beyond | broken)
    fault = None
    if bad.size:
        first = int(bad[0])
        wanted = "a moment in whole seconds, in the years 1 to 9999, is wanted"
        fault = first, f"{'null' if null[first] else stamp_text(column, first)} is not a time stamp; {wanted}"
    return (seconds - shift if local else seconds), fault


def stamp_text(column: pa.Array, index: int) -> str:
    """One stamp for a message."""
    if not pa.types.is_timestamp(column.type):
        return str(column[index].cast(pa.string()).as_py())
    naive = column.slice(index, 1).cast(pa.timestamp(column.type.unit))
    text = re.sub(r"\.0+$", "", str(naive.cast(pa.string())[0].as_py()))
    return text + ("Z" if column.type.tz is not None else "")


def arrow_values(column: pa.Array) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Values as floats, 0 where null; and where they are null."""
    floats = column if column.type == pa.float64() else column.cast(pa.float64(), safe=False)
    size, first = len(column), floats.offset
    known, body = floats.buffers()
    values = np.frombuffer(body, np.float64, size, 8 * first) if size else np.zeros(0)
    if not column.null_count:
        return values, np.zeros(size, np.bool_)
    bits = np.unpackbits(np.frombuffer(known, np.uint8), count=first + size, bitorder="little")
    null = bits[first:] == 0
    return np.where(null, 0.0, values), null
