"""Source level from the turbulence that vanes and blades cut: a compact dipole, in closed form."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import row, within
from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.sound.bands import bandwidth, level_sum, third_octaves
from racewright.sound.gust import dipole_level, gust_lift, gust_span, gust_spectrum
from racewright.sound.sounding_row import SoundingRow
from racewright.sound.source import SoundSource, Tone

Floats = NDArray[np.float64]

COMPUTED_UNCERTAINTY = 25.0
"""Wide enough to hold what was published of tidal rotors beside an invented like one: 13 dB below the middle of 118
to 152 dB measured (Lossent and others 2018, recalled), 23 dB below an empirical estimate of 119 dB at 20 m, 2 dB
below a computed 120.5 dB re 1 uPa2 m2/Hz (Lloyd and others, abstract). Own choice from these [dB]."""
_BASIS = (
    "own choice, wide enough for published figures of tidal rotors: like ones compute 2 to 23 dB lower than those "
    "(Lossent and others 2018, recalled; Lloyd and others, abstract)"
)


def turbulence_source(
    rows: Sequence[SoundingRow],
    density: float,
    sound_speed: float,
    stream_speed: float,
    turbulence: float,
    length_scale: float,
    *,
    frequency: ArrayLike | None = None,
    tones: tuple[Tone, ...] = (),
) -> SoundSource:
    """Third-octave source levels of the rows, from first principles and an inflow that the user states.

    Every strip of an edge meets von Karman turbulence at its own relative speed, answers with Sears's lift, and
    radiates as a compact dipole (Curle 1955); strips act together over the gust's span, vanes and blades apart. On
    the axis of the dipole, which is the loudest. At one ratio of frequency to speed the level goes as 60 lg of speed.

    Parameters
    ----------
    rows : sequence of SoundingRow
    density : float
        Of the water, 900 to 1100 [kg/m3].
    sound_speed : float
        1300 to 1700 [m/s].
    stream_speed : float
        0.01 to 30 [m/s].
    turbulence : float
        Intensity of the stream, above 0 to 0.5 [-].
    length_scale : float
        Of the turbulence along the stream; rivers about the depth (common practice), 1e-3 to 1000 [m].
    frequency : array_like, optional
        Middle frequencies; 10 Hz to 100 kHz without it [Hz].
    tones : tuple of Tone
        To carry along, as from `machine_tones`.

    Raises
    ------
    InputError
        No row, a value out of range.
    """
    if not rows:
        raise InputError("a source wants one row or more", key="rows")
    within("density", density, 900.0, 1100.0, "kg/m3", 1000.0)
    within("sound_speed", sound_speed, 1300.0, 1700.0, "m/s", 1450.0)
    within("stream_speed", stream_speed, 0.01, 30.0, "m/s", 2.0)
    within("turbulence", turbulence, 1e-4, 0.5, "", 0.1)
    middle = third_octaves() if frequency is None else row("frequency", frequency, 1.0, 1e6, "Hz")
    rms = turbulence * stream_speed
    width = bandwidth(middle)
    levels = [
        dipole_level(middle, _force_square(one, middle, density, rms, length_scale) * width, sound_speed)
        for one in rows
    ]
    chord = max(float(one.chord.max()) for one in rows)
    return SoundSource(
        name="rows in turbulence, computed",
        frequency=middle,
        level=level_sum(np.stack(levels), axis=0),
        tones=tones,
        uncertainty=COMPUTED_UNCERTAINTY,
        uncertainty_basis=_BASIS,
        remarks=_remarks(sound_speed / (2.0 * math.pi * chord)),
        safety=safety_basis(
            "sound",
            "compact dipole (Curle 1955), lift in a gust (Sears 1941), gust span (Amiet 1975), von Karman "
            f"turbulence; intensity {turbulence:g}, length {length_scale:.3g} m stated",
            "1955 to 1975",
            "closed form on stated turbulence; not yet set against a measurement of this machine",
        ),
    )


def _force_square(one: SoundingRow, frequency: Floats, density: float, rms: float, length_scale: float) -> Floats:
    """Spectrum of the lift of a whole row, shape of frequency [N2/Hz]."""
    f = frequency[:, None]
    strip = gust_lift(f, one.relative_speed, one.chord, density) ** 2
    strip = strip * gust_spectrum(f, one.relative_speed, rms, length_scale)
    span = float(one.radius[-1] - one.radius[0])
    together = np.minimum(gust_span(f, one.relative_speed, length_scale), span)
    return np.asarray(one.count * np.trapezoid(strip * together, one.radius, axis=1), dtype=np.float64)


def _remarks(compact: float) -> tuple[Remark, ...]:
    return (
        Remark(
            "warning",
            "Gear, generator, converter, bearings, flow about the duct and cavitation are not in the computed "
            "source: the machine may be louder by tens of decibels, and an electrical tone may stand out however "
            "slow the rotor turns. Measure.",
            "source",
        ),
        Remark(
            "note",
            f"Above about {compact:.0f} Hz a chord is no longer small against the sound's length: there the level "
            "grows with 50 rather than 60 lg of speed, and the figures are on the high side.",
            "source",
        ),
    )
