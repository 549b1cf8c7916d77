"""The slow answer in closed form: tension after the blow, without drag, for the two ends of what contact can be."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from racewright.holding.strike_figure import SLOW, SafetyFigure
from racewright.holding.strike_tether import Tether
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis


@dataclass(frozen=True, slots=True)
class SlowCase:
    """The machine on its tether after a blow.

    Attributes
    ----------
    speed : float
        Of the machine after the blow [m/s].
    lost : float
        Kinetic energy lost in the blow [J].
    rise : float
        Of the tension along the stream, at its greatest [N].
    travel : float
        Downstream until then [m].
    time : float
        Until then [s].
    """

    speed: float
    lost: float
    rise: float
    travel: float
    time: float


@dataclass(frozen=True, slots=True)
class SlowResponse:
    """Slow answer of a machine on its tether.

    Attributes
    ----------
    plastic, elastic : SlowCase
        The log stays at the machine and swings with it; it rebounds fully and the machine swings alone.
    tension : SafetyFigure
        From the smaller to the larger of both, pretension included [N].
    parts : bool
        The larger passes the tether's capacity.
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    plastic: SlowCase
    elastic: SlowCase
    tension: SafetyFigure
    parts: bool
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def slow_response(log_mass: float, machine_mass: float, speed: float, tether: Tether) -> SlowResponse:
    """Line tension seconds after a central blow; the blow itself is `head_on_blow`'s.

    Momentum gives the speed after the blow, plastic m1 V/(m1 + m2) or elastic 2 m1 V/(m1 + m2); the tether's linear
    stiffness along the stream turns it into tension, v sqrt(m k). Drag, which lowers it, is left out, and so is the
    time in contact: beyond a tether stiffness of a twentieth of the contact's this is off by more than 2 %.

    Parameters
    ----------
    log_mass, machine_mass : float
        With the water that moves with them, > 0 [kg].
    speed : float
        Of the log towards the machine, > 0 [m/s].
    tether : Tether
    """
    m1 = number("The log's mass", log_mass, 1e-3, 1e7, "kg")
    m2 = number("The machine's mass", machine_mass, 1e-3, 1e8, "kg")
    v = number("The closing speed", speed, 1e-6, 50.0, "m/s")
    common = m1 * v / (m1 + m2)
    plastic = _case(common, 0.5 * m1 * m2 / (m1 + m2) * v * v, m1 + m2, tether.along)
    elastic = _case(2.0 * common, 0.0, m2, tether.along)
    low, high = sorted((plastic.rise, elastic.rise))
    tension = SafetyFigure(
        name="slow line tension",
        unit="N",
        low=tether.pretension + low,
        value=None,
        high=tether.pretension + high,
        safety=SafetyBasis(
            "momentum, then v sqrt(m k) on the tether; plastic and elastic blow, no drag",
            "own formula",
            "closed form",
            SLOW,
        ),
    )
    parts = tension.high > tether.capacity
    return SlowResponse(plastic, elastic, tension, parts, parting_remarks(tension.high, tether), tension.safety)


def parting_remarks(tension: float, tether: Tether) -> tuple[Remark, ...]:
    """What to say when a tension [N] passes the capacity."""
    if tension <= tether.capacity:
        return ()
    text = (
        f"The line's tension reaches {tension:.3g} N, above the capacity of {tether.capacity:.3g} N: the first link "
        "parts and the machine goes where the rest lets it. Lines fly back; keep clear."
    )
    return (Remark("warning", text, "parting"),)


def _case(speed: float, lost: float, mass: float, stiffness: float) -> SlowCase:
    rise = speed * sqrt(mass * stiffness)
    return SlowCase(speed, lost, rise, rise / stiffness, 0.5 * pi * sqrt(mass / stiffness))
