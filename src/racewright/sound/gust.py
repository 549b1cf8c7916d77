"""Turbulence that an edge meets, and the lift that it makes: spectra in closed form."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers

Floats = NDArray[np.float64]

_EDDY = math.sqrt(math.pi) * math.gamma(5.0 / 6.0) / math.gamma(1.0 / 3.0)
"""k_e times the length scale in von Karman's spectrum [-]."""


def gust_spectrum(frequency: ArrayLike, speed: ArrayLike, fluctuation: float, length_scale: float) -> Floats:
    """One-sided spectrum of the speed across the flow in von Karman turbulence [m2/s2/Hz].

    2 u'^2 S/W (1 + 8/3 x^2)/(1 + x^2)^(11/6), x = 2 pi f/(W k_e), k_e = 0.747/S; its integral is u'^2.

    Parameters
    ----------
    frequency : array_like
        0 to 1e6 [Hz].
    speed : array_like
        W at which the turbulence is carried past, 1e-3 to 100 [m/s].
    fluctuation : float
        u', root mean square of one component, 0 to 50 [m/s].
    length_scale : float
        S, of the turbulence along the flow, 1e-3 to 1000 [m].
    """
    f = numbers("frequency", frequency, 0.0, 1e6, "Hz")
    carried = numbers("speed", speed, 1e-3, 100.0, "m/s")
    rms = float(numbers("fluctuation", fluctuation, 0.0, 50.0, "m/s"))
    scale = float(numbers("length_scale", length_scale, 1e-3, 1e3, "m"))
    square = (2.0 * math.pi * f * scale / (carried * _EDDY)) ** 2
    shape = (1.0 + 8.0 / 3.0 * square) / (1.0 + square) ** (11.0 / 6.0)
    return np.asarray(2.0 * rms**2 * scale / carried * shape, dtype=np.float64)


def gust_span(frequency: ArrayLike, speed: ArrayLike, length_scale: float) -> Floats:
    """Span over which such a gust acts together, both ways along the edge [m].

    Twice Amiet's correlation length (1975), 8 S/3 (Gamma(1/3)/Gamma(5/6))^2 x^2/((3 + 8 x^2) sqrt(1 + x^2));
    arguments as `gust_spectrum`. From memory, 85 %.
    """
    f = numbers("frequency", frequency, 0.0, 1e6, "Hz")
    carried = numbers("speed", speed, 1e-3, 100.0, "m/s")
    scale = float(numbers("length_scale", length_scale, 1e-3, 1e3, "m"))
    square = (2.0 * math.pi * f * scale / (carried * _EDDY)) ** 2
    ratio = (math.gamma(1.0 / 3.0) / math.gamma(5.0 / 6.0)) ** 2
    one = 8.0 * scale / 3.0 * ratio * square / ((3.0 + 8.0 * square) * np.sqrt(1.0 + square))
    return np.asarray(2.0 * one, dtype=np.float64)


def gust_lift(frequency: ArrayLike, speed: ArrayLike, chord: ArrayLike, density: float) -> Floats:
    """Amplitude of lift per span for a gust of 1 m/s across the flow [N s/m2].

    pi rho c W |S|, |S|^2 = 1/(1 + 2 pi k), k = pi f c/W: Sears's function by Liepmann's fit (textbook, from memory).

    Parameters
    ----------
    frequency, speed : array_like
        As `gust_spectrum`.
    chord : array_like
        1e-4 to 100 [m].
    density : float
        500 to 2000 [kg/m3].
    """
    f = numbers("frequency", frequency, 0.0, 1e6, "Hz")
    met = numbers("speed", speed, 1e-3, 100.0, "m/s")
    long = numbers("chord", chord, 1e-4, 100.0, "m")
    weight = float(numbers("density", density, 500.0, 2000.0, "kg/m3"))
    reduced = math.pi * f * long / met
    return np.asarray(math.pi * weight * long * met / np.sqrt(1.0 + 2.0 * math.pi * reduced), dtype=np.float64)


def dipole_level(frequency: ArrayLike, force_square: ArrayLike, sound_speed: float) -> Floats:
    """Source level on the axis of a compact fluctuating force, Curle (1955) [dB re 1 uPa m].

    p = 2 pi f F/(4 pi c r): the far field carried back to 1 m.

    Parameters
    ----------
    frequency : array_like
        Above 0 [Hz].
    force_square : array_like
        Mean square of the force, above 0 [N2].
    sound_speed : float
        1300 to 1700 [m/s].
    """
    f = numbers("frequency", frequency, 1e-6, 1e6, "Hz")
    force = numbers("force_square", force_square, 1e-300, 1e30, "N2")
    speed = float(numbers("sound_speed", sound_speed, 1300.0, 1700.0, "m/s"))
    return np.asarray(10.0 * np.log10(force * (f / (2.0 * speed)) ** 2 / 1e-12), dtype=np.float64)
