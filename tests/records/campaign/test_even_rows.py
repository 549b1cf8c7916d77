"""Rows to even readings: slower channels, gaps, jitter, a drifting clock, a wrong rate."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.records.campaign.even_rows import EvenRows
from racewright.records.campaign.form import Chunk as Rows

NAMES = ("fast", "slow")
STEPS = {"fast": 1, "slow": 4}


def rows(time, missing_slow=True, phase=0):
    """Value of each row is its number; the slow channel is blank but every fourth row from `phase`."""
    time = np.asarray(time, float)
    number = np.arange(time.size, dtype=float)
    blank = np.zeros((time.size, 2), bool)
    blank[:, 1] = missing_slow & ((np.arange(time.size) - phase) % 4 != 0)
    return Rows(time, np.stack([number, number], axis=1), blank)


def even(*parts, rate=20.0):
    return list(EvenRows(NAMES, STEPS, rate, "log.csv").chunks(iter(parts)))


def joined(chunks, name):
    return np.concatenate([c.values[name] for c in chunks]), np.concatenate([c.missing[name] for c in chunks])


@pytest.mark.parametrize("phase", [0, 1, 3])
def test_a_slower_channel_is_taken_from_its_first_value_on(phase):
    found = even(rows(np.arange(400) / 20.0, phase=phase))
    values, missing = joined(found, "slow")
    assert not missing.any()
    np.testing.assert_array_equal(values, np.arange(phase, 400, 4))
    assert joined(found, "fast")[0].size == 400


@pytest.mark.parametrize("cut", [1, 7, 100, 399])
def test_the_answer_does_not_depend_on_how_the_rows_come(cut):
    time = np.arange(400) / 20.0
    whole = rows(time)
    parts = [Rows(whole.time[a:b], whole.values[a:b], whole.missing[a:b]) for a, b in ((0, cut), (cut, 400))]
    for name in NAMES:
        np.testing.assert_array_equal(joined(even(*parts), name)[0], joined(even(whole), name)[0])


def test_a_gap_begins_a_new_chunk_at_its_time():
    """Five seconds are lost after row 101; the next chunk begins at a whole period before its first row."""
    time = np.arange(400) / 20.0
    time[101:] += 5.0
    found = even(rows(time, missing_slow=False))
    assert [c.start for c in found] == [0.0, pytest.approx((101 + 100 - 1) / 20.0)]
    first, second = found
    assert first.values["fast"].size == 104
    assert first.missing["fast"].tolist()[-3:] == [True] * 3
    assert second.missing["fast"][:1].tolist() == [True]
    assert second.values["fast"][1] == 101.0


def test_jitter_below_a_row_is_no_gap():
    rng = np.random.default_rng(1)
    time = np.arange(4000) / 20.0 + rng.uniform(-0.02, 0.02, 4000)
    assert len(even(rows(np.sort(time), missing_slow=False))) == 1


def test_rows_that_come_too_fast_are_refused():
    with pytest.raises(InputError, match="faster than the stated rate of 20 Hz"):
        even(rows(np.arange(400) / 21.0))


def test_a_slightly_slow_clock_makes_short_gaps_not_a_shift():
    """At 19.9 Hz a row is lost every 200; the 2000th reading stands within two rows of its time."""
    found = even(rows(np.arange(2000) / 19.9, missing_slow=False))
    assert len(found) > 1
    last = found[-1]
    assert last.start + last.values["fast"].size / 20.0 == pytest.approx(2000 / 19.9, abs=4 / 20.0)
