"""Suite-wide set-up."""

from __future__ import annotations

import racewright.threads  # noqa: F401  (first: a sum by two threads has other last digits)  # isort: skip

import os
from tempfile import TemporaryDirectory

import pytest

if "PYTEST_XDIST_WORKER" not in os.environ:  # the workers of one run share its cache
    _CACHE = TemporaryDirectory(prefix="racewright-cache-")
    os.environ["RACEWRIGHT_CACHE"] = _CACHE.name

LONG = (
    "docs/test_examples.py",
    "frame/test_same_answers.py",
    "frame/test_hostile_input.py",
    "frame/test_kills.py",
    "frame/test_faults.py",
    "desk/test_browser.py",
    "desk/test_guided.py",
    "desk/test_machine_browser.py",
    "desk/test_holding_browser.py",
    "dossier/test_river_chapters.py",
    "dossier/test_build.py",
    "dossier/test_trials.py",
    "cli/test_commands.py",
    "ledger/test_river.py",
    "ledger/test_drive_nodes.py",
    "ledger/test_trials_store.py",
    "docs/test_build.py",
    "dossier/test_equal_bytes.py",
    "frame/test_shared_cache.py",
    "docs/test_schemas.py",
)
"""Files that take longest, begun first: processes that share the files of a run then end at about the same time."""

STATUSES = {"published", "closed form", "computed", "common practice", "from memory"}


@pytest.fixture
def drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawings of equal content are drawn once: see `tests/drawn_once.py` for which tests may ask for it."""
    from tests.drawn_once import remember_drawings

    remember_drawings(monkeypatch)


def pytest_configure(config: pytest.Config) -> None:
    """Keep the order below where files are shared out: theirs is by the number of tests, which says nothing here."""
    if hasattr(config.option, "loadscopereorder"):
        config.option.loadscopereorder = False


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Long files first. Refuse a check against the outside that does not name source, status and tolerance."""
    turn = {name: number for number, name in enumerate(LONG)}
    items.sort(key=lambda item: turn.get("/".join(item.path.parts[-2:]), len(LONG)))
    for item in items:
        if "external" not in item.path.parts:
            continue
        mark = item.get_closest_marker("outside")
        if mark is None:
            raise pytest.UsageError(f"{item.nodeid}: needs @pytest.mark.outside(source=, status=, tolerance=)")
        if set(mark.kwargs) != {"source", "status", "tolerance"} or mark.kwargs["status"] not in STATUSES:
            raise pytest.UsageError(
                f"{item.nodeid}: the outside mark wants source, status (one of {sorted(STATUSES)}), tolerance"
            )
