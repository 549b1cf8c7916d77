"""Ambient noise of open water by parts, after Wenz."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers, within
from racewright.sound.bands import bandwidth, level_sum

Floats = NDArray[np.float64]

SOURCE = "Coates's forms of the curves of Wenz (1962), J. Acoust. Soc. Am. 34, 1936; from memory, 90 to 95 %"


@dataclass(frozen=True, slots=True)
class AmbientParts:
    """Spectral levels of the parts, shape of the frequency asked [dB re 1 uPa2/Hz].

    Attributes
    ----------
    turbulence, shipping, wind, thermal : ndarray
    together : ndarray
        Sum of their powers.
    """

    turbulence: Floats
    shipping: Floats
    wind: Floats
    thermal: Floats
    together: Floats


def ambient_parts(frequency: ArrayLike, wind_speed: float, shipping: float) -> AmbientParts:
    """Spectral levels of ambient noise in the open sea.

    Turbulence 17 - 30 lg f, shipping 40 + 20 (D - 0.5) + 26 lg f - 60 lg(f + 0.03), wind 50 + 7.5 w^0.5 + 20 lg f -
    40 lg(f + 0.4), thermal -15 + 20 lg f, f in kHz and w in m/s. Rivers and tidal races have their own noise of bed,
    bubbles and gravel: measure there.

    Parameters
    ----------
    frequency : array_like
        1 to 1e6 [Hz].
    wind_speed : float
        0 to 40 [m/s].
    shipping : float
        D, 0 (none near) to 1 (heavy) [-].
    """
    f = 1e-3 * numbers("frequency", frequency, 1.0, 1e6, "Hz")
    blown = within("wind_speed", wind_speed, 0.0, 40.0, "m/s", 5.0)
    ships = within("shipping", shipping, 0.0, 1.0, "", 0.5)
    turbulence = 17.0 - 30.0 * np.log10(f)
    traffic = 40.0 + 20.0 * (ships - 0.5) + 26.0 * np.log10(f) - 60.0 * np.log10(f + 0.03)
    wind = 50.0 + 7.5 * np.sqrt(blown) + 20.0 * np.log10(f) - 40.0 * np.log10(f + 0.4)
    thermal = -15.0 + 20.0 * np.log10(f)
    return AmbientParts(
        turbulence, traffic, wind, thermal, level_sum(np.stack([turbulence, traffic, wind, thermal]), axis=0)
    )


def ambient_bands(frequency: ArrayLike, wind_speed: float, shipping: float) -> Floats:
    """Third-octave levels of ambient noise, spectral level + 10 lg of the band's width [dB re 1 uPa]."""
    parts = ambient_parts(frequency, wind_speed, shipping)
    return np.asarray(parts.together + 10.0 * np.log10(bandwidth(frequency)), dtype=np.float64)
