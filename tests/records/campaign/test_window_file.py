"""Kept windows come back to the last bit, also none of them."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.records.campaign.window_file import keep_found, kept_found
from racewright.trials import Settings, Span
from racewright.trials.reduce import reduce_found, shares, sieve_of
from racewright.trials.regroup import blocks
from racewright.trials.search import search
from tests.trials.record import RIG, channels, cut, still, values

OWN = channels(torque={"tared": True})


def found_in(seconds, settings, tares):
    """What is found in a record with a tare, a spike and a stretch that speeds up."""
    raw = values(seconds, scatter=0.03)
    still(raw, 0.0, min(20.0, seconds))
    if seconds > 100:
        raw["torque"][777] = 80.0
        raw["rotor_speed"][8000:9000] *= np.linspace(1.0, 1.3, 1000)
    sieve = sieve_of(OWN, RIG, settings)
    cells = sieve.cells(blocks(cut(raw, [0, seconds]), OWN, settings.cell, settings.block_cells))
    return search(cells, OWN, shares(OWN, None), RIG, tares, settings), sieve


@pytest.mark.parametrize("seconds", [460, 25, 0])
def test_kept_windows_give_the_same_reduction(tmp_path, seconds):
    settings, tares = Settings(window=30.0), (Span(0.0, 20.0),)
    found, sieve = found_in(seconds, settings, tares)
    assert len(found.windows) == {460: 13, 25: 0, 0: 0}[seconds]
    keep_found(tmp_path / "a.npz", found, len(OWN))
    assert [p.name for p in tmp_path.iterdir()] == ["a.npz"]
    again = kept_found(tmp_path / "a.npz")
    flags = sieve.flag_counts()
    one, other = (
        reduce_found(some, flags, OWN, RIG, tares=tares, share=shares(OWN, None), settings=settings)
        for some in (found, again)
    )
    with np.printoptions(threshold=10**9, floatmode="unique"):
        assert repr(other) == repr(one)


def test_a_file_that_cannot_be_written_leaves_nothing(tmp_path, monkeypatch):
    found, _sieve = found_in(25, Settings(window=30.0), ())

    def full(_handle):
        raise OSError(28, "no space left")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="no space"):
        keep_found(tmp_path / "a.npz", found, len(OWN))
    assert not list(tmp_path.iterdir())
