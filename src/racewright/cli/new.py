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

EXAMPLE = "river_unit"


def copy_example(folder: Path, *, force: bool, as_json: bool) -> None:
    """Copy the example's files and say so. Refuses to overwrite without `force`."""
    source = resources.files("racewright") / "examples" / EXAMPLE
    files = {item.name: item.read_bytes() for item in source.iterdir() if item.name.endswith((".toml", ".csv"))}
    files["scheme.schema.json"] = json.dumps(scheme_schema(Scheme), indent=1, ensure_ascii=False).encode() + b"\n"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        present = sorted(name for name in files if (folder / name).exists())
        if present and not force:
            raise InputError(f"already holds {', '.join(present)}; say --force to overwrite", file=str(folder))
        for name in sorted(files):
            (folder / name).write_bytes(files[name])
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
