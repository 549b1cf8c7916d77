"""Dynamic viscosity of water: the IAPWS R12-08 formulation and a ratio for sea water."""

from __future__ import annotations

import math

_T_REF = 647.096
_RHO_REF = 322.0
_MU_REF = 1e-6

# R12-08, table 1: denominators of the dilute-gas term.
_H = (1.67752, 2.20462, 0.6366564, -0.241605)

# R12-08, table 2: (i, j, H_ij) of the finite-density term; all other H_ij are zero.
_HIJ = (
    (0, 0, 5.20094e-1),
    (1, 0, 8.50895e-2),
    (2, 0, -1.08374),
    (3, 0, -2.89555e-1),
    (0, 1, 2.22531e-1),
    (1, 1, 9.99115e-1),
    (2, 1, 1.88797),
    (3, 1, 1.26613),
    (5, 1, 1.20573e-1),
    (0, 2, -2.81378e-1),
    (1, 2, -9.06851e-1),
    (2, 2, -7.72479e-1),
    (3, 2, -4.89837e-1),
    (4, 2, -2.57040e-1),
    (0, 3, 1.61913e-1),
    (1, 3, 2.57399e-1),
    (0, 4, -3.25372e-2),
    (3, 4, 6.98452e-2),
    (4, 5, 8.72102e-3),
    (3, 6, -4.35673e-3),
    (5, 6, -5.93264e-4),
)
_MOST = max(power for i, j, _h in _HIJ for power in (i, j))


def fresh_viscosity(temperature: float, density: float) -> float:
    """Dynamic viscosity of pure water [Pa s].

    The critical enhancement is left out: it is below 1e-4 of the viscosity away from the critical point.

    Parameters
    ----------
    temperature : float
        [K]
    density : float
        [kg/m3]

    References
    ----------
    IAPWS R12-08 (2008), Formulation for the viscosity of ordinary water substance, equations 10 to 12.
    """
    t = temperature / _T_REF
    d = density / _RHO_REF
    dilute = 100.0 * math.sqrt(t) / sum(h / t**i for i, h in enumerate(_H))
    cold, thick = ([x**i for i in range(_MOST + 1)] for x in (1.0 / t - 1.0, d - 1.0))
    dense = math.exp(d * sum([h * cold[i] * thick[j] for i, j, h in _HIJ]))
    return _MU_REF * dilute * dense


def sea_ratio(temperature: float, salinity: float) -> float:
    """Viscosity of sea water over that of pure water at the same temperature [-].

    Stated accuracy of the fit 1.5 %, 0 to 180 degC, salinity 0 to 0.15.

    Parameters
    ----------
    temperature : float
        [K]
    salinity : float
        Mass of salt per mass of sea water [kg/kg].

    References
    ----------
    Sharqawy, Lienhard and Zubair (2010), Desalination and Water Treatment 16, 354-380, equation 22.
    """
    t = temperature - 273.15
    first = 1.541 + 1.998e-2 * t - 9.52e-5 * t**2
    second = 7.974 - 7.561e-2 * t + 4.724e-4 * t**2
    return 1.0 + first * salinity + second * salinity**2
