"""A table of numbers as CSV: a comment row of units, then the header, then the rows; whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Column = tuple[str, str, NDArray[np.float64]]
"""Name, unit and values, shape (n,)."""


def write_table(path: Path, columns: Sequence[Column]) -> None:
    """Write columns of one length; what is not finite becomes a blank cell.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    lines = [
        "# units: " + ", ".join(unit for _name, unit, _values in columns),
        ",".join(name for name, *_ in columns),
    ]
    for row in zip(*(values.tolist() for _name, _unit, values in columns), strict=True):
        lines.append(",".join(repr(float(v)) if np.isfinite(v) else "" for v in row))
    part = path.with_name(path.name + ".part")
    try:
        with part.open("w", encoding="utf-8", newline="\n") as stream:
            stream.write("\n".join(lines) + "\n")
            stream.flush()
            os.fsync(stream.fileno())
        part.replace(path)
    except OSError as fault:
        part.unlink(missing_ok=True)
        message = f"cannot be written ({(fault.strerror or str(fault)).lower()}); name a file in a writable folder"
        raise InputError(message, file=str(path)) from None
