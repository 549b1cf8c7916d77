"""Flags: each reason on its own, against a plain statement of the same rule."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.trials import cell_sums
from racewright.trials.flags import BLANK, GOOD, HALF, OUT_OF_RANGE, SPIKE, STUCK, flag


def run(x, code=None, low=-1e9, high=1e9, stuck=0, factor=8.0, floor=0.0):
    code = np.zeros(x.size, np.uint8) if code is None else code
    threshold = flag(x, code, low, high, stuck, factor, floor)
    return code, threshold


def noise(n=1000, seed=1):
    return np.random.default_rng(seed).standard_normal(n)


def test_clean_noise_carries_no_flag():
    code, threshold = run(noise(20000), stuck=5, low=-6.0, high=6.0)
    assert not code.any()
    assert ((threshold > 6.0) & (threshold < 14.0)).all()


@pytest.mark.parametrize("width", [1, 2, HALF])
def test_spikes_up_to_four_readings_wide_are_flagged_and_nothing_beside(width):
    x = noise()
    x[500 : 500 + width] += 40.0
    x[0] -= 40.0
    x[-1] += 40.0
    code, _ = run(x)
    assert np.flatnonzero(code).tolist() == [0, *range(500, 500 + width), 999]
    assert set(code[code > 0]) == {SPIKE}


def test_a_step_is_no_spike():
    x = noise()
    x[500:] += 60.0
    assert not run(x)[0].any()


def test_a_ramp_is_no_spike_even_at_the_ends():
    x = np.concatenate((np.zeros(300), np.arange(700.0)))
    assert not run(x, floor=1.5)[0].any()
    x = x[::-1].copy()
    assert not run(x, floor=1.5)[0].any()


def test_a_quiet_stretch_does_not_judge_a_loud_one():
    x = noise(2000) * np.where(np.arange(2000) < 1300, 0.01, 1.0)
    assert not run(x)[0].any()


def test_the_crests_of_a_ripple_are_no_spikes():
    time = np.arange(20000) / 1000.0
    x = np.sin(2 * np.pi * 30.0 * time) + 0.5 * np.sin(2 * np.pi * 67.0 * time) + 0.02 * noise(20000)
    assert not run(x)[0].any()


def test_the_early_way_out_gives_the_plain_rule():
    """Heavy-tailed noise with blanks: the same flags as median by median."""
    rng = np.random.default_rng(4)
    x = rng.standard_t(1.5, 3000)
    code = np.where(rng.random(3000) < 0.1, BLANK, GOOD).astype(np.uint8)
    before = code.copy()
    code, threshold = run(x, code)
    for i in range(HALF, x.size - HALF):
        if before[i] == GOOD:
            near = slice(i - HALF, i + HALF + 1)
            median = np.median(x[near][before[near] == GOOD])
            assert (code[i] == SPIKE) == (abs(x[i] - median) > threshold[i * 8 // 3000])
        else:
            assert code[i] == BLANK
    assert (code == SPIKE).sum() > 10


def test_a_stuck_value_wants_the_stated_count():
    x = noise()
    x[100:107] = x[100]
    x[200:208] = x[200]
    x[995:1000] = x[995]
    code, _ = run(x, stuck=8)
    assert np.flatnonzero(code).tolist() == list(range(200, 208))
    assert code[200] == STUCK
    assert np.flatnonzero(run(x, stuck=5)[0]).tolist() == [*range(100, 107), *range(200, 208), *range(995, 1000)]


def test_the_shortened_search_for_stuck_values_gives_the_plain_rule():
    rng = np.random.default_rng(6)
    for count in (2, 3, 5, 8):
        x = np.repeat(rng.integers(0, 4, 300), rng.integers(1, 2 * count, 300)).astype(float)
        code, _ = run(x, stuck=count, factor=0.0)
        edges = np.flatnonzero(np.diff(x)) + 1
        runs = np.split(np.arange(x.size), edges)
        wanted = np.concatenate([r for r in runs if r.size >= count])
        assert np.flatnonzero(code).tolist() == wanted.tolist()


def test_full_scale_is_out_of_range():
    x = noise()
    x[10:30] = 12.5
    code, _ = run(x, high=12.5, stuck=5)
    assert (code[10:30] == OUT_OF_RANGE).all()
    assert not code[30:].any()


def test_the_floor_decides_where_there_is_no_scale():
    x = np.full(15, 3.0)
    x[7] = 5.0
    assert run(x, floor=1.0)[0].tolist() == [0] * 7 + [SPIKE] + [0] * 7
    assert not run(x)[0].any()
    assert not run(x, floor=1.0, factor=0.0)[0].any()


def test_both_kernels_mean_the_same_codes():
    assert (cell_sums._GOOD, cell_sums._SPIKE) == (GOOD, SPIKE)
