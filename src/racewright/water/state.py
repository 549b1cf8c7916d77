"""The properties of water at one temperature and one atmosphere."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import gsw  # type: ignore[import-untyped, unused-ignore]

from racewright.errors import InputError
from racewright.water.vapour import saturation_pressure, water_activity
from racewright.water.viscosity import fresh_viscosity, sea_ratio

_SALINITY = {"fresh": 0.0, "sea": 35.16504}
_COLDEST = 273.15
_WARMEST = 313.15


@dataclass(frozen=True)
class Water:
    """Properties at one temperature and one atmosphere.

    Attributes
    ----------
    kind : {'fresh', 'sea'}
        Sea water has the reference salinity 35.16504 g/kg.
    temperature : float
        [K]
    density : float
        [kg/m3]
    viscosity : float
        Kinematic viscosity [m2/s].
    vapour_pressure : float
        [Pa]
    """

    kind: Literal["fresh", "sea"]
    temperature: float
    density: float
    viscosity: float
    vapour_pressure: float


def properties(temperature: float, kind: Literal["fresh", "sea"]) -> Water:
    """Density, kinematic viscosity and vapour pressure at one atmosphere.

    Parameters
    ----------
    temperature : float
        273.15 to 313.15 (0 to 40 degC) [K].
    kind : {'fresh', 'sea'}
        Pure water, or sea water of the reference salinity 35.16504 g/kg.

    Returns
    -------
    Water

    Raises
    ------
    InputError
        Temperature outside the range or not finite, or another kind.

    References
    ----------
    Density: TEOS-10 Gibbs functions of pure and sea water. Viscosity: IAPWS R12-08, for sea water times the
    ratio of Sharqawy and others (2010). Vapour pressure: IAPWS R7-97, for sea water times the TEOS-10 water
    activity.

    Examples
    --------
    >>> round(properties(288.15, "fresh").density, 3)
    999.103
    """
    if kind not in _SALINITY:
        raise InputError(f"kind of water is {kind!r}; write 'fresh' or 'sea'")
    if not (math.isfinite(temperature) and _COLDEST <= temperature <= _WARMEST):
        raise InputError(
            f"water temperature is {temperature!r} K; wanted 273.15 K to 313.15 K (0 to 40 degC), e.g. 288.15"
        )
    salinity = _SALINITY[kind]
    celsius = temperature - _COLDEST
    pure_density = float(gsw.rho_t_exact(0.0, celsius, 0.0))
    dynamic = fresh_viscosity(temperature, pure_density)
    density, pressure = pure_density, saturation_pressure(temperature)
    if kind == "sea":
        density = float(gsw.rho_t_exact(salinity, celsius, 0.0))
        dynamic *= sea_ratio(temperature, 1e-3 * salinity)
        pressure *= water_activity(temperature, salinity)
    return Water(kind, temperature, density, dynamic / density, pressure)
