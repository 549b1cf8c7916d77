"""Specific numbers of a stage, and the identities between power, size and stream: what a size must give."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.door import within

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]."""


@dataclass(frozen=True, slots=True)
class SpecificNumbers:
    """Numbers that like stages at like states have in common, whatever their size; definitions, exact.

    Attributes
    ----------
    specific_speed : float
        Omega Q^0.5 / dh^0.75 [-].
    power_specific_speed : float
        Omega (P/rho)^0.5 / dh^1.25 [-].
    specific_diameter : float
        D dh^0.25 / Q^0.5 [-].
    turns_specific_speed : float
        n Q^0.5 / dh^0.75 with n in turns a second (nQE) [-].
    unit_speed : float
        n11 = N D/H^0.5, N in turns a minute, H = dh/g in m [m^0.5/min].
    unit_flow : float
        Q11 = Q/(D^2 H^0.5) [m^0.5/s].
    """

    specific_speed: float
    power_specific_speed: float
    specific_diameter: float
    turns_specific_speed: float
    unit_speed: float
    unit_flow: float


def specific_numbers(
    rotor_speed: float,
    flow_rate: float,
    head_drop: float,
    shaft_power: float,
    diameter: float,
    density: float,
    *,
    gravity: float = GRAVITY,
) -> SpecificNumbers:
    """Specific numbers of a stage.

    Parameters
    ----------
    rotor_speed : float
        Above 0 to 1e4 [rad/s].
    flow_rate : float
        1e-6 to 1e6 [m3/s].
    head_drop : float
        Per unit mass, 1e-6 to 1e5 [J/kg].
    shaft_power : float
        0 to 1e10 [W].
    diameter : float
        Of the rotor, 1e-3 to 100 [m].
    density : float
        500 to 1500 [kg/m3].
    gravity : float
        9 to 10; only the unit numbers, which go by metres of head, know it [m/s2].

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    """
    turning = within("rotor_speed", rotor_speed, 1e-6, 1e4, "rad/s", 10.0)
    flow = within("flow_rate", flow_rate, 1e-6, 1e6, "m3/s", 1.5)
    head = within("head_drop", head_drop, 1e-6, 1e5, "J/kg", 1.7)
    power = within("shaft_power", shaft_power, 0.0, 1e10, "W", 2500.0)
    across = within("diameter", diameter, 1e-3, 100.0, "m", 1.0)
    water = within("density", density, 500.0, 1500.0, "kg/m3", 1000.0)
    turns, height = (
        turning / (2.0 * math.pi),
        math.sqrt(head / within("gravity", gravity, 9.0, 10.0, "m/s2", GRAVITY)),
    )
    return SpecificNumbers(
        specific_speed=turning * math.sqrt(flow) / head**0.75,
        power_specific_speed=turning * math.sqrt(power / water) / head**1.25,
        specific_diameter=across * head**0.25 / math.sqrt(flow),
        turns_specific_speed=turns * math.sqrt(flow) / head**0.75,
        unit_speed=60.0 * turns * across / height,
        unit_flow=flow / (across**2 * height),
    )


def speed_for_power(power: float, area: float, power_coefficient: float, density: float) -> float:
    """Stream speed at which an area gives a power, U = (2 P/(rho A CP))^(1/3) [m/s].

    Parameters
    ----------
    power : float
        1e-3 to 1e10 [W].
    area : float
        That the coefficient is reckoned on, 1e-6 to 1e5 [m2].
    power_coefficient : float
        Of the same power, 1e-4 to 10 [-].
    density : float
        500 to 1500 [kg/m3].

    Raises
    ------
    InputError
        A value is not finite or outside its range.

    Examples
    --------
    >>> round(speed_for_power(5e3, 0.7853982, 0.40, 1000.0), 4)
    3.1692
    """
    on = within("area", area, 1e-6, 1e5, "m2", 0.73)
    return math.cbrt(2.0 * _power(power) / (_density(density) * on * _coefficient(power_coefficient)))


def diameter_for_power(power: float, stream_speed: float, power_coefficient: float, density: float) -> float:
    """Diameter of the full circle that gives a power in a stream, D = (8 P/(pi rho CP U^3))^0.5 [m].

    Parameters
    ----------
    power, power_coefficient, density : float
        As in `speed_for_power`, the coefficient on that circle.
    stream_speed : float
        0.01 to 50 [m/s].

    Raises
    ------
    InputError
        A value is not finite or outside its range.

    Examples
    --------
    >>> round(diameter_for_power(1e6, 3.0, 0.40, 1025.0), 4)
    15.1669
    """
    speed = within("stream_speed", stream_speed, 0.01, 50.0, "m/s", 3.0)
    coefficient = _coefficient(power_coefficient)
    return math.sqrt(8.0 * _power(power) / (math.pi * _density(density) * coefficient * speed**3))


def _power(power: float) -> float:
    return within("power", power, 1e-3, 1e10, "W", 5000.0)


def _coefficient(power_coefficient: float) -> float:
    return within("power_coefficient", power_coefficient, 1e-4, 10.0, "", 0.4)


def _density(density: float) -> float:
    return within("density", density, 500.0, 1500.0, "kg/m3", 1000.0)
