"""Fixtures of the tests in a real browser: one desk and one browser a file, and an example computed once."""

from __future__ import annotations

import fcntl
import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from racewright.cli.encode import to_json
from racewright.cli.summary import summary
from racewright.desk.answer import currency_of
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.store import Store
from racewright.scheme import load_scheme

if TYPE_CHECKING:
    from tests.desk.browser import Seen


@pytest.fixture(scope="module")
def lean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the example without what takes longest; its scheme file."""
    from tests.ledger.common import EXAMPLE

    return Path(shutil.copytree(EXAMPLE, tmp_path_factory.mktemp("lean") / "river_unit")) / "scheme.toml"


@pytest.fixture(scope="module")
def reported(lean: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What `report --json` prints of it. Who comes first computes, the others wait and read."""
    from tests.desk.browser import shared_folder

    folder = shared_folder(tmp_path_factory)
    loaded = load_scheme(lean)
    with (folder / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        found = compute(loaded, None, store=Store(folder / "cache", CLASSES))
    told: dict[str, Any] = json.loads(to_json(summary(found), {}, currency_of(loaded, None)))
    return told


@pytest.fixture(scope="module")
def seen(lean: Path, reported: dict[str, Any], tmp_path_factory: pytest.TempPathFactory) -> Iterator[Seen]:
    """The desk of the lean example in a browser."""
    from tests.desk.browser import desk_in_browser, shared_folder

    with desk_in_browser(lean, shared_folder(tmp_path_factory) / "cache") as found:
        yield found
