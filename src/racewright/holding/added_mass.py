"""Water that moves with a body, and the 6 x 6 inertia made from it."""

from __future__ import annotations

import math

import numpy as np

from racewright.holding.checked import Floats
from racewright.machine.drive_checks import number

_FINITE = ((1.2, 0.62), (2.5, 0.78), (5.0, 0.90), (9.0, 0.96))
"""Length/diameter and share of rho pi a^2 L for a cylinder across the flow (DNV-RP-C205, from memory, 85 %) [-]."""


def sphere(density: float, radius: float) -> float:
    """Half the displaced mass (Lamb, exact) [kg]."""
    return 2.0 / 3.0 * math.pi * _given(density, radius) * radius**3


def disc(density: float, radius: float) -> float:
    """A thin disc broadside, 8/3 rho a^3 (Lamb, exact) [kg]."""
    return 8.0 / 3.0 * _given(density, radius) * radius**3


def square_plate(density: float, side: float) -> float:
    """A thin square plate broadside, 0.579 rho pi a^3/4 (DNV-RP-C205, from memory, 85 %) [kg]."""
    return 0.579 * 0.25 * math.pi * _given(density, side) * side**3


def cylinder_across(density: float, radius: float, length: float) -> float:
    """A solid cylinder across the flow: a share of rho pi a^2 L by its slenderness, 1 when endless [kg].

    Parameters
    ----------
    density : float
        [kg/m3]
    radius, length : float
        > 0; below a slenderness of 1.2 the share is held, above 9 it tends to 1 [m].
    """
    slender = number("The length", length, 1e-6, 1e6, "m") / (2.0 * radius)
    inverse = [1.0 / s for s, _ in reversed(_FINITE)]
    share = float(np.interp(1.0 / slender, [0.0, *inverse], [1.0, *(k for _, k in reversed(_FINITE))]))
    return share * math.pi * _given(density, radius) * radius**2 * length


def spheroid(density: float, half_length: float, radius: float) -> tuple[float, float]:
    """A spheroid longer than wide: along and across its axis (Lamb, exact) [kg].

    Parameters
    ----------
    density : float
        [kg/m3]
    half_length, radius : float
        half_length > radius [m].
    """
    number("Half length over radius", half_length / radius, 1.0 + 1e-6, 1e3)
    square = 1.0 - (radius / half_length) ** 2
    e = math.sqrt(square)
    logs = math.log((1.0 + e) / (1.0 - e))
    along = 2.0 * (1.0 - square) / e**3 * (0.5 * logs - e)
    across = 1.0 / square - (1.0 - square) / (2.0 * e**3) * logs
    mass = 4.0 / 3.0 * math.pi * _given(density, radius) * half_length * radius**2
    return mass * along / (2.0 - along), mass * across / (2.0 - across)


def ring_along(density: float, radius: float, thickness: float) -> float:
    """A thin ring of radial width `thickness` along its axis, slender limit: 2 pi R rho pi (t/2)^2 [kg]."""
    return 2.0 * math.pi * radius * _given(density, radius) * math.pi * (0.5 * thickness) ** 2


def torus_along(density: float, radius: float, tube_radius: float) -> float:
    """A thin torus along its axis, slender limit: 2 pi^2 rho c^2 R [kg]."""
    return 2.0 * math.pi**2 * _given(density, radius) * tube_radius**2 * radius


def duct_across(density: float, radius: float, length: float, outside: float = 1.0) -> float:
    """An open duct across its axis: the water inside and a share of as much outside [kg].

    Parameters
    ----------
    density : float
        [kg/m3]
    radius, length : float
        [m]
    outside : float
        0 to 1; 1 is the slender bound, ends lower it [-].
    """
    number("The share outside", outside, 0.0, 1.0)
    return (1.0 + outside) * math.pi * _given(density, radius) * radius**2 * length


def inertia_matrix(
    mass: float,
    centre_of_weight: tuple[float, float, float],
    gyration: tuple[float, float, float],
    added: tuple[float, ...],
    added_centre: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> Floats:
    """Inertia about the body's origin, body axes, shape (6, 6).

    Parameters
    ----------
    mass : float
        Of the body in air, > 0 [kg].
    centre_of_weight : tuple of float
        [m]
    gyration : tuple of float
        Radii of gyration about axes through the centre of weight, > 0 [m].
    added : tuple of float
        Added masses along x, y, z and added inertias about them, each with the water inside, >= 0 [kg], [kg m2].
    added_centre : tuple of float
        Where the added masses act, their coupling between axes left out [m].
    """
    number("The mass", mass, 1e-6, 1e10, "kg")
    own = np.diag(
        [mass, mass, mass, *(mass * number("A radius of gyration", r, 1e-6, 1e3, "m") ** 2 for r in gyration)]
    )
    water = np.diag([number("An added mass", a, 0.0, 1e12) for a in added])
    return _moved(own, centre_of_weight) + _moved(water, added_centre)


def _moved(inertia: Floats, centre: tuple[float, float, float]) -> Floats:
    """From a centre to the origin."""
    x, y, z = centre
    shift = np.eye(6)
    shift[:3, 3:] = [[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]]
    return np.asarray(shift.T @ inertia @ shift)


def _given(density: float, length: float) -> float:
    number("The length", length, 1e-9, 1e6, "m")
    return number("The density", density, 1.0, 2e4, "kg/m3")
