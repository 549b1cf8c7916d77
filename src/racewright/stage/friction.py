"""Skin friction of a plate and the form factor of a section."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LEAST_REYNOLDS = 1.0e3
"""Below it the friction of this Reynolds number is kept [-]."""
LEAST_LENGTH_OVER_ROUGHNESS = 100.0
"""Below it the friction of this roughness is kept [-]."""


def laminar_friction(reynolds: Floats) -> Floats:
    """Mean friction of one side of a laminar plate, 1.328/sqrt(Re) (Blasius 1908) [-]."""
    return 1.328 / np.sqrt(reynolds)


def turbulent_friction(reynolds: Floats) -> Floats:
    """Mean friction of one side of a turbulent plate, 0.455/(log10 Re)^2.58 (Prandtl-Schlichting; from
    memory).
    """
    return 0.455 / np.log10(reynolds) ** 2.58


def transition_reynolds(turbulence: Floats | float) -> Floats:
    """Length Reynolds number at which transition starts on a plate in a turbulent stream.

    Momentum-thickness Reynolds number 163 + exp(6.91 - Tu %), without pressure gradient (Abu-Ghannam & Shaw,
    J. Mech. Eng. Sci. 22 (1980) 213; from memory), turned to length by Blasius's 0.664 sqrt(Re).

    Parameters
    ----------
    turbulence : ndarray or float
        Root-mean-square speed fluctuation over mean speed, 0.001 to 0.3 [-].
    """
    theta = 163.0 + np.exp(6.91 - 100.0 * np.asarray(turbulence, dtype=np.float64))
    return (theta / 0.664) ** 2


def smooth_friction(reynolds: Floats, transition: Floats) -> Floats:
    """Mean friction of one side: laminar up to the transition Reynolds number, mixed behind it.

    Prandtl's mixed line turbulent - A/Re with A = Re_t (turbulent - laminar at Re_t): continuous at Re_t,
    and A = 1614 at Re_t = 5e5, where tables print 1700.

    Parameters
    ----------
    reynolds, transition : ndarray
        Length Reynolds number and its value at transition [-].
    """
    re = np.maximum(reynolds, LEAST_REYNOLDS)
    laminar_length = np.minimum(re, np.maximum(transition, LEAST_REYNOLDS))
    laminar = laminar_friction(laminar_length)
    return turbulent_friction(re) - laminar_length / re * (turbulent_friction(laminar_length) - laminar)


def rough_friction(roughness_over_length: Floats) -> Floats:
    """Mean friction of one side, fully rough, (1.89 + 1.62 log10(L/ks))^-2.5 (Schlichting; from memory); 0
    at ks 0.
    """
    length = 1.0 / np.maximum(roughness_over_length, 1e-30)
    length = np.maximum(length, LEAST_LENGTH_OVER_ROUGHNESS)
    return np.where(roughness_over_length > 0.0, (1.89 + 1.62 * np.log10(length)) ** -2.5, 0.0)


def plate_friction(reynolds: Floats, transition: Floats, roughness_over_length: Floats) -> Floats:
    """The larger of smooth and fully rough friction: continuous, a little high between the two [-]."""
    return np.maximum(smooth_friction(reynolds, transition), rough_friction(roughness_over_length))


def form_factor(thickness: Floats) -> Floats:
    """Section drag over plate drag, 1 + 2 t/c + 60 (t/c)^4 (Hoerner, Fluid-Dynamic Drag, 1965; from
    memory).
    """
    return 1.0 + 2.0 * thickness + 60.0 * thickness**4
