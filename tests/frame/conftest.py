"""Counts of the suite and of the full run, and a cache of its own for every test here."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def frame_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One cache folder for the session, so that the flow of the example is computed once."""
    return tmp_path_factory.mktemp("frame_cache")


@pytest.fixture(autouse=True)
def _own_cache(frame_cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RACEWRIGHT_CACHE", str(frame_cache))
