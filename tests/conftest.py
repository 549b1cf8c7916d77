"""Suite-wide set-up."""

from __future__ import annotations

import racewright.threads  # noqa: F401  (first: a sum by two threads has other last digits)  # isort: skip

import os
from tempfile import TemporaryDirectory

import pytest

if "PYTEST_XDIST_WORKER" not in os.environ:  # the workers of one run share its cache
    _CACHE = TemporaryDirectory(prefix="racewright-cache-")
    os.environ["RACEWRIGHT_CACHE"] = _CACHE.name

STATUSES = {"published", "closed form", "computed", "common practice", "from memory"}


@pytest.fixture
def drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawings of equal content are drawn once: see `tests/drawn_once.py` for which tests may ask for it."""
    from tests.drawn_once import remember_drawings

    remember_drawings(monkeypatch)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse a check against the outside that does not name source, status and tolerance."""
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
