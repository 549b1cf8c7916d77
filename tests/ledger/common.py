"""The bundled scheme with changed keys, computed."""

from __future__ import annotations

import shutil
from functools import lru_cache
from importlib import resources
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import LoadedScheme, load_scheme

FULL_EXAMPLE = Path(str(resources.files("racewright") / "examples" / "river_unit"))
"""The bundled example as it is: its neighbours, holding and growth take most of a report's time."""
_LEAN = TemporaryDirectory(prefix="racewright-example-")
_LEFT_OUT = ('neighbours = "otter_bend"\n', 'holding = "four_lines"\n', 'growth = "to_the_strait"\n')


def _lean() -> Path:
    """The example whose case joins no neighbours, holding or growth; the tables stay."""
    folder = Path(_LEAN.name) / "river_unit"
    shutil.copytree(FULL_EXAMPLE, folder)
    path = folder / "scheme.toml"
    text = path.read_text("utf-8")
    for line in _LEFT_OUT:
        assert line in text, line
        text = text.replace(line, "", 1)
    path.write_text(text, "utf-8")
    return folder


EXAMPLE = _lean()
"""The example that tests change and compute where they do not ask for neighbours, holding or growth."""


def load_changed(folder: Path, *changes: tuple[str, str], example: Path = EXAMPLE) -> LoadedScheme:
    """Load the example after replacing each old text, which must be there, by the new one."""
    shutil.copytree(example, folder, dirs_exist_ok=True)
    path = folder / "scheme.toml"
    text = path.read_text("utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    path.write_text(text, "utf-8")
    return load_scheme(path)


@lru_cache(maxsize=16)
def findings_with(*changes: tuple[str, str], example: Path = EXAMPLE) -> Findings:
    """Findings of the changed example; nodes that no change touches are computed once in a run of the suite."""
    folder = Path(mkdtemp(prefix="racewright-test-"))
    try:
        return compute(load_changed(folder, *changes, example=example), store=Store(cache_folder(), CLASSES))
    finally:
        shutil.rmtree(folder)
