"""The bundled scheme with changed keys, computed."""

from __future__ import annotations

import shutil
from functools import lru_cache
from importlib import resources
from pathlib import Path
from tempfile import mkdtemp

from racewright.ledger.chain import compute
from racewright.ledger.findings import Findings
from racewright.scheme import LoadedScheme, load_scheme

EXAMPLE = Path(str(resources.files("racewright") / "examples" / "river_unit"))


def load_changed(folder: Path, *changes: tuple[str, str]) -> LoadedScheme:
    """Load the example after replacing each old text, which must be there, by the new one."""
    shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True)
    path = folder / "scheme.toml"
    text = path.read_text("utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    path.write_text(text, "utf-8")
    return load_scheme(path)


@lru_cache(maxsize=16)
def findings_with(*changes: tuple[str, str]) -> Findings:
    """Findings of the changed example, computed once."""
    folder = Path(mkdtemp(prefix="racewright-test-"))
    try:
        return compute(load_changed(folder, *changes))
    finally:
        shutil.rmtree(folder)
