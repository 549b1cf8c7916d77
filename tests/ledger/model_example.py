"""The half-kilowatt example, copied once a test run with its invented logger files, shortened where speed matters."""

from __future__ import annotations

import functools
import shutil
import tempfile
from pathlib import Path
from typing import Any

from racewright.cli.new import copy_example
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.store import Store
from racewright.scheme import LoadedScheme, load_scheme


@functools.cache
def model_folder() -> Path:
    """A folder with the whole example; not to be written to."""
    folder = Path(tempfile.mkdtemp(prefix="racewright-model-"))
    copy_example(folder / "bench", name="model_test", force=False, as_json=False)
    return folder / "bench"


def copied(folder: Path) -> Path:
    """A copy to write to; its scheme file."""
    shutil.copytree(model_folder(), folder / "bench")
    return folder / "bench" / "scheme.toml"


@functools.cache
def model_values() -> dict[str, Any]:
    """Every node's value of the example's case."""
    loaded = load_scheme(model_folder() / "scheme.toml")
    name, case = case_of(loaded, None)
    return evaluate(loaded, name, case, store=Store(model_folder() / "cache", CLASSES))


def model_scheme() -> LoadedScheme:
    """The example's scheme."""
    return load_scheme(model_folder() / "scheme.toml")
