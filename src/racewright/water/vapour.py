"""Vapour pressure of pure water and the water activity of sea water."""

from __future__ import annotations

import math

import gsw  # type: ignore[import-untyped, unused-ignore]

_N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)
_MOLAR_MASS = 18.015268e-3  # water [kg/mol], IAPWS-95
_GAS_CONSTANT = 8.314462618  # [J/(mol K)], CODATA 2018


def saturation_pressure(temperature: float) -> float:
    """Vapour pressure of pure water [Pa].

    Parameters
    ----------
    temperature : float
        273.15 to 647.096 [K].

    References
    ----------
    IAPWS R7-97 (2012), Industrial formulation 1997, region 4, equation 30.
    """
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    theta = temperature + n9 / (temperature - n10)
    a = theta**2 + n1 * theta + n2
    b = n3 * theta**2 + n4 * theta + n5
    c = n6 * theta**2 + n7 * theta + n8
    root: float = 2.0 * c / (math.sqrt(b**2 - 4.0 * a * c) - b)
    return 1e6 * root**4


def water_activity(temperature: float, salinity: float) -> float:
    """Vapour pressure of sea water over that of pure water [-].

    From the chemical potential of water in the TEOS-10 Gibbs function at one atmosphere; fugacity corrections
    (below 1e-4 here) are left out.

    Parameters
    ----------
    temperature : float
        [K]
    salinity : float
        Absolute Salinity [g/kg].
    """
    celsius = temperature - 273.15
    in_sea = float(gsw.chem_potential_water_t_exact(salinity, celsius, 0.0))
    pure = float(gsw.chem_potential_water_t_exact(0.0, celsius, 0.0))
    difference = 1e3 * (in_sea - pure)  # J/g to J/kg
    return math.exp(_MOLAR_MASS * difference / (_GAS_CONSTANT * temperature))
