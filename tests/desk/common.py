"""Schemes for tests of the desk."""

from __future__ import annotations

import shutil
from importlib.resources import files
from pathlib import Path


def example(folder: Path, name: str = "river_unit") -> Path:
    """A fresh copy of an example; returns its scheme file."""
    shutil.copytree(str(files("racewright") / "examples" / name), folder / name)
    return folder / name / "scheme.toml"
