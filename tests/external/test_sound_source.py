"""Source levels against scaling laws and published levels of like rotors."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.sound.bands import bandwidth
from racewright.sound.scaled_source import EXPONENTS
from racewright.sound.sounding_row import SoundingRow
from racewright.sound.source import SoundSource
from racewright.sound.turbulence_source import COMPUTED_UNCERTAINTY, turbulence_source
from tests.external.record import Record


def _tidal_rotor() -> SoundSource:
    """A typical large tidal rotor, invented: 18 m, three blades, 2.5 m/s, tip-speed ratio 5, 10 % turbulence."""
    radius = np.linspace(2.0, 9.0, 25)
    chord = np.linspace(1.8, 0.7, 25)
    speed = np.hypot(2.5 * 2.0 / 3.0, 5.0 * 2.5 / 9.0 * radius)
    row = SoundingRow("rotor", 3, radius, chord, speed, np.full(25, 0.9))
    return turbulence_source([row], 1025.0, 1490.0, 2.5, 0.10, 10.0)


@pytest.mark.outside(
    source="Curle (1955): U^6 for compact bodies, +10 % speed is 2.4836 dB, twice 18.0618; U^5 2.0696 and 15.0515",
    status="closed form",
    tolerance="1e-4 dB",
)
def test_speed_laws(record_property: Record) -> None:
    even = np.ones(9)

    def at(factor: float) -> float:
        row = SoundingRow("rotor", 3, np.linspace(0.2, 0.6, 9), 0.2 * even, 6.0 * factor * even, 0.8 * even)
        found = turbulence_source([row], 1000.0, 1450.0, 2.0 * factor, 0.1, 2.0, frequency=[200.0 * factor])
        return float(found.level[0])

    gains = [at(1.1) - at(1.0), at(2.0) - at(1.0)]
    record_property("measured", f"{max(abs(gains[0] - 2.4836), abs(gains[1] - 18.0618)):.0e} dB")
    assert gains == pytest.approx([2.4836, 18.0618], abs=1e-4)
    assert EXPONENTS["long"] * math.log10(1.1) == pytest.approx(2.0696, abs=1e-4)
    assert EXPONENTS["long"] * math.log10(2.0) == pytest.approx(15.0515, abs=1e-4)


@pytest.mark.outside(
    source="Lossent and others (2018), recalled: third-octave source levels of a tidal rotor 118 to 152 dB; the like "
    "rotor here is invented",
    status="from memory",
    tolerance="middle of the range, 25 dB (the uncertainty told)",
)
def test_a_tidal_rotor_lies_where_such_were_measured(record_property: Record) -> None:
    loudest = float(_tidal_rotor().level.max())
    record_property("measured", f"{loudest - 135.0:+.0f} dB, loudest band ({loudest:.0f} dB) against 135 dB")
    assert loudest == pytest.approx(135.0, abs=COMPUTED_UNCERTAINTY)


@pytest.mark.outside(
    source="Lloyd, Turnock and Humphrey, abstract: 119 dB third-octave at 20 m of a typical rotor in turbulence; and "
    "120.5 dB re 1 uPa2 m2/Hz full scale; conditions not known, the like rotor here is invented",
    status="published",
    tolerance="25 dB (the uncertainty told)",
)
def test_a_tidal_rotor_against_computed_ones(record_property: Record) -> None:
    found = _tidal_rotor()
    low = (found.frequency >= 10.0) & (found.frequency <= 100.0)
    at_20 = float(found.level[low].max()) - 20.0 * math.log10(20.0)
    spectral = float((found.level - 10.0 * np.log10(bandwidth(found.frequency)))[low].max())
    record_property(
        "measured", f"{at_20 - 119.0:+.0f} dB at 20 m, {spectral - 120.5:+.0f} dB spectral, of 10 to 100 Hz"
    )
    assert at_20 == pytest.approx(119.0, abs=COMPUTED_UNCERTAINTY)
    assert spectral == pytest.approx(120.5, abs=COMPUTED_UNCERTAINTY)
