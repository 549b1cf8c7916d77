"""Cells from the store come many blocks at a time, those of a log block by block: the same readings and refusals."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from racewright.trials import Chunk, Settings, Span
from racewright.trials.cells import Cells
from racewright.trials.flags import STUCK
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
    edges = list(range(0, 461, 5))
    single = list(sieve.cells(blocks(cut(raw, edges), sieve.channels, settings.cell, settings.block_cells)))
    assert [cells.size for cells in single] == [20] * 46
    lots = [Cells.joined(single[k : k + together]) for k in range(0, len(single), together)]
    tares = [Span(0.0, 20.0), Span(430.0, 460.0)]
    one, other = (
        reduce_cells(some, sieve.flag_counts, own, RIG, tares=tares, settings=settings) for some in (single, lots)
    )
    assert len(one.readings) > 5
    assert {"tare"} <= {reason for r in one.refusals for reason in r.reasons}
    assert repr(other) == repr(one)


@pytest.mark.parametrize("rate", [100.0, 25.0])
def test_blocks_that_come_together_give_the_cells_and_flags_of_single_ones(rate):
    """A stuck value that lies over a block's edge is two runs of flags; the rotor speed may come more seldom."""
    raw = values(120, scatter=0.03)
    raw["torque"][777] = 80.0
    raw["torque"][1900:2200] = 5.0
    raw["torque"][2999:3001] = 90.0
    turning = 15.0 + 0.01 * np.random.default_rng(3).standard_normal(round(120 * rate))
    turning[round(15 * rate) : round(17 * rate)] = 7.0
    raw["rotor_speed"] = turning
    own = channels(torque={"stuck_count": 20}, rotor_speed={"stuck_count": 20, "rate": rate})
    found = []
    for edges in (range(0, 121, 10), (0, 120), (0, 35, 120)):
        runs = []
        sieve = sieve_of(own, RIG, Settings(), lambda *one, runs=runs: runs.append(one))
        rates = {c.name: c.rate for c in own}
        chunks = [
            Chunk(float(a), {k: v[round(a * rates[k]) : round(b * rates[k])] for k, v in raw.items()})
            for a, b in pairwise(edges)
        ]
        cells = Cells.joined(list(sieve.cells(blocks(chunks, own, 0.5, 20))))
        flags = sorted(
            (name, int(a), int(b), int(why)) for name, *run in runs for a, b, why in zip(*run, strict=True)
        )
        found.append((cells.sums.tolist(), cells.product.tolist(), cells.orders.tolist(), flags, sieve.flag_counts()))
    assert [(a, b) for name, a, b, why in found[0][3] if name == "torque" and why == STUCK] == [
        (1900, 1999), (2000, 2199),
    ]  # fmt: skip
    assert found[1] == found[0]
    assert found[2] == found[0]
