"""Blocks out of chunks: order, gaps, rates, what is refused."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.trials import Channel, Chunk, exact
from racewright.trials.flags import BLANK, GAP, GOOD
from racewright.trials.regroup import blocks

FAST = Channel("fast", "torque", 100.0, exact(0.0, 1.0))
SLOW = Channel("slow", "temperature", 1.0, exact(0.0, 1.0))


def cut(edges, total=30.0):
    """A record of 30 s, each reading its own number, cut at whole seconds."""
    for a, b in pairwise(edges):
        yield Chunk(float(a), {"fast": np.arange(a * 100.0, b * 100.0), "slow": np.arange(float(a), float(b))})


@pytest.mark.parametrize(
    ("edges", "first", "count"),
    [
        ([0, 30], [0], [3]),
        ([0, 1, 2, 9, 11, 25, 30], [0, 20, 40], [1, 1, 1]),
        ([0, 5, 30], [0, 20], [1, 2]),
        (list(range(31)), [0, 20, 40], [1, 1, 1]),
    ],
)
def test_any_cut_gives_the_same_blocks(edges, first, count):
    """Those that lie in one chunk come together, one over the edge of two comes alone."""
    found = list(blocks(cut(edges), [FAST, SLOW], 0.5, 20))
    assert [b.first_cell for b in found] == first
    assert [b.count for b in found] == count
    assert [b.cells for b in found] == [20 * n for n in count]
    assert np.concatenate([b.raw[0] for b in found]).tolist() == list(range(3000))
    assert np.concatenate([b.raw[1] for b in found]).tolist() == list(range(30))
    assert not any(c.any() for b in found for c in b.codes)


def test_a_gap_is_filled_with_flagged_places():
    record = [*cut([0, 5]), *cut([12, 30])]
    found = list(blocks(iter(record), [FAST, SLOW], 0.5, 20))
    fast = np.concatenate([b.codes[0] for b in found])
    assert (fast[500:1200] == GAP).all()
    assert (fast == GAP).sum() == 700
    assert np.concatenate([b.codes[1] for b in found]).tolist() == [GOOD] * 5 + [GAP] * 7 + [GOOD] * 18
    assert np.concatenate([b.raw[0] for b in found])[1200] == 1200.0


def test_a_long_gap_does_not_sit_in_memory():
    record = [*cut([0, 10]), Chunk(100000.0, {"fast": np.ones(1000), "slow": np.ones(10)})]
    count = 0
    for block in blocks(iter(record), [FAST, SLOW], 0.5, 20):
        assert block.raw[0].size == 1000
        count += 1
    assert count == 10001


def test_blocks_that_come_together_are_bounded():
    record = Chunk(0.0, {"fast": np.arange(200000.0), "slow": np.arange(2000.0)})
    found = list(blocks([record], [FAST, SLOW], 0.5, 20))
    assert [b.cells for b in found] == [2040, 1960]
    assert np.concatenate([b.raw[0] for b in found]).tolist() == list(range(200000))


def test_the_last_block_is_short_and_drops_an_unfinished_cell():
    chunk = Chunk(0.0, {"fast": np.zeros(1330), "slow": np.zeros(14)})
    found = list(blocks([chunk], [FAST, SLOW], 0.5, 20))
    assert [(b.first_cell, b.cells, b.raw[0].size) for b in found] == [(0, 20, 1000), (20, 6, 300)]


def test_blanks_are_marked_and_their_value_is_not_looked_at():
    values = np.zeros(1000)
    values[7] = np.nan
    missing = np.isnan(values)
    chunk = Chunk(0.0, {"fast": values, "slow": np.zeros(10)}, {"fast": missing})
    (found,) = blocks([chunk], [FAST, SLOW], 0.5, 20)
    assert np.flatnonzero(found.codes[0] == BLANK).tolist() == [7]
    assert np.isfinite(found.raw[0]).all()


@pytest.mark.parametrize(
    ("chunks", "words"),
    [
        ([Chunk(0.0, {"fast": np.zeros(100)})], "no channel 'slow'"),
        ([Chunk(0.0, {"fast": np.full(100, np.inf), "slow": np.zeros(1)})], "not a finite number"),
        ([Chunk(0.0, {"fast": np.zeros((10, 10)), "slow": np.zeros(1)})], "row of readings"),
        ([*cut([0, 5]), *cut([4, 8])], "starts before"),
        ([Chunk(0.0, {"fast": np.zeros(9), "slow": np.zeros(1)}, {"fast": np.zeros(8, bool)})], "marks of missing"),
    ],
)
def test_chunks_that_do_not_fit_are_refused(chunks, words):
    with pytest.raises(InputError, match=words):
        list(blocks(chunks, [FAST, SLOW], 0.5, 20))


def test_a_rate_without_whole_readings_in_a_block_is_refused():
    odd = Channel("fast", "torque", 33.33, exact(0.0, 1.0))
    with pytest.raises(InputError, match="whole number"):
        list(blocks(cut([0, 30]), [odd, SLOW], 0.5, 20))
