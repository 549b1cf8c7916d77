"""Cells from the store come many blocks at a time, those of a log block by block: the same readings and refusals."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.trials import Settings, Span
from racewright.trials.cells import Cells
from racewright.trials.reduce import reduce_cells, sieve_of
from racewright.trials.regroup import blocks
from tests.trials.record import RIG, channels, cut, still, values


@pytest.mark.parametrize("together", [2, 7, 100])
def test_lots_of_blocks_give_what_single_blocks_give(together):
    raw = values(460, scatter=0.03)
    raw["torque"][777] = 80.0
    still(raw, 0.0, 20.0)
    still(raw, 430.0, 460.0)
    raw["rotor_speed"][8000:9000] *= np.linspace(1.0, 1.3, 1000)
    settings = Settings(window=30.0, hop=0.1)
    own = channels(torque={"tared": True})
    sieve = sieve_of(own, RIG, settings)
    single = list(sieve.cells(blocks(cut(raw, [0, 460]), sieve.channels, settings.cell, settings.block_cells)))
    lots = [Cells.joined(single[k : k + together]) for k in range(0, len(single), together)]
    tares = [Span(0.0, 20.0), Span(430.0, 460.0)]
    one, other = (
        reduce_cells(some, sieve.flag_counts, own, RIG, tares=tares, settings=settings) for some in (single, lots)
    )
    assert len(one.readings) > 5
    assert {"tare"} <= {reason for r in one.refusals for reason in r.reasons}
    assert repr(other) == repr(one)
