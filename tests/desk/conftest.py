"""Fixtures: a page to build on, a pool of workers; one desk and one browser a file, and an example computed once."""

from __future__ import annotations

import asyncio
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
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import load_scheme

if TYPE_CHECKING:
    from nicegui import Client

    from racewright.desk.work.pool import Pool
    from tests.desk.browser import Seen


@pytest.fixture
def place() -> Iterator[Client]:
    """Somewhere to build."""
    from nicegui import Client
    from nicegui.page import page

    client = Client(page("/"), request=None)
    with client:
        yield client


@pytest.fixture(scope="module")
def pool() -> Iterator[Pool]:
    """One worker, awake."""
    from racewright.desk.work.pool import Pool
    from tests.desk import jobs

    made = Pool(1)
    asyncio.run(made.result(made.begin(jobs.count, 1, 0.0)))
    yield made
    made.stop()


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the bundled example; its scheme file."""
    from tests.ledger.common import FULL_EXAMPLE

    return Path(shutil.copytree(FULL_EXAMPLE, tmp_path_factory.mktemp("whole") / "river_unit")) / "scheme.toml"


@pytest.fixture(scope="module")
def reported(whole: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What `report --json` prints of it. Who comes first computes, the others wait and read."""
    from tests.desk.browser import shared_folder

    folder = shared_folder(tmp_path_factory)
    loaded = load_scheme(whole)
    with (folder / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        found = compute(loaded, None, store=Store(cache_folder(), CLASSES))
    told: dict[str, Any] = json.loads(to_json(summary(found), {}, currency_of(loaded, None)))
    return told


@pytest.fixture(scope="module")
def seen(whole: Path, reported: dict[str, Any]) -> Iterator[Seen]:
    """The desk of the example in a browser."""
    from tests.desk.browser import desk_in_browser

    with desk_in_browser(whole, cache_folder()) as found:
        yield found
