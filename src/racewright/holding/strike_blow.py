"""What a first blow is made of; it has no single force."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.holding.contact_table import ContactStiffness
from racewright.holding.strike_figure import SafetyFigure
from racewright.remark import Remark
from racewright.safety import SafetyBasis


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
    next_gap : float
        To the next place of touch; where the blow presses deeper than this, that place shares it [m].
    lean, friction_angle : float
        Of the face from square-on, and atan(friction) [rad].
    slides : bool
        The lean passes the angle of friction.
    remarks : tuple of Remark
    safety : SafetyBasis
        Of force, impulse and work.
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
    next_gap: float
    lean: float
    friction_angle: float
    slides: bool
    remarks: tuple[Remark, ...]
    safety: SafetyBasis
