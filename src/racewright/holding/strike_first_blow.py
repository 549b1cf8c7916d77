"""The first blow: force at the place struck, for milliseconds, over the published range of contact stiffness."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, pi, sqrt

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.holding.contact_impact import Impact, impact
from racewright.holding.contact_table import ContactStiffness, contact_stiffnesses
from racewright.holding.strike_figure import FIRST, SafetyFigure
from racewright.holding.strike_scene import FRICTION, RESTITUTION, Strike, Touch, first_touch
from racewright.machine.drive_checks import number
from racewright.remark import Remark


@dataclass(frozen=True, slots=True)
class Blow:
    """The first blow with one published stiffness.

    Attributes
    ----------
    stiffness : ContactStiffness
    force : float
        Greatest force along the normal [N].
    half_period : float
        Time in touch of an elastic blow [s].
    duration : float
        Time in touch with the restitution given [s].
    """

    stiffness: ContactStiffness
    force: float
    half_period: float
    duration: float


@dataclass(frozen=True, slots=True)
class FirstBlow:
    """First blow of one log; it has no single force.

    Attributes
    ----------
    force : SafetyFigure
        Range over the published stiffnesses, without a middle value [N].
    blows : tuple of Blow
        One a stiffness, softest first.
    place : str
    effective_mass : float
        m in F = v sqrt(k m), v the closing speed [kg].
    closing_speed : float
        [m/s]
    work : float
        Stored at greatest pressure [J].
    lost : float
        Not given back, by pressure and by friction [J].
    impulse, slip_impulse : float
        Along the normal and along the face, on the log [N s].
    lean, friction_angle : float
        Of the face from square-on, and atan(friction) [rad].
    slides : bool
        The lean passes the angle of friction.
    remarks : tuple of Remark
    """

    force: SafetyFigure
    blows: tuple[Blow, ...]
    place: str
    effective_mass: float
    closing_speed: float
    work: float
    lost: float
    impulse: float
    slip_impulse: float
    lean: float
    friction_angle: float
    slides: bool
    remarks: tuple[Remark, ...]


def first_blow(
    struck: Strike | Touch,
    *,
    friction: float | None = None,
    restitution: float | None = None,
    stiffnesses: tuple[ContactStiffness, ...] | None = None,
) -> FirstBlow:
    """Force of first contact, F = v sqrt(k m), m the reduced mass at the place struck, friction and arms included.

    The tether has no part in it: springs in series would describe a target without mass, several times too low.

    Parameters
    ----------
    struck : Strike or Touch
        A Touch as `first_touch` or `head_on` give it.
    friction, restitution : float, optional
        The strike's own, else 0.4 and 0.3 [-].
    stiffnesses : tuple of ContactStiffness, optional
        The published range, 2.4 and 61 MN/m, when left out.

    Raises
    ------
    NoAnswerError
        When the log passes by, or the friction is so high that the log jams before anything yields.
    """
    found = first_touch(struck) if isinstance(struck, Strike) else struck
    if found is None:
        raise NoAnswerError("The log passes the machine without touching it: there is no blow.")
    if isinstance(struck, Strike):
        friction = struck.friction if friction is None else friction
        restitution = struck.restitution if restitution is None else restitution
    mu = number("Friction", FRICTION if friction is None else friction, 0.0, 1.0)
    e = number("Restitution", RESTITUTION if restitution is None else restitution, 0.0, 1.0)
    table = contact_stiffnesses() if stiffnesses is None else stiffnesses
    if not table:
        raise InputError("a first blow wants at least one contact stiffness")
    one = solve(found, mu, e)
    mass = 2.0 * one.work / found.closing_speed**2
    away = mass * found.slip_speed**2 * found.curvature
    blows = tuple(_blow(k, one.work * found.places, mass / found.places, away, e) for k in table)
    force = SafetyFigure(
        "first-blow force",
        "N",
        min(b.force for b in blows),
        None,
        max(b.force for b in blows),
        "F = v sqrt(k m) with the reduced mass at the place struck; k from " + "; ".join(k.name for k in table),
        "; ".join(dict.fromkeys(k.edition for k in table)),
        FIRST,
    )
    angle = atan(mu)
    slides = found.lean > angle
    return FirstBlow(
        force=force,
        blows=blows,
        place=found.place,
        effective_mass=mass,
        closing_speed=found.closing_speed,
        work=one.work,
        lost=_lost(found, one),
        impulse=one.normal,
        slip_impulse=one.along,
        lean=found.lean,
        friction_angle=angle,
        slides=slides,
        remarks=_remarks(found, slides, mu),
    )


def solve(touch: Touch, friction: float, restitution: float) -> Impact:
    """Routh's impact at a touch.

    Raises
    ------
    NoAnswerError
        When the log jams, or does not approach.
    """
    if touch.closing_speed <= 0.0:
        raise NoAnswerError("The log does not approach the face that it touches: there is no blow.")
    one = Impact(
        *impact(
            touch.closing_speed,
            touch.slip_speed,
            touch.give,
            touch.cross_give,
            touch.slip_give,
            friction,
            restitution,
        )
    )
    if one.jam:
        raise NoAnswerError(
            f"With friction {friction:g} the log jams on the {touch.place} before anything yields; below "
            f"{touch.give / abs(touch.cross_give):.2g} it slides."
        )
    return one


def head_on(log_mass: float, machine_mass: float, speed: float) -> Touch:
    """Touch of two free masses on one line; an infinite `machine_mass` is a rigid mount.

    Parameters
    ----------
    log_mass, machine_mass : float
        With the water that moves with them, > 0 [kg].
    speed : float
        At which they approach, > 0 [m/s].
    """
    m1 = number("The log's mass", log_mass, 1e-3, 1e7, "kg")
    if not machine_mass > 0.0:
        raise InputError(f"the machine's mass is {machine_mass!r} kg; it must be above 0, e.g. 500 kg")
    v = number("The closing speed", speed, 1e-6, 50.0, "m/s")
    give = 1.0 / m1 + 1.0 / machine_mass
    return Touch("middle", (0.0, 0.0), (-1.0, 0.0), 0.0, v, 0.0, give, 0.0, give, False, 0.0, 1, np.zeros(0))


def _blow(stiffness: ContactStiffness, work: float, mass: float, away: float, restitution: float) -> Blow:
    """A rounded end that slides round a corner gives way by itself: `away` is that part of the force [N]."""
    k = stiffness.value
    half = pi * sqrt(mass / k)
    force = sqrt(2.0 * k * work + away * away) - away
    return Blow(stiffness, force, half, 0.5 * half * (1.0 + restitution))


def _lost(touch: Touch, one: Impact) -> float:
    """Kinetic energy before less after, of the relative motion at the place."""
    n, t = one.normal, one.along
    gained = 0.5 * (touch.give * n * n + 2.0 * touch.cross_give * n * t + touch.slip_give * t * t)
    return touch.closing_speed * n - touch.slip_speed * t - gained


def _remarks(touch: Touch, slides: bool, friction: float) -> tuple[Remark, ...]:
    found = [
        Remark(
            "caution",
            "Published contact stiffnesses differ by a factor of 25 and the force by 5: plan for the whole range.",
            "contact stiffness",
        )
    ]
    if not slides:
        found.append(
            Remark(
                "caution",
                f"The {touch.place} leans {touch.lean * 180.0 / pi:.0f} degrees from square-on, less than the "
                f"{atan(friction) * 180.0 / pi:.0f} degrees that friction {friction:g} asks for: a log pressed "
                "against it does not slide off.",
                "lean",
            )
        )
    return tuple(found)
