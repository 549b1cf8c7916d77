"""Fouling: found where it is, not where it is not, sized, and recovered after cleaning."""

from __future__ import annotations

import numpy as np
import pytest
from tools.proofs.trials_fouling import count

from racewright.errors import InputError
from racewright.trials import fouling, torque_exponent
from racewright.trials.synthetic_machine import invented_power


def run(loss=0.0, seed=1, minutes=60, onset=0.0, drift=0.0, cleaned=None, left=0.0, noise=0.01):
    """10 s means of an invented run; the probe sees the machine's flow with 0.5 % of noise of its own."""
    rng = np.random.default_rng(seed)
    time = 5.0 + 10.0 * np.arange(6 * minutes)
    end = cleaned or time[-1]
    flow = 1.0 + drift * (time / time[-1] - 0.5) + 0.004 * rng.standard_normal(time.size)
    fall = loss * np.clip((time - onset) / (end - onset), 0.0, 1.0)
    if cleaned:
        fall = np.where(time < cleaned, fall, left * loss)
    torque = 25.0 * flow**1.9 * (1.0 - fall) * (1.0 + noise * rng.standard_normal(time.size))
    probe = 2.0 * flow * (1.0 + 0.005 * rng.standard_normal(time.size))
    return time, probe, 18.0 * (1.0 + 1e-4 * rng.standard_normal(time.size)), torque


@pytest.mark.parametrize(("loss", "onset"), [(0.03, 0.0), (0.06, 1800.0)])
def test_a_loss_is_found_and_sized(loss, onset):
    found = fouling(*run(loss, onset=onset))
    assert found.found
    assert found.loss_low < loss < found.loss_high
    assert found.loss == pytest.approx(loss, abs=0.012)
    assert abs(found.onset - onset) <= 1000.0
    assert found.alarm_time > onset
    assert "1 %" in found.threshold
    assert found.recovered is None


def test_a_drift_of_the_flow_is_not_taken_for_fouling():
    """4 % slower flow takes 7.6 % of the torque: no alarm, in any of 20 seeds."""
    for seed in range(20):
        found = fouling(*run(drift=-0.04, seed=seed))
        assert not found.found
        assert found.loss_low < 0.0 < found.loss_high
        assert 0.06 < found.loss_high - found.loss_low < 0.25


def test_a_zero_that_may_wander_delays_the_alarm_and_widens_the_interval():
    rows = run(0.03)
    sure, doubtful = fouling(*rows), fouling(*rows, zero_wander=0.005)
    assert doubtful.loss_high - doubtful.loss_low > 1.4 * (sure.loss_high - sure.loss_low)
    assert doubtful.alarm_time is None or doubtful.alarm_time > sure.alarm_time
    tied = fouling(*rows, zero_wander=0.005, tare_after=True)
    assert tied.loss_high - tied.loss_low < doubtful.loss_high - doubtful.loss_low


def test_cleaning_gives_back_what_it_does():
    found = fouling(*run(0.05, minutes=75, cleaned=3600.0, left=0.2), cleaned=3600.0)
    assert found.recovered_low < 0.04 < found.recovered_high
    assert found.recovered == pytest.approx(0.04, abs=0.01)
    assert found.loss == pytest.approx(0.05, abs=0.01)


def test_whole_records_with_and_without_leaves(record_property):
    """Two seeds through flow, sensors, tares and reduction; the full count is in the proof."""
    found = count(2)
    assert (found.found, found.false_alarms) == (2, 0), found.text()
    assert found.mean_loss == pytest.approx(0.03, abs=0.008)
    assert found.mean_recovered == pytest.approx(0.03, abs=0.01)


@pytest.mark.parametrize(
    ("change", "keywords", "words"),
    [
        (lambda r: (r[0][:20], r[1][:20], r[2][:20], r[3][:20]), {}, "at least 24 rows"),
        (lambda r: (r[0], r[1], r[2], r[3][:-1]), {}, "equal length"),
        (lambda r: (r[0], r[1], r[2], -r[3]), {}, "above 0"),
        (lambda r: (r[0], r[1] * np.nan, r[2], r[3]), {}, "not finite"),
        (lambda r: (r[0][::-1], *r[1:]), {}, "rise"),
        (lambda r: r, {"cleaned": 3599.0}, "3 rows after"),
        (lambda r: r, {"exponents": (3.0, 2.0)}, "rising"),
    ],
)
def test_rows_that_do_not_fit_are_refused(change, keywords, words):
    with pytest.raises(InputError, match=words):
        fouling(*change(run()), **keywords)


def test_a_known_exponent_tells_a_drift_from_a_loss():
    """Flow 4 % slower over the hour hides a loss of 4 %; with the exponent known it does not."""
    rows = run(0.04, drift=-0.04)
    assert not fouling(*rows).found
    known = fouling(*rows, exponents=(1.7, 2.1))
    assert known.found
    assert known.loss_low < 0.04 < known.loss_high


def test_the_exponent_of_a_linear_torque_curve():
    """CQ = 0.762 (1 - TSR/4.2) gives n = (2 - x)/(1 - x) at x = TSR/4.2."""
    ratio = np.array([1.5, 1.9, 2.4])
    low, high = torque_exponent(ratio, invented_power(ratio) / ratio, 1.9)
    assert 0.5 * (low + high) == pytest.approx((2 - 1.9 / 4.2) / (1 - 1.9 / 4.2), rel=1e-12)
    assert high - low == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("ratio", "at", "words"),
    [
        ([1.9], 1.9, "at least two"),
        ([1.9, 1.92], 1.9, "close"),
        ([1.5, 2.0], 3.0, "too far"),
        ([3.9, 4.5], 4.3, "no"),
    ],
)
def test_readings_that_give_no_exponent_are_refused(ratio, at, words):
    ratio = np.array(ratio)
    with pytest.raises(InputError, match=words):
        torque_exponent(ratio, invented_power(ratio) / ratio, at)
