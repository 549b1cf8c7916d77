"""Forms of flood and bridge codes for the blow of a log, as named estimates; none knows a yielding machine."""

from __future__ import annotations

from math import pi, sqrt

from racewright.errors import InputError
from racewright.machine.drive_checks import number

GRAVITY = 9.80665
FOOT = 0.3048
POUND_FORCE = 4.4482216152605

IMPORTANCE = (0.6, 1.0, 1.2, 1.3)
"""Importance coefficient by risk class I to IV (ASCE 7-05 table C5-1; from memory, 85 %) [-]."""
ORIENTATION = 0.8
"""Orientation coefficient (ASCE 7-05 C5.4.5; from memory, 85 %) [-]."""
STOPPING_DISTANCE = {"solid concrete": 0.075, "hollow concrete": 0.15, "timber": 0.30}
"""Australian bridge practice (AS 5100 and before it; from memory, 75 %) [m]."""


def rigid_mount(mass: float, speed: float, stiffness: float) -> float:
    """F = V sqrt(k m): a log on a linear spring against something that does not move [N]; [kg], [m/s], [N/m]."""
    m, v, k = _mass(mass), _speed(speed), number("The stiffness", stiffness, 1.0, 1e12, "N/m")
    return v * sqrt(k * m)


def series_form(mass: float, speed: float, stiffness: float, tether_stiffness: float) -> float:
    """Springs of contact and tether in series: right only for a target without mass, never for a machine [N]."""
    k = number("The stiffness", stiffness, 1.0, 1e12, "N/m")
    kt = number("The tether's stiffness", tether_stiffness, 1.0, 1e12, "N/m")
    return rigid_mount(mass, speed, k * kt / (k + kt))


def impulse_form(mass: float, speed: float, stopping_time: float) -> float:
    """F = (pi/2) m V / t, t the time to stop, a quarter of the period of half a sine's push [N]; [kg], [m/s], [s]."""
    return 0.5 * pi * mean_stopping_form(mass, speed, stopping_time)


def mean_stopping_form(mass: float, speed: float, stopping_time: float) -> float:
    """F = m V / t, the mean while a log is stopped; half a second in old flood codes [N]; [kg], [m/s], [s]."""
    return _mass(mass) * _speed(speed) / number("The stopping time", stopping_time, 1e-5, 100.0, "s")


def energy_form(mass: float, speed: float, distance: float) -> float:
    """F = m V^2 / (2 x): constant force over a stopping distance [N]; [kg], [m/s], [m]."""
    return 0.5 * _mass(mass) * _speed(speed) ** 2 / number("The stopping distance", distance, 1e-5, 100.0, "m")


def flood_impulse(
    weight: float,
    speed: float,
    *,
    importance: float = 1.0,
    orientation: float = ORIENTATION,
    depth: float = 1.0,
    blockage: float = 1.0,
    response: float = 1.0,
    time: float = 0.03,
    gravity: float = GRAVITY,
) -> float:
    """F = pi W V CI CO CD CB Rmax / (2 g t) (ASCE 7-05 C5.4.5; form from memory, 95 %) [N].

    Parameters
    ----------
    weight : float
        Of the object, 1000 lbf by default of the code [N].
    speed : float
        Of the object, taken as the water's [m/s].
    importance, orientation, depth, blockage, response : float
        CI, CO, CD, CB, Rmax [-].
    time : float
        Of the impact, 0.03 s in the code [s].
    gravity : float
        The code's 32.2 ft/s2 or the standard value [m/s2].
    """
    coefficients = 1.0
    for name, one in (("CI", importance), ("CO", orientation), ("CD", depth), ("CB", blockage), ("Rmax", response)):
        coefficients *= number(f"The coefficient {name}", one, 0.0, 3.0)
    w = number("The weight", weight, 1e-2, 1e9, "N")
    moment = w / number("Gravity", gravity, 9.0, 10.0, "m/s2") * _speed(speed)
    return 0.5 * pi * moment * coefficients / number("The time of impact", time, 1e-4, 10.0, "s")


def depth_coefficient(depth: float) -> float:
    """CD: 0 below 1 ft of water, a quarter more each ft, 1 from 5 ft on (ASCE 7-05 table C5-2; memory, 85 %); [m]."""
    return min(max((number("The depth", depth, 0.0, 1e4, "m") / FOOT - 1.0) * 0.25, 0.0), 1.0)


def blockage_coefficient(open_path: float) -> float:
    """CB: 0 sheltered, to 1 with an open path over 30 ft, linear between (table C5-3; memory, 85 %); [m]."""
    return min(number("The open path", open_path, 0.0, 1e5, "m") / (30.0 * FOOT), 1.0)


def coastal_form(weight: float, speed: float, depth: float, blockage: float, structure: float) -> float:
    """F = W V CD CB CStr, V in ft/s (FEMA P-55 vol. II eq. 8.9, 2011; from memory, 85 %) [N]; [N], [m/s]."""
    product = number("CD", depth, 0.0, 1.0) * number("CB", blockage, 0.0, 1.0) * number("CStr", structure, 0.0, 2.0)
    return number("The weight", weight, 1e-2, 1e9, "N") * _speed(speed) / FOOT * product


def tsunami_refuge_form(
    mass: float, speed: float, stiffness: float, *, added: float = 0.0, edition: int = 2
) -> float:
    """F = 1.3 u sqrt(k m (1 + c)) (FEMA P-646, 2nd ed. 2012; factor 2.0 in the 1st, 2008; memory, 85 %) [N].

    Raises
    ------
    InputError
        For another edition than 1 or 2.
    """
    if edition not in (1, 2):
        raise InputError(f"edition {edition!r} of the refuge guidance is not known: 1 or 2")
    m = _mass(mass) * (1.0 + number("The added mass over the mass", added, 0.0, 2.0))
    return (1.3 if edition == 2 else 2.0) * rigid_mount(m, speed, stiffness)


def tsunami_chapter(mass: float, speed: float, stiffness: float, *, orientation: float = 0.65) -> tuple[float, float]:
    """Nominal force u sqrt(k m) times Co [N], and its duration 2 m u / F [s] (ASCE 7-16 6.11; from memory, 90 %)."""
    nominal = rigid_mount(mass, speed, stiffness)
    return nominal * number("Co", orientation, 0.0, 1.0), 2.0 * mass * speed / nominal


def elastic_bar(diameter: float, speed: float, modulus: float, density: float) -> float:
    """F = V A sqrt(E rho), end-on while the wave travels along the log [N]; [m], [m/s], [Pa], [kg/m3]."""
    area = 0.25 * pi * number("The diameter", diameter, 1e-3, 10.0, "m") ** 2
    e, rho = number("The modulus", modulus, 1e6, 1e12, "Pa"), number("The density", density, 100.0, 2000.0, "kg/m3")
    return _speed(speed) * area * sqrt(e * rho)


def ice_crushing(thickness: float, width: float, strength: float) -> float:
    """F = sqrt(5 t/w + 1) p t w (AASHTO LRFD 3.9; from memory, 85 %; p 0.38 to 1.53 MPa) [N]; [m], [m], [Pa]."""
    t, w = number("The ice's thickness", thickness, 1e-3, 10.0, "m"), number("The width", width, 1e-2, 1e3, "m")
    return sqrt(5.0 * t / w + 1.0) * number("The ice's strength", strength, 1e4, 1e8, "Pa") * t * w


def _mass(mass: float) -> float:
    return number("The log's mass", mass, 1e-3, 1e7, "kg")


def _speed(speed: float) -> float:
    return number("The log's speed", speed, 1e-6, 50.0, "m/s")
