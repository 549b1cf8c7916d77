"""Sources: from turbulence, from wakes, from a measurement."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad

from racewright.errors import InputError
from racewright.sound.gust import dipole_level, gust_lift, gust_span, gust_spectrum
from racewright.sound.scaled_source import EXPONENTS, MeasuredSound, scaled_source
from racewright.sound.sounding_row import SoundingRow, sounding_rows
from racewright.sound.source import SoundSource, Tone
from racewright.sound.tones import machine_tones, passing_frequencies
from racewright.sound.turbulence_source import turbulence_source
from racewright.sound.water_sound import FRESH
from tests.passage.machine import machine


def even_row(count=3, speed=6.0, chord=0.2) -> SoundingRow:
    """Even chord and speed."""
    even = np.ones(5)
    return SoundingRow("rotor", count, np.linspace(0.2, 0.6, 5), chord * even, speed * even, 0.8 * even)


def bands(rows, speed=2.0, turbulence=0.1, scale=2.0, **more) -> SoundSource:
    """In fresh water."""
    return turbulence_source(rows, 1000.0, 1450.0, speed, turbulence, scale, **more)


MEASURED = MeasuredSound(
    np.array([100.0, 1000.0]), np.array([110.0, 95.0]), np.array([90.0, 94.0]), 20.0, 6.0, 0.3, 3.0, "model, drifting"
)


def scaled(measured=MEASURED, speed=6.0, area=0.3, **more) -> SoundSource:
    """In fresh water, spherical."""
    return scaled_source(measured, speed, area, water=FRESH, **more)


def test_the_gust_s_spectrum_holds_its_variance():
    total, _error = quad(lambda f: float(gust_spectrum(f, 5.0, 0.4, 1.5)), 0.0, 4e4, limit=500)
    assert total == pytest.approx(0.16, rel=2e-3)


def test_the_gust_s_spectrum_falls_as_five_thirds():
    high = gust_spectrum(np.array([1e3, 1e4]), 5.0, 0.4, 1.5)
    assert math.log10(high[1] / high[0]) == pytest.approx(-5.0 / 3.0, abs=1e-3)


def test_the_gust_s_span_is_short_at_high_frequency():
    span = gust_span(np.array([1e2, 1e3]), 5.0, 1.5)
    assert span[0] / span[1] == pytest.approx(10.0, rel=0.01)
    assert 2.0 < span[1] * 2.0 * math.pi * 1e3 / 5.0 < 4.0


def test_slow_gusts_lift_as_a_plate_in_steady_flow():
    assert gust_lift(1e-9, 5.0, 0.2, 1000.0) == pytest.approx(math.pi * 1000.0 * 0.2 * 5.0, rel=1e-6)


def test_dipole():
    """p = f F/(2 c r): 1 N rms at 100 Hz in 1450 m/s gives 0.0345 Pa at 1 m."""
    assert dipole_level(100.0, 1.0, 1450.0) == pytest.approx(20.0 * math.log10(100.0 / 2900.0 / 1e-6))


def test_all_speeds_and_frequencies_up_by_a_tenth_give_sixty_lg():
    """At one ratio of frequency to speed nothing but the dimensions is left: U^6."""
    slow = bands([even_row(speed=6.0)], speed=2.0, frequency=[100.0, 1000.0])
    fast = bands([even_row(speed=6.6)], speed=2.2, frequency=[110.0, 1100.0])
    assert fast.level - slow.level == pytest.approx(60.0 * math.log10(1.1), abs=1e-9)


def test_twice_the_blades_or_turbulence():
    one, two = bands([even_row(3)]), bands([even_row(6)])
    assert two.level - one.level == pytest.approx(10.0 * math.log10(2.0), abs=1e-9)
    assert bands([even_row()], turbulence=0.2).level - one.level == pytest.approx(20.0 * math.log10(2.0), abs=1e-9)
    both = bands([even_row(3), even_row(3)])
    assert both.level - one.level == pytest.approx(10.0 * math.log10(2.0), abs=1e-9)


def test_rows_of_the_machine():
    vanes, rotor = sounding_rows(machine().vanes, machine().blades, machine().point)
    assert (vanes.count, rotor.count) == (7, 5)
    assert rotor.mean_speed > vanes.mean_speed
    assert rotor.area == pytest.approx(5 * 0.165 * (0.5027 - 0.13), rel=0.02)
    assert np.all(rotor.axial_lift[1:] > vanes.axial_lift[1:])
    other = replace(machine().blades, radius=machine().blades.radius * 1.01)
    with pytest.raises(InputError, match="other blades"):
        sounding_rows(machine().vanes, other, machine().point)


def test_a_computed_source_says_what_it_lacks():
    found = bands([even_row()])
    assert found.uncertainty == 25.0
    assert "2 to 23 dB lower" in found.uncertainty_basis
    assert any(one.severity == "warning" and "converter" in one.text for one in found.remarks)
    assert found.safety.caution


def test_passing_frequencies():
    blade, vane, both = passing_frequencies(2.0 * math.pi, 7, 5)
    assert (blade, vane, both) == pytest.approx((5.0, 7.0, 35.0))
    assert passing_frequencies(2.0 * math.pi, 6, 4)[2] == pytest.approx(12.0)


def test_tones_of_the_machine():
    one = machine()
    blade, vane, both = machine_tones(one.vanes, one.blades, one.point, 1000.0, 1450.0)
    turns = one.point.rotor_speed / (2.0 * math.pi)
    assert (blade.frequency, vane.frequency, both.frequency) == pytest.approx((5 * turns, 7 * turns, 35 * turns))
    for tone in (blade, vane, both):
        assert tone.level is not None
        assert "upper bound" in tone.words
    known = one.point.triangles
    lost = one.point.losses.vane_profile * 0.5 * one.point.stream_speed**2
    gust = 2.0 * 5.0 * lost / np.mean(np.hypot(known.axial_speed, known.swirl_in))
    rotor = sounding_rows(one.vanes, one.blades, one.point)[1]
    reduced = np.pi * both.frequency * rotor.chord / rotor.relative_speed
    lift = np.pi * 1000.0 * rotor.chord * rotor.relative_speed / np.sqrt(1.0 + 2.0 * np.pi * reduced)
    force = gust * np.trapezoid(lift * rotor.axial_lift, rotor.radius) / math.sqrt(2.0)
    assert both.level == pytest.approx(20.0 * math.log10(both.frequency * force / 2900.0 / 1e-6), abs=1e-9)
    lossy = replace(one.point, losses=replace(one.point.losses, vane_profile=2.0 * one.point.losses.vane_profile))
    louder = machine_tones(one.vanes, one.blades, lossy, 1000.0, 1450.0)
    assert louder[2].level - both.level == pytest.approx(20.0 * math.log10(2.0), abs=1e-9)
    still = machine_tones(one.vanes, one.blades, replace(one.point, rotor_speed=0.0), 1000.0, 1450.0)
    assert still[0].level is None
    assert "no level" in still[0].words


def test_a_measurement_carried_back_and_freed_of_background():
    """110 dB at 20 m, 90 dB without: 109.957 + 26.021; the second band is a bound."""
    found = scaled()
    freed = 10.0 * math.log10(10.0**11.0 - 10.0**9.0)
    assert found.level[0] == pytest.approx(freed + 20.0 * math.log10(20.0), abs=1e-3)
    assert found.level[1] == pytest.approx(95.0 + 20.0 * math.log10(20.0), abs=1e-3)
    assert any("upper bounds" in one.text for one in found.remarks)
    assert "model, drifting" in found.safety.basis


def test_scaling_by_speed_and_size():
    base = scaled()
    faster, long, larger = scaled(speed=12.0), scaled(speed=12.0, exponent=EXPONENTS["long"]), scaled(area=3.0)
    assert faster.level - base.level == pytest.approx(60.0 * math.log10(2.0), abs=1e-9)
    assert long.level - base.level == pytest.approx(50.0 * math.log10(2.0), abs=1e-9)
    assert larger.level - base.level == pytest.approx(10.0, abs=1e-9)
    assert faster.uncertainty > base.uncertainty
    assert base.uncertainty == pytest.approx(math.hypot(3.0, 2.0))


def test_refused_measurements():
    with pytest.raises(InputError, match="above the background"):
        scaled(replace(MEASURED, background=MEASURED.with_machine - 1.0))
    with pytest.raises(InputError, match="where"):
        replace(MEASURED, where=" ")
    with pytest.raises(InputError, match="one level for each"):
        replace(MEASURED, background=np.array([90.0]))
    with pytest.raises(InputError, match="distance"):
        replace(MEASURED, distance=math.nan)
    with pytest.raises(InputError, match="exponent"):
        scaled(exponent=10.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: bands([]),
        lambda: bands([even_row()], turbulence=math.nan),
        lambda: bands([even_row()], scale=0.0),
        lambda: bands([even_row()], speed=-1.0),
        lambda: even_row(count=0),
        lambda: even_row(chord=-0.1),
        lambda: even_row(speed=math.inf),
        lambda: replace(bands([even_row()]), level=np.array([1.0])),
        lambda: replace(bands([even_row()]), uncertainty=-1.0),
        lambda: replace(bands([even_row()]), uncertainty_basis=""),
        lambda: replace(bands([even_row()]), tones=(Tone("x", math.nan, 1.0, ""),)),
        lambda: passing_frequencies(-1.0, 7, 5),
    ],
)
def test_refused(call):
    with pytest.raises(InputError):
        call()
