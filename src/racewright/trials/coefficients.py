"""Dimensionless numbers of one reading from its means: the exact algebra, nothing measured."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.trials.rig import Rig
from racewright.water import Water


@dataclass(frozen=True)
class Coefficients:
    """Dimensionless numbers of one reading.

    Attributes
    ----------
    power_coefficient, torque_coefficient, thrust_coefficient : float
        Power over rho A U^3/2, torque over rho A R U^2/2, thrust over rho A U^2/2; A the rotor annulus [-].
    tip_speed_ratio : float
        Omega R / U [-].
    blockage : float
        Area of the blocking circle over that of the channel [-].
    froude_number : float or None
        U over the root of gravity times depth; None under a lid [-].
    chord_reynolds : float
        With the relative speed of the undisturbed stream and the rotor at the chord's radius [-].
    cavitation_number : float or None
        (air pressure + rho g h - vapour pressure) / (rho U^2/2), h down to the top of the rotor; None under a lid,
        where the pressure is not known, as the two below [-].
    cavitation_number_tip, cavitation_number_chord : float or None
        The same on the relative speed at the tip and at the chord's radius, without induction: in a duct the
        faster throat makes it smaller [-].
    frontal_power_coefficient : float
        Power over rho A U^3/2 with A the blocking circle: of the whole machine's frontal area [-].
    """

    power_coefficient: float
    torque_coefficient: float
    thrust_coefficient: float
    tip_speed_ratio: float
    blockage: float
    froude_number: float | None
    chord_reynolds: float
    cavitation_number: float | None
    cavitation_number_tip: float | None
    cavitation_number_chord: float | None
    frontal_power_coefficient: float


def coefficients(
    rig: Rig,
    water: Water,
    stream_speed: float,
    rotor_speed: float,
    torque: float,
    thrust: float,
    depth: float,
    power: float | None = None,
) -> Coefficients:
    """Dimensionless numbers of one reading.

    Parameters
    ----------
    rig : Rig
    water : Water
        At the temperature of the reading.
    stream_speed, rotor_speed : float
        U [m/s] and Omega [rad/s].
    torque, thrust : float
        [N m], [N]
    depth : float
        Of the water [m].
    power : float, optional
        Mean of torque x rotor speed; their product where it is left out [W].

    Raises
    ------
    InputError
        Numbers that are not finite, a speed or depth that is not above 0.

    References
    ----------
    Depth Froude number and cavitation number as in model tests of current turbines, common practice.
    """
    numbers = (stream_speed, rotor_speed, torque, thrust, depth, 0.0 if power is None else power)
    if not all(math.isfinite(v) for v in numbers) or stream_speed <= 0.0 or depth <= 0.0:
        raise InputError(
            f"a reading wants finite numbers with speed and depth above 0; speed {stream_speed!r} m/s and depth "
            f"{depth!r} m were given"
        )
    area, speed2 = rig.annulus_area, stream_speed**2
    pressure = 0.5 * water.density * speed2
    ratio = rotor_speed * rig.tip_radius / stream_speed
    swept = 1.0 + (rotor_speed * rig.chord_radius / stream_speed) ** 2
    top = depth - rig.axis_height - rig.tip_radius
    sigma = (rig.air_pressure + water.density * rig.gravity * top - water.vapour_pressure) / pressure
    shaft = torque * rotor_speed if power is None else power
    return Coefficients(
        power_coefficient=shaft / (pressure * area * stream_speed),
        torque_coefficient=torque / (pressure * area * rig.tip_radius),
        thrust_coefficient=thrust / (pressure * area),
        tip_speed_ratio=ratio,
        blockage=math.pi * rig.blocked_radius**2 / (rig.channel_width * depth),
        froude_number=None if rig.lid else stream_speed / math.sqrt(rig.gravity * depth),
        chord_reynolds=stream_speed * math.sqrt(swept) * rig.chord / water.viscosity,
        cavitation_number=None if rig.lid else sigma,
        cavitation_number_tip=None if rig.lid else sigma / (1.0 + ratio**2),
        cavitation_number_chord=None if rig.lid else sigma / swept,
        frontal_power_coefficient=shaft / (pressure * math.pi * rig.blocked_radius**2 * stream_speed),
    )
