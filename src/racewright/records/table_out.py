"""A table of numbers as CSV: a comment row of units, then the header, then the rows; whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.records.whole_file import write_whole

Column = tuple[str, str, NDArray[np.float64]]
"""Name, unit and values, shape (n,)."""

MARK = "# units: "
"""How every table of ours begins; a file that begins otherwise is never replaced."""


def check_target(path: Path) -> None:
    """Refuse a place that cannot be written, and a file that is not such a table, before anything is computed.

    Raises
    ------
    InputError
    """
    shown = str(path)
    try:
        if path.is_dir():
            raise InputError("is a folder; name a file, like table.csv", file=shown)
        if not path.parent.is_dir() or not os.access(path.parent, os.W_OK):
            raise InputError("cannot be written; name a file in a writable folder", file=shown)
        if path.exists():
            with path.open("rb") as stream:
                if stream.read(len(MARK)) != MARK.encode():
                    raise InputError("is there already and is no table written here; name a new file", file=shown)
    except OSError as fault:
        raise InputError(f"cannot be written ({(fault.strerror or str(fault)).lower()})", file=shown) from None


def write_table(path: Path, columns: Sequence[Column]) -> None:
    """Write columns of one length; what is not finite becomes a blank cell.

    Raises
    ------
    InputError
        As `check_target`, or the file cannot be written.
    """
    check_target(path)
    write_whole(path, table_bytes(columns))


def table_bytes(columns: Sequence[Column]) -> bytes:
    """Such a table as the content of a file; what is not finite becomes a blank cell."""
    lines = [MARK + ", ".join(unit for _name, unit, _values in columns), ",".join(name for name, *_ in columns)]
    for row in zip(*(values.tolist() for _name, _unit, values in columns), strict=True):
        lines.append(",".join(repr(float(v)) if np.isfinite(v) else "" for v in row))
    return ("\n".join(lines) + "\n").encode()
