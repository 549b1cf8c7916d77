"""Read a scheme from a text that is not (yet) the file's."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path

from racewright.errors import InputError
from racewright.scheme import LoadedScheme, load_scheme


def load_text(data: bytes, path: Path) -> LoadedScheme:
    """What `load_scheme` would give if the file at `path` held `data`; its data files lie beside `path`.

    Raises
    ------
    InputError
        As `load_scheme`, with `path` as the file.
    """
    with tempfile.TemporaryDirectory(prefix="racewright-") as folder:
        copy = Path(folder) / "scheme.toml"
        copy.write_bytes(data)
        try:
            loaded = load_scheme(copy)
        except InputError as fault:
            raise InputError(fault.message, file=str(path), line=fault.line, key=fault.key) from None
    return replace(loaded, file=str(path), folder=path.parent)
