"""Small closed forms of floating and held bodies: metacentre, tanks, pitch and roll on one point, periods."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import NoAnswerError
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis

DEPTH_FROUDE_LIMIT = 0.5
"""Depth Froude number above which the surface answers to the machine (common practice, no source) [-]."""


@dataclass(frozen=True, slots=True)
class Metacentre:
    """Upright stability of a floating pontoon.

    Attributes
    ----------
    over_buoyancy : float
        BM, waterplane's second moment over volume [m].
    over_weight : float
        GM, less free surfaces; negative capsizes [m].
    safety : SafetyBasis
    """

    over_buoyancy: float
    over_weight: float
    safety: SafetyBasis


_PONTOON = SafetyBasis(
    "GM = KB + I/V - KG - free surfaces, box-shaped hulls",
    "closed form",
    "closed form",
    "Upright, small heel, still water, lines not counted. Waves, water in the hull, people and lifting move the "
    "limits; a naval architect and the local rules decide.",
)


def pontoon(
    hull_length: float,
    hull_beam: float,
    draught: float,
    centre_of_weight: float,
    *,
    hulls: int = 1,
    apart: float = 0.0,
    free_surface_loss: float = 0.0,
) -> Metacentre:
    """Metacentric height of a box or of two equal boxes: GM = KB + I/V - KG - loss, KB half the draught.

    Parameters
    ----------
    hull_length, hull_beam, draught : float
        Of one hull, > 0 [m].
    centre_of_weight : float
        KG, over the keel [m].
    hulls : int
        1 or 2.
    apart : float
        Between the two hulls' middles, >= one beam [m].
    free_surface_loss : float
        As `free_surface_loss`, default 0 [m].
    """
    for name, value in (("length", hull_length), ("beam", hull_beam), ("draught", draught)):
        number(f"The hull's {name}", value, 1e-3, 1e3, "m")
    number("The count of hulls", hulls, 1, 2)
    number("The hulls' distance", apart, hull_beam if hulls == 2 else 0.0, 1e3, "m")
    number("The centre of weight", centre_of_weight, -100.0, 100.0, "m")
    number("The free surface loss", free_surface_loss, 0.0, 100.0, "m")
    second = hulls * (hull_length * hull_beam**3 / 12.0 + hull_length * hull_beam * (0.5 * apart) ** 2 * (hulls - 1))
    over = second / (hulls * hull_length * hull_beam * draught)
    return Metacentre(over, 0.5 * draught + over - centre_of_weight - free_surface_loss, _PONTOON)


def free_surface_loss(tank_length: float, tank_width: float, volume: float, density_ratio: float = 1.0) -> float:
    """Loss of metacentric height by liquid that moves in a tank, i/V [m].

    Parameters
    ----------
    tank_length, tank_width : float
        Width across the axis of heel [m].
    volume : float
        Displaced by the whole float [m3].
    density_ratio : float
        Liquid over water, default 1 [-].
    """
    number("The displaced volume", volume, 1e-6, 1e6, "m3")
    number("The tank's length", tank_length, 0.0, 1e3, "m")
    number("The tank's width", tank_width, 0.0, 1e3, "m")
    return number("The density ratio", density_ratio, 0.0, 20.0) * tank_length * tank_width**3 / 12.0 / volume


def natural_period(mass: float, stiffness: float) -> float:
    """Period of a mass, added mass in it, on a spring: 2 pi sqrt(m/k) [s].

    Parameters
    ----------
    mass : float
        > 0 [kg]
    stiffness : float
        > 0 [N/m]
    """
    number("The mass", mass, 1e-9, 1e12, "kg")
    return 2.0 * math.pi * math.sqrt(mass / number("The stiffness", stiffness, 1e-9, 1e15, "N/m"))


def depth_froude(stream_speed: float, depth: float, gravity: float = 9.80665) -> tuple[float, tuple[Remark, ...]]:
    """U/sqrt(g h) [-], with a caution above `DEPTH_FROUDE_LIMIT`.

    Parameters
    ----------
    stream_speed : float
        >= 0 [m/s]
    depth : float
        > 0 [m]
    gravity : float
        [m/s2]
    """
    number("The stream speed", stream_speed, 0.0, 100.0, "m/s")
    found = stream_speed / math.sqrt(number("The depth", depth, 1e-3, 1e5, "m") * gravity)
    if found <= DEPTH_FROUDE_LIMIT:
        return found, ()
    text = f"Depth Froude number {found:.2f}: the surface drops over and behind the machine; cover shrinks."
    return found, (Remark("caution", text, "depth Froude number"),)


def held_pitch(
    buoyancy: float,
    weight: float,
    drag: float,
    centre_of_buoyancy: tuple[float, float],
    centre_of_weight: tuple[float, float],
    drag_centre: tuple[float, float],
) -> float:
    """Nose-up pitch of a submerged body held at one point, drag constant along the stream [rad].

    tan(pitch) = (W xG - B xB + D zD)/(B zB - W zG + D xD), x from inlet to exit (downstream), from the held point.

    Parameters
    ----------
    buoyancy, weight, drag : float
        [N]
    centre_of_buoyancy, centre_of_weight, drag_centre : tuple of float
        x and z from the held point, body axes [m].

    Raises
    ------
    NoAnswerError
        The balance would not be stable (denominator not above 0).
    """
    (xb, zb), (xg, zg), (xd, zd) = centre_of_buoyancy, centre_of_weight, drag_centre
    righting = buoyancy * zb - weight * zg + drag * xd
    if righting <= 0.0:
        raise NoAnswerError(
            f"The body has no stable pitch: its righting moment is {righting:.3g} N m per unit tangent. Put buoyancy "
            "higher, weight lower, or the held point further ahead of the drag."
        )
    return math.atan2(weight * xg - buoyancy * xb + drag * zd, righting)


def held_roll(
    roll_moment: float, buoyancy: float, weight: float, buoyancy_height: float, weight_height: float
) -> float:
    """Roll of a submerged body held on its roll axis: sin(roll) = moment/(B zB - W zG) [rad].

    Parameters
    ----------
    roll_moment : float
        [N m]
    buoyancy, weight : float
        [N]
    buoyancy_height, weight_height : float
        Of the centres over the held axis, body axes [m].

    Raises
    ------
    NoAnswerError
        No balance: the body capsizes.
    """
    righting = buoyancy * buoyancy_height - weight * weight_height
    if righting <= 0.0 or abs(roll_moment) > righting:
        raise NoAnswerError(
            f"No roll balance: a moment of {roll_moment:.4g} N m against at most {max(righting, 0.0):.4g} N m. The "
            "body capsizes; widen the bridle, add ballast below, or balance the moment."
        )
    return math.asin(roll_moment / righting)
