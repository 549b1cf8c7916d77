"""Added mass of plain shapes in unbounded water, and what a duct may carry with it."""

from __future__ import annotations

from dataclasses import dataclass
from math import log, pi, sqrt

import numpy as np

from racewright.machine.drive_checks import number

FINITE_CYLINDER = ((1.2, 0.62), (2.5, 0.78), (5.0, 0.90), (9.0, 0.96))
"""Length over diameter, and added mass across over the displaced mass (DNV-RP-C205 appendix D; from memory, 85 %)."""


def sphere(radius: float, water_density: float) -> float:
    """Half the displaced mass (Lamb, art. 92) [kg]; [m], [kg/m3]."""
    return 2.0 / 3.0 * pi * water_density * _length(radius) ** 3


def disc(radius: float, water_density: float) -> float:
    """Broadside, 8/3 rho a^3 (Lamb, art. 102) [kg]; [m], [kg/m3]."""
    return 8.0 / 3.0 * water_density * _length(radius) ** 3


def cylinder(radius: float, length: float, water_density: float) -> float:
    """Across an endless cylinder, one displaced mass [kg]; [m], [m], [kg/m3]."""
    return water_density * pi * _length(radius) ** 2 * _length(length)


def finite_cylinder(radius: float, length: float, water_density: float) -> float:
    """Across, lowered by the ends: straight lines between the table's rows, over the logarithm of length [kg]."""
    slender = _length(length) / (2.0 * _length(radius))
    at = np.log([row[0] for row in FINITE_CYLINDER])
    factor = float(np.interp(log(slender), at, [row[1] for row in FINITE_CYLINDER]))
    return factor * cylinder(radius, length, water_density)


def plate(width: float, length: float, water_density: float) -> float:
    """Broadside per two dimensions, rho pi (w/2)^2 a length: for long plates [kg]; [m], [m], [kg/m3]."""
    return cylinder(0.5 * width, length, water_density)


def square_plate(side: float, water_density: float) -> float:
    """Broadside, 0.579 rho pi a^3/4 (DNV-RP-C205 appendix D; from memory, 85 %) [kg]; [m], [kg/m3]."""
    return 0.579 * water_density * 0.25 * pi * _length(side) ** 3


def spheroid(length: float, diameter: float, water_density: float) -> tuple[float, float]:
    """Along and across a prolate spheroid (Lamb, art. 114 and 373) [kg]; [m], [m], [kg/m3]."""
    a, b = 0.5 * _length(length), 0.5 * number("The diameter", diameter, 1e-4, length * (1.0 - 1e-6), "m")
    e = sqrt(1.0 - (b / a) ** 2)
    spread = log((1.0 + e) / (1.0 - e))
    along = 2.0 * (1.0 - e * e) / e**3 * (0.5 * spread - e)
    across = 1.0 / e**2 - (1.0 - e * e) / (2.0 * e**3) * spread
    displaced = 4.0 / 3.0 * pi * water_density * a * b * b
    return displaced * along / (2.0 - along), displaced * across / (2.0 - across)


def torus(tube_radius: float, ring_radius: float, water_density: float) -> float:
    """Along the axis of a slender ring of round section, 2 pi^2 rho c^2 R [kg]; [m], [m], [kg/m3]."""
    return 2.0 * pi**2 * water_density * _length(tube_radius) ** 2 * _length(ring_radius)


def flat_ring(width: float, radius: float, water_density: float) -> float:
    """Along the axis of a slender flat ring, 2 pi R rho pi (w/2)^2 [kg]; [m], [m], [kg/m3]."""
    return 2.0 * pi * _length(radius) * water_density * pi * (0.5 * _length(width)) ** 2


@dataclass(frozen=True, slots=True)
class DuctWater:
    """Water that moves with a duct.

    Attributes
    ----------
    surge : float
        Along the axis: a flat ring as wide as the wall is thick [kg].
    sway_low, sway_high : float
        Across: the water inside alone, and as much again outside, the bound of strip theory [kg].
    yaw_low, yaw_high : float
        About the middle, the same water as a rod of the duct's length [kg m2].
    basis : str
    """

    surge: float
    sway_low: float
    sway_high: float
    yaw_low: float
    yaw_high: float
    basis: str


def duct_water(radius: float, length: float, wall: float, water_density: float) -> DuctWater:
    """Added mass of an open duct by strip theory; ends lower it, bed and surface raise it, more in sway than heave.

    Parameters
    ----------
    radius, length, wall : float
        Mean radius, length and greatest wall thickness, > 0 [m].
    water_density : float
        [kg/m3]
    """
    inside = cylinder(radius, length, water_density)
    turning = inside * length**2 / 12.0
    surge = flat_ring(wall, radius, water_density)
    basis = "strip theory: flat ring along, water inside to twice that across; physics within 20 % (no source)"
    return DuctWater(surge, inside, 2.0 * inside, turning, 2.0 * turning, basis)


def _length(value: float) -> float:
    return number("A length of the shape", value, 1e-4, 1e3, "m")
