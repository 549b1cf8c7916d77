"""Torque ripple by order: amplitudes, names, a slipping angle, noise."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.trials import Channel, Chunk, Rig, Settings, exact, reduce
from racewright.trials.ripple import Spectrum, ripple
from racewright.trials.ripple_noise import FALSE_ALARMS, NEAREST, middle, neighbours, stands_from

RIG = Rig(0.2, 0.05, 4, 7, 2.0, 1.2, 0.6, 0.25, 0.05, 0.14)
ANY = Settings(torque_drift=10.0, torque_scatter=10.0, halves=1e6)
"""Takes every minute as steady."""


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


def turbulent(windows, omega=15.0, once=0.0, seed=5, rate=100.0, slope=-5.0 / 3.0, corner=0.1):
    """Readings of minutes in water whose torque falls with frequency from a corner on; `once` N m once per turn."""
    rng = np.random.default_rng(seed)
    size = round(60 * rate) * windows
    frequency = np.fft.rfftfreq(size, 1.0 / rate)
    shape = (1.0 + (frequency / corner) ** 2) ** (slope / 4.0)
    swing = np.fft.irfft(shape * np.fft.rfft(rng.standard_normal(size)), size)
    time = np.arange(size) / rate
    turning = np.full(size, omega)
    torque = 8.0 * (1.0 + 0.1 * swing / swing.std()) + once * np.cos(omega * time)
    raw = {"speed": np.full(size, 1.5), "torque": torque, "rotor_speed": turning, "thrust": np.full(size, 120.0)}
    channels = [Channel(n, n, rate, exact(0.0, 1.0)) for n in raw]
    return reduce([Chunk(0.0, raw)], channels, RIG, settings=ANY).readings


@pytest.mark.parametrize(
    ("omega", "slope"), [(15.0, -5.0 / 3.0), (4.0, -5.0 / 3.0), (1.5, -5.0 / 3.0), (15.0, -3.0), (15.0, 0.0)]
)
def test_turbulence_alone_stands_out_as_seldom_as_stated(omega, slope):
    found = [r.ripple.peaks for r in turbulent(300, omega=omega, slope=slope)]
    assert len(found) == 300
    false = sum(bool(peaks) for peaks in found) / len(found)
    assert false < FALSE_ALARMS + 3.0 * np.sqrt(FALSE_ALARMS / len(found))
    assert sum(p.order == 1 for peaks in found for p in peaks) <= 6


def test_a_ripple_of_a_few_floors_is_found_in_turbulence():
    """Amplitude five times the median of the neighbours, in water that falls by the same spectrum."""
    floor = np.median([r.ripple.amplitude[1] for r in turbulent(200)])
    found = [{p.order: p for p in r.ripple.peaks} for r in turbulent(200, once=5.0 * floor, seed=6)]
    seen = [peaks[1] for peaks in found if 1 in peaks]
    assert len(seen) > 0.9 * len(found)
    assert np.median([p.floor for p in seen]) == pytest.approx(floor, rel=0.2)


def test_the_threshold_is_that_of_exponential_powers():
    """Drawn: one power over the k-th of 20 others."""
    rng = np.random.default_rng(8)
    power = rng.exponential(size=(400_000, 21))
    floor = np.sort(power[:, 1:], axis=1)[:, middle(20) - 1]
    passed = np.mean(power[:, 0] > stands_from(20, 0.01) ** 2 * floor)
    assert passed == pytest.approx(0.01, rel=0.06)


def test_too_few_turns_tell_no_ripple():
    assert neighbours(4.0, 120) < NEAREST
    readings = turbulent(3, omega=0.4, once=4.0)
    assert [r.ripple.peaks for r in readings] == [()] * 3


def test_orders_stop_below_half_the_sampling_rate():
    slow = spectrum(rate=20.0)
    assert slow.order[-1] == 3.0
    assert spectrum().order[-1] == 14.0


def test_a_common_multiple_is_named_as_both():
    amplitude, quiet = np.full(56, 0.01), np.full(28, 0.01)
    amplitude[2 * 28 - 1] = 1.0
    amplitude[2 * 8 - 1] = 1.0
    peaks = ripple(Spectrum(amplitude, quiet, 4.0 * quiet), 8.0, 15.0, 4, 7).peaks
    assert {p.order: p.name for p in peaks} == {8: "blade passing x 2", 28: "blade and vane passing"}
