"""`racewright new`: copy the bundled example."""

from __future__ import annotations

import json
import shlex
import sys
from importlib import resources
from pathlib import Path

from racewright import __version__
from racewright.errors import InputError
from racewright.scheme.json_schema import scheme_schema
from racewright.scheme.model import Scheme

EXAMPLES = ("river_unit", "model_test", "tidal_unit")
"""Bundled examples, the first one copied when none is named."""
_LOGGED = "model_test"
"""The example whose logger files are written when it is copied."""


def copy_example(folder: Path, *, name: str = EXAMPLES[0], force: bool, as_json: bool) -> None:
    """Copy an example's files and say so. Refuses to overwrite without `force`."""
    if name not in EXAMPLES:
        raise InputError(f"no example {name!r}; there are {' and '.join(EXAMPLES)}")
    source = resources.files("racewright") / "examples" / name
    files = {item.name: item.read_bytes() for item in source.iterdir() if item.name.endswith((".toml", ".csv"))}
    files["scheme.schema.json"] = json.dumps(scheme_schema(Scheme), indent=1, ensure_ascii=False).encode() + b"\n"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        present = sorted(file for file in files if (folder / file).exists())
        if present and not force:
            raise InputError(f"already holds {', '.join(present)}; say --force to overwrite", file=str(folder))
        for file in sorted(files):
            (folder / file).write_bytes(files[file])
        if name == _LOGGED:
            from racewright.records.campaign.invented import invented_files

            files |= {made.name: b"" for made in invented_files(folder)}
    except OSError as fault:
        message = f"cannot be written ({(fault.strerror or str(fault)).lower()}); name a writable folder"
        raise InputError(message, file=str(folder)) from None
    if as_json:
        answer = {
            "scheme": str(folder / "scheme.toml"),
            "files": sorted(files),
            "units": {},
            "provenance": {"version": __version__, "command": "new"},
        }
        sys.stdout.write(json.dumps(answer, indent=1) + "\n")
    scheme = folder / "scheme.toml"
    sys.stderr.write(f"Example scheme: {scheme} (invented). Next: racewright report {shlex.quote(str(scheme))}\n")
