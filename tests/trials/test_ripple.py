"""Torque ripple by order: amplitudes, names, a slipping angle, noise."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.trials import Channel, Chunk, Rig, exact, reduce
from racewright.trials.ripple import ripple

RIG = Rig(0.2, 0.05, 4, 7, 2.0, 1.2, 0.6, 0.25, 0.05, 0.14)


def spectrum(rate=200.0, speed_error=0.0, noise=0.1, seed=1):
    """A minute with 0.3 N m at vane passing, 0.2 at blade passing, 0.1 once per turn, on 8 N m."""
    rng = np.random.default_rng(seed)
    time = np.arange(round(60 * rate)) / rate
    omega = 15.0 * (1.0 + 0.003 * np.sin(0.3 * time))
    angle = np.cumsum(omega) / rate
    torque = 8.0 + 0.3 * np.cos(7 * angle) + 0.2 * np.sin(4 * angle + 1.0) + 0.1 * np.cos(angle)
    raw = {
        "speed": np.full(time.size, 1.5),
        "torque": torque + noise * rng.standard_normal(time.size),
        "rotor_speed": omega * (1.0 + speed_error),
        "thrust": np.full(time.size, 120.0),
    }
    (found,) = reduce([Chunk(0.0, raw)], [Channel(n, n, rate, exact(0.0, 1.0)) for n in raw], RIG).readings
    return found.ripple


@pytest.mark.parametrize("speed_error", [0.0, 4e-4, -8e-4])
def test_peaks_are_named_and_sized(speed_error):
    peaks = spectrum(speed_error=speed_error).peaks
    assert [(p.order, p.name) for p in peaks] == [(1, "rotor"), (4, "blade passing"), (7, "vane passing")]
    assert [p.amplitude for p in peaks] == pytest.approx([0.1, 0.2, 0.3], abs=0.006)
    assert [p.share for p in peaks] == pytest.approx([0.0125, 0.025, 0.0375], abs=0.001)
    assert peaks[2].frequency == pytest.approx(7 * 15.0 / (2 * np.pi), rel=2e-3)


def test_noise_alone_has_no_peaks():
    rng = np.random.default_rng(3)
    for _ in range(200):
        amplitude = np.abs(rng.standard_normal(28) + 1j * rng.standard_normal(28))
        assert not [p for p in ripple(amplitude, 8.0, 15.0, 4, 7).peaks if p.amplitude > 8.0 * p.floor]
    found = sum(len(ripple(np.abs(rng.standard_normal(28) + 1j * rng.standard_normal(28)), 8.0, 15.0, 4, 7).peaks)
                for _ in range(500))  # fmt: skip
    assert found < 0.05 * 500 * 14


def test_orders_stop_below_half_the_sampling_rate():
    slow = spectrum(rate=20.0)
    assert slow.order[-1] == 3.0
    assert spectrum().order[-1] == 14.0


def test_a_common_multiple_is_named_as_both():
    amplitude = np.full(56, 0.01)
    amplitude[2 * 28 - 1] = 1.0
    amplitude[2 * 8 - 1] = 1.0
    names = {p.order: p.name for p in ripple(amplitude, 8.0, 15.0, 4, 7).peaks}
    assert names == {8: "blade passing x 2", 28: "blade and vane passing"}
