"""Water that moves with a vane, a blade or a ring: potential-flow limits."""

from __future__ import annotations

import math

from racewright.strength.door import not_negative, positive, whole


def strip_added_mass(breadth: float, water_density: float) -> float:
    """Added mass per length of a long ellipse or plate that moves across its breadth, rho pi (b/2)^2 [kg/m].

    Lamb, Hydrodynamics, section 71: the same for any ellipse of that breadth, for motion square to it. Neighbours, a
    wall near the tip and finite length are left out: a wall and neighbours add, the tip's end takes away.

    Parameters
    ----------
    breadth : float
        Across the motion, such as the chord for flapping, > 0 [m].
    water_density : float
        0 in air [kg/m3].
    """
    positive("the breadth", breadth, "m", 0.15)
    not_negative("the water's density", water_density, "kg/m3", 1000.0)
    return water_density * math.pi * (0.5 * breadth) ** 2


def tube_added_mass(radius: float, width: float, water_density: float, waves: int) -> float:
    """Added mass per circumference of a long thin tube with `waves` waves around it, water on both sides [kg/m].

    Laplace's equation on either side gives rho R/n each, so 2 rho R b/n for a width b.

    Parameters
    ----------
    radius, width : float
        > 0 [m].
    water_density : float
        >= 0 [kg/m3].
    waves : int
        n, 2 to 50.
    """
    positive("the tube's radius", radius, "m", 0.5)
    positive("the tube's width", width, "m", 0.3)
    not_negative("the water's density", water_density, "kg/m3", 1000.0)
    whole("the number of waves", waves, 2, 50, 2)
    return 2.0 * water_density * radius * width / waves
