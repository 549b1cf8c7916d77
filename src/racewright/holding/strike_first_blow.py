"""The first blow: force at the place struck, for milliseconds, over the published range of contact stiffness."""

from __future__ import annotations

from math import atan, inf, pi, sqrt

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.holding.contact_impact import Impact, impact
from racewright.holding.contact_table import ContactStiffness, contact_stiffnesses
from racewright.holding.contact_turning import turned_force
from racewright.holding.strike_blow import Blow, FirstBlow
from racewright.holding.strike_figure import FIRST, SafetyFigure
from racewright.holding.strike_scene import RESTITUTION, Strike
from racewright.holding.strike_touch import Touch, first_touch
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis

Table = tuple[ContactStiffness, ...]


def first_blow(strike: Strike, *, stiffnesses: Table | None = None) -> FirstBlow:
    """Force of first contact, F = v sqrt(k m), m the reduced mass at the place struck, friction and arms included.

    Routh's impact, corrected for what the bodies turn and slide meanwhile. The tether has no part in it: springs in
    series would describe a target without mass, several times too low.

    Parameters
    ----------
    strike : Strike
    stiffnesses : tuple of ContactStiffness, optional
        The published range, 2.4 and 61 MN/m, when left out.

    Raises
    ------
    NoAnswerError
        When the log passes by, or the friction is so high that the log jams before anything yields.
    """
    touch = first_touch(strike)
    if touch is None:
        raise NoAnswerError("The log passes the machine without touching it: there is no blow.")
    one = solve(touch, strike.friction, strike.restitution)
    table = _checked(stiffnesses)
    forces = tuple(turned_force(strike, touch, one.work, k.value) for k in table)
    return _blow_of(touch, one, table, forces, strike.friction, strike.restitution)


def head_on_blow(
    log_mass: float,
    machine_mass: float,
    speed: float,
    *,
    restitution: float = RESTITUTION,
    stiffnesses: Table | None = None,
) -> FirstBlow:
    """First blow of two masses on one line.

    Parameters
    ----------
    log_mass, machine_mass : float
        With the water that moves with them, > 0; an infinite machine's mass is a rigid mount [kg].
    speed : float
        At which they approach, > 0 [m/s].
    restitution : float
        0 to 1 [-].
    stiffnesses : tuple of ContactStiffness, optional
        As `first_blow`.
    """
    m1 = number("The log's mass", log_mass, 1e-3, 1e7, "kg")
    if not machine_mass > 0.0:
        raise InputError(f"the machine's mass is {machine_mass!r} kg; it must be above 0, e.g. 500 kg")
    v = number("The closing speed", speed, 1e-6, 50.0, "m/s")
    e = number("Restitution", restitution, 0.0, 1.0)
    give = 1.0 / m1 + 1.0 / machine_mass
    touch = Touch("middle", (0.0, 0.0), (-1.0, 0.0), 0.0, v, 0.0, give, 0.0, give, False, 0, inf, 1, np.zeros(0))
    one, table = solve(touch, 0.0, e), _checked(stiffnesses)
    forces = tuple(sqrt(2.0 * k.value * one.work) for k in table)
    return _blow_of(touch, one, table, forces, 0.0, e)


def solve(touch: Touch, friction: float, restitution: float) -> Impact:
    """Routh's impact at a touch.

    Raises
    ------
    NoAnswerError
        When the log jams, or does not approach.
    """
    if touch.closing_speed <= 0.0:
        raise NoAnswerError("The log does not approach the face that it touches: there is no blow.")
    give = (touch.give, touch.cross_give, touch.slip_give)
    one = Impact(*impact(touch.closing_speed, touch.slip_speed, *give, friction, restitution))
    if one.jam:
        raise NoAnswerError(
            f"With friction {friction:g} the log jams on the {touch.place} before anything yields; below "
            f"{touch.give / abs(touch.cross_give):.2g} it slides."
        )
    return one


def _checked(stiffnesses: Table | None) -> Table:
    table = contact_stiffnesses() if stiffnesses is None else stiffnesses
    if not table:
        raise InputError("a first blow wants at least one contact stiffness")
    for one in table:
        number("A contact stiffness", one.value, 1e3, 1e10, "N/m")
    return table


def _blow_of(
    touch: Touch, one: Impact, table: Table, forces: tuple[float, ...], friction: float, restitution: float
) -> FirstBlow:
    mass = 2.0 * one.work / touch.closing_speed**2
    blows = []
    for k, force in zip(table, forces, strict=True):
        half = pi * sqrt(mass / (k.value * touch.places))
        blows.append(Blow(k, force, half, 0.5 * half * (1.0 + restitution)))
    figure = SafetyFigure(
        name="first-blow force",
        unit="N",
        low=min(forces),
        value=None,
        high=max(forces),
        safety=SafetyBasis(
            "v sqrt(k m), m the reduced mass at the place struck; k of " + " and ".join(k.name for k in table),
            "; ".join(dict.fromkeys(k.edition for k in table)),
            "; ".join(dict.fromkeys(f"{k.name} {k.status}" for k in table)),
            FIRST,
        ),
    )
    angle = atan(friction)
    depth = max(force / k.value for k, force in zip(table, forces, strict=True))
    return FirstBlow(
        force=figure,
        blows=tuple(blows),
        place=touch.place,
        effective_mass=mass,
        closing_speed=touch.closing_speed,
        work=one.work,
        lost=_lost(touch, one),
        impulse=one.normal,
        slip_impulse=one.along,
        next_gap=touch.next_gap,
        lean=touch.lean,
        friction_angle=angle,
        slides=touch.lean > angle,
        remarks=_remarks(touch, touch.lean > angle, friction, depth),
        safety=figure.safety,
    )


def _lost(touch: Touch, one: Impact) -> float:
    """Kinetic energy before less after, of the relative motion at the place."""
    n, t = one.normal, one.along
    gained = 0.5 * (touch.give * n * n + 2.0 * touch.cross_give * n * t + touch.slip_give * t * t)
    return touch.closing_speed * n - touch.slip_speed * t - gained


def _remarks(touch: Touch, slides: bool, friction: float, depth: float) -> tuple[Remark, ...]:
    text = "Published contact stiffnesses differ by a factor of 25 and the force by 5: plan for the whole range."
    found = [Remark("caution", text, "contact stiffness")]
    if not slides:
        text = (
            f"The {touch.place} leans {touch.lean * 180.0 / pi:.0f} degrees from square-on, less than the "
            f"{atan(friction) * 180.0 / pi:.0f} degrees that friction {friction:g} asks for: a log pressed against "
            "it does not slide along it, and comes free only as log or machine turn."
        )
        found.append(Remark("caution", text, "lean"))
    if touch.next_gap < depth:
        text = (
            f"Another place touches {1e3 * touch.next_gap:.0f} mm later, within this blow: the two share it, mostly "
            "with less force at either than said here, but not always. An integrated strike tells."
        )
        found.append(Remark("caution", text, "second place"))
    return tuple(found)
