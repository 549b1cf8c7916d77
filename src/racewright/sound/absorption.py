"""Absorption of sound in water by two published forms, and the speed of sound."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers, within
from racewright.errors import InputError
from racewright.sound.water_sound import SoundWater

Floats = NDArray[np.float64]


def ainslie_mccolm(frequency: ArrayLike, water: SoundWater) -> Floats:
    """Absorption after Ainslie and McColm (1998), J. Acoust. Soc. Am. 103, 1671; formula from memory, 95 % [dB/m].

    Boric acid, magnesium sulphate and water; in fresh water only the last remains.

    Parameters
    ----------
    frequency : array_like
        1e-3 to 1e6 [Hz].
    water : SoundWater
    """
    f = 1e-3 * numbers("frequency", frequency, 1e-3, 1e6, "Hz")
    warm, salt, deep = water.celsius, water.salinity / 35.0, 1e-3 * water.depth
    square = f**2
    loss = 0.00049 * square * np.exp(-(warm / 27.0 + deep / 17.0))
    if salt > 0.0:
        boron, magnesium = 0.78 * np.sqrt(salt) * np.exp(warm / 26.0), 42.0 * np.exp(warm / 17.0)
        acid = np.exp((water.acidity - 8.0) / 0.56)
        loss = loss + 0.106 * boron * square / (square + boron**2) * acid
        loss = loss + 0.52 * (1.0 + warm / 43.0) * salt * magnesium * square / (square + magnesium**2) * np.exp(
            -deep / 6.0
        )
    return np.asarray(1e-3 * loss, dtype=np.float64)


def francois_garrison(frequency: ArrayLike, water: SoundWater) -> Floats:
    """Absorption after Francois and Garrison (1982), J. Acoust. Soc. Am. 72, 896 and 1879; from memory, 95 % [dB/m].

    Arguments as `ainslie_mccolm`.
    """
    f = 1e-3 * numbers("frequency", frequency, 1e-3, 1e6, "Hz")
    warm, salt, deep = water.celsius, water.salinity, water.depth
    square = f**2
    if warm <= 20.0:
        own = 4.937e-4 - 2.59e-5 * warm + 9.11e-7 * warm**2 - 1.50e-8 * warm**3
    else:
        own = 3.964e-4 - 1.146e-5 * warm + 1.45e-7 * warm**2 - 6.5e-10 * warm**3
    loss = own * (1.0 - 3.83e-5 * deep + 4.9e-10 * deep**2) * square
    if salt > 0.0:
        speed = 1412.0 + 3.21 * warm + 1.19 * salt + 0.0167 * deep
        boron = 2.8 * np.sqrt(salt / 35.0) * 10.0 ** (4.0 - 1245.0 / (273.0 + warm))
        acid = 8.86 / speed * 10.0 ** (0.78 * water.acidity - 5.0)
        magnesium = 8.17 * 10.0 ** (8.0 - 1990.0 / (273.0 + warm)) / (1.0 + 0.0018 * (salt - 35.0))
        sulphate = 21.44 * salt / speed * (1.0 + 0.025 * warm) * (1.0 - 1.37e-4 * deep + 6.2e-9 * deep**2)
        loss = loss + acid * boron * square / (square + boron**2)
        loss = loss + sulphate * magnesium * square / (square + magnesium**2)
    return np.asarray(1e-3 * loss, dtype=np.float64)


ABSORPTIONS: dict[str, Callable[[ArrayLike, SoundWater], Floats]] = {
    "ainslie_mccolm": ainslie_mccolm,
    "francois_garrison": francois_garrison,
}
"""Named forms of absorption."""


def absorption(name: str, frequency: ArrayLike, water: SoundWater) -> Floats:
    """Absorption by a named form [dB/m]; InputError with the names there are."""
    if name not in ABSORPTIONS:
        raise InputError(f"no form of absorption is called {name!r}; there are {', '.join(ABSORPTIONS)}")
    return ABSORPTIONS[name](frequency, water)


def sound_speed(water: SoundWater) -> float:
    """Speed of sound [m/s]; Medwin (1975), J. Acoust. Soc. Am. 58, 1318, from memory, 95 %; 0 to 35 degC."""
    warm = within("celsius", water.celsius, -2.0, 40.0, "degC", 10.0)
    salt = water.salinity - 35.0
    own = 1449.2 + 4.6 * warm - 0.055 * warm**2 + 0.00029 * warm**3
    return own + (1.34 - 0.01 * warm) * salt + 0.016 * water.depth
