"""Node values to bytes and back: a checksum, then a JSON tree beside plain arrays, never pickle."""

from __future__ import annotations

import dataclasses
import hashlib
import io
import json
import zipfile
from typing import Any

import numpy as np

from racewright.ledger.store import Classes

FORMAT = 2
MAGIC = "racewright ledger value"
_HEADER = "header"
_KINDS = ("f", "i", "b")
_CHECKSUM = hashlib.sha256().digest_size


class Foreign(Exception):
    """The bytes are not a value of this program, format and key."""


def encode(value: Any, key: str) -> bytes:
    """Bytes of a value made of dataclasses, tuples, numbers, text, None and float, int or bool arrays.

    Parameters
    ----------
    value : Any
    key : str
        The node key, kept in the header and asked for again on reading.
    """
    arrays: dict[str, np.ndarray[Any, Any]] = {}
    tree = _take_apart(value, arrays)
    header = json.dumps({"magic": MAGIC, "format": FORMAT, "key": key, "tree": tree}, allow_nan=True)
    arrays[_HEADER] = np.frombuffer(header.encode(), dtype=np.uint8)
    stream = io.BytesIO()
    np.savez(stream, allow_pickle=False, **arrays)
    return sealed(stream.getvalue())


def sealed(content: bytes) -> bytes:
    """The content behind its SHA-256, so that damage is told before anything reads it."""
    return hashlib.sha256(content).digest() + content


def decode(data: bytes, key: str, classes: Classes) -> Any:
    """The value again.

    Raises
    ------
    Foreign
        When the bytes are truncated, damaged, of another program or format, or of another key.
    """
    content = data[_CHECKSUM:]
    if hashlib.sha256(content).digest() != data[:_CHECKSUM]:
        raise Foreign("truncated or damaged")
    try:
        with np.load(io.BytesIO(content), allow_pickle=False) as stored:
            arrays = {name: stored[name] for name in stored.files}
        header = json.loads(arrays.pop(_HEADER).tobytes())
        if (header["magic"], header["format"], header["key"]) != (MAGIC, FORMAT, key):
            raise Foreign("another program, format or key")
        return _put_together(header["tree"], arrays, classes)
    except Foreign:
        raise
    except (
        zipfile.BadZipFile,
        OSError,
        EOFError,
        ValueError,
        KeyError,
        TypeError,
        IndexError,
        AttributeError,
    ) as fault:
        raise Foreign(str(fault)) from None


def _take_apart(value: Any, arrays: dict[str, np.ndarray[Any, Any]]) -> Any:
    if value is None or isinstance(value, bool | int | float | str):
        return value.item() if isinstance(value, np.generic) else value
    if isinstance(value, np.ndarray):
        if value.dtype.kind not in _KINDS:
            raise TypeError(f"arrays of {value.dtype} are not kept")
        name = f"a{len(arrays)}"
        arrays[name] = value
        return {"array": name}
    if isinstance(value, tuple):
        return {"tuple": [_take_apart(item, arrays) for item in value]}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {f.name: _take_apart(getattr(value, f.name), arrays) for f in dataclasses.fields(value)}
        return {"class": type(value).__name__, "fields": fields}
    raise TypeError(f"values of {type(value).__name__} are not kept")


def _put_together(tree: Any, arrays: dict[str, np.ndarray[Any, Any]], classes: Classes) -> Any:
    if not isinstance(tree, dict):
        return tree
    if "array" in tree:
        return arrays[tree["array"]]
    if "tuple" in tree:
        return tuple(_put_together(item, arrays, classes) for item in tree["tuple"])
    kept = classes[tree["class"]]
    return kept(**{name: _put_together(item, arrays, classes) for name, item in tree["fields"].items()})
