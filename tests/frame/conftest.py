"""The cache that the tests here share with the suite."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.ledger.store import cache_folder


@pytest.fixture(scope="session")
def frame_cache() -> Path:
    """The suite's cache, so that the flow of the example is computed once; a test of a cold one makes its own."""
    return cache_folder()
