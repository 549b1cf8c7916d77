"""Arrow columns from plain arrays and lists, by their bytes.

The library's own way from such values loads a data-frame library first, which takes longer than a short run's work.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

import numpy as np
import pyarrow as pa
from numpy.typing import NDArray

_KINDS: dict[str, pa.DataType] = {"float64": pa.float64(), "int64": pa.int64()}


def number_column(values: NDArray[Any], missing: NDArray[np.bool_] | None = None) -> pa.Array:
    """Floats or integers of 64 bits, null where `missing`."""
    known, gaps = None, 0
    if missing is not None and (gaps := int(np.count_nonzero(missing))):
        known = _bits(~missing)
    body = pa.py_buffer(np.ascontiguousarray(values))
    return pa.Array.from_buffers(_KINDS[values.dtype.name], values.size, [known, body], gaps)


def column_of(values: Sequence[str] | Sequence[bool] | Sequence[int] | Sequence[float | None]) -> pa.Array:
    """Words, truths, integers or floats, the kind told by the first of at least one; None among
    floats, which are finite, is null."""
    first = values[0]
    if isinstance(first, str):
        return _word_column(cast("Sequence[str]", values))
    if isinstance(first, bool):
        truths = np.fromiter(values, np.bool_, len(values))
        return pa.Array.from_buffers(pa.bool_(), truths.size, [None, _bits(truths)])
    if isinstance(first, int):
        return number_column(np.fromiter(values, np.int64, len(values)))
    floats = np.array(values, np.float64)
    return number_column(floats, np.isnan(floats) if None in values else None)


def _word_column(words: Sequence[str]) -> pa.Array:
    whole = "".join(words)
    sizes = map(len, words) if whole.isascii() else (len(word.encode()) for word in words)
    ends = np.zeros(len(words) + 1, np.int32)
    np.cumsum(np.fromiter(sizes, np.int32, len(words)), out=ends[1:])
    return pa.Array.from_buffers(pa.string(), len(words), [None, pa.py_buffer(ends), pa.py_buffer(whole.encode())])


def _bits(truths: NDArray[np.bool_]) -> pa.Buffer:
    return pa.py_buffer(np.packbits(truths, bitorder="little"))
