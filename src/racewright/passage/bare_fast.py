"""A bare fast rotor to set a machine beside: Betz blades with swirl, computed by the stage's open-rotor code."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import whole, within
from racewright.errors import NoAnswerError
from racewright.machine.sections import FAMILIES
from racewright.passage.crossing import RowCrossing
from racewright.stage.bare_blades import BareBlades
from racewright.stage.bare_rotor import bare_rotor
from racewright.water import Water

Floats = NDArray[np.float64]

HUB_SHARE = 0.2
"""Hub over tip radius. Common practice, no source [-]."""
THICKNESS = 0.15
"""Over chord. Common practice, no source [-]."""
ZERO_LIFT = math.radians(-4.0)
ATTACK = math.radians(4.0)
"""Cambered sections at an easy angle of attack. Own choice [rad]."""
_ROUNDS = 30


@dataclass(frozen=True, slots=True)
class BareFast:
    """A bare rotor at its design tip-speed ratio.

    Attributes
    ----------
    radius : float
        Of the tip [m].
    tip_speed_ratio, power_coefficient : float
        On the full circle [-].
    shaft_power : float
        [W]
    rotor_speed : float
        [rad/s]
    flow_rate : float
        Through the circle from hub to tip [m3/s].
    crossing : RowCrossing
    """

    radius: float
    tip_speed_ratio: float
    power_coefficient: float
    shaft_power: float
    rotor_speed: float
    flow_rate: float
    crossing: RowCrossing


def betz_blades(radius: float, count: int, tip_speed_ratio: float) -> BareBlades:
    """Blades for the most power with the wake's swirl counted: flow angle 2/3 atan(1/x), x the local speed ratio.

    Chord 8 pi r (1 - cos phi)/(B CL) (Glauert, Schmitz; textbook, from memory), CL = 2 pi sin of the angle from zero
    lift. From 0.2 of the tip radius on.
    """
    place = np.linspace(HUB_SHARE, 1.0, 24) * radius
    flow = 2.0 / 3.0 * np.arctan(radius / (tip_speed_ratio * place))
    lift = 2.0 * math.pi * math.sin(ATTACK - ZERO_LIFT)
    chord = 8.0 * math.pi * place * (1.0 - np.cos(flow)) / (count * lift)
    same = np.ones(place.shape)
    return BareBlades(count, place, chord, flow - ATTACK, THICKNESS * same, ZERO_LIFT * same)


def bare_fast(
    water: Water, stream_speed: float, radius: float, *, count: int = 3, tip_speed_ratio: float = 5.0
) -> BareFast:
    """The rotor of a given tip radius.

    Parameters
    ----------
    water : Water
    stream_speed : float
        0.05 to 20 [m/s].
    radius : float
        0.01 to 50 [m].
    count : int
        Blades, 2 to 6; 3 by default (common practice, no source).
    tip_speed_ratio : float
        3 to 8; 5 by default (common practice, no source) [-].

    Raises
    ------
    InputError
        A value out of range.
    NoAnswerError
        The rotor gives no power.
    """
    within("stream_speed", stream_speed, 0.05, 20.0, "m/s", 2.0)
    within("radius", radius, 0.01, 50.0, "m", 0.6)
    within("tip_speed_ratio", tip_speed_ratio, 3.0, 8.0, "", 5.0)
    whole("count", count, 2, 6, 3)
    blades = betz_blades(radius, count, tip_speed_ratio)
    found = bare_rotor(blades, water, stream_speed, tip_speed_ratio)
    coefficient = float(found.power_coefficient[0])
    if coefficient <= 0.0:
        raise NoAnswerError(f"a bare rotor of {radius:.3g} m radius gives no power at {stream_speed:.3g} m/s")
    axial = stream_speed * (1.0 - found.axial_induction[0])
    turning = tip_speed_ratio * stream_speed / radius
    nothing = np.zeros(found.radius.shape)
    nose = 2.0 * FAMILIES["circular_arc"].nose_radius(THICKNESS)
    crossing = RowCrossing(
        "bare rotor", count, turning, found.radius, axial, nothing, nose * found.chord, nothing + 0.5 * math.pi
    )
    power = 0.5 * water.density * math.pi * radius**2 * stream_speed**3 * coefficient
    flow = float(np.trapezoid(2.0 * math.pi * found.radius * axial, found.radius))
    return BareFast(radius, tip_speed_ratio, coefficient, power, turning, flow, crossing)


def bare_of_power(
    water: Water, stream_speed: float, shaft_power: float, *, count: int = 3, tip_speed_ratio: float = 5.0
) -> BareFast:
    """The rotor that gives `shaft_power` [W] in that stream, within 1e-6; other arguments as `bare_fast`."""
    within("shaft_power", shaft_power, 1e-3, 1e9, "W", 5e3)
    radius = math.sqrt(shaft_power / (0.5 * water.density * math.pi * stream_speed**3 * 0.4))
    for _ in range(_ROUNDS):
        found = bare_fast(water, stream_speed, radius, count=count, tip_speed_ratio=tip_speed_ratio)
        if abs(found.shaft_power / shaft_power - 1.0) <= 1e-6:
            return found
        radius *= math.sqrt(shaft_power / found.shaft_power)
    raise NoAnswerError(f"no bare rotor of {shaft_power:.4g} W was found at {stream_speed:.3g} m/s")
