"""When the weak link parts under standing debris, and where the machine goes then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, log1p, pi, sqrt

from scipy.optimize import brentq

from racewright.errors import InputError
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.strike_figure import HELD, SLOW, SafetyFigure
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis


@dataclass(frozen=True, slots=True)
class WeakLink:
    """The link chosen to part first.

    Parameters
    ----------
    name : str
        E.g. 'shear pin of the front line'.
    capacity : float
        Force along the stream at which it parts, > 0 [N].
    """

    name: str
    capacity: float

    def __post_init__(self) -> None:
        number(f"The capacity of {self.name!r}", self.capacity, 1e-3, 1e10, "N")


@dataclass(frozen=True, slots=True)
class RetainingLine:
    """The line that takes over.

    Parameters
    ----------
    slack : float
        Way downstream until it is taut, >= 0 [m].
    stiffness : float
        Along the stream once taut, > 0 [N/m].
    capacity : float
        > 0 [N].
    """

    slack: float
    stiffness: float
    capacity: float

    def __post_init__(self) -> None:
        number("The retaining line's slack", self.slack, 0.0, 1e4, "m")
        number("The retaining line's stiffness", self.stiffness, 1.0, 1e9, "N/m")
        number("The retaining line's capacity", self.capacity, 1e-3, 1e10, "N")


@dataclass(frozen=True, slots=True)
class Release:
    """What a standing load does to the weak link and after it.

    Attributes
    ----------
    link : str
    load : SafetyFigure
        Force along the stream of machine and debris together [N].
    parts : bool
        The load's upper end passes the link's capacity.
    parting_speed : float
        Stream speed at which the middle load would part the link [m/s].
    where : str
        'held', 'on the retaining line' or 'adrift'.
    drift : float or None
        Way downstream until the retaining line has stopped the machine; None unless it goes there [m].
    rest : float or None
        Way downstream at which it then hangs, middle load [m].
    drift_time : float or None
        Until that line is taut [s].
    drift_speed : float or None
        Of the machine when it is; the stream's when adrift [m/s].
    load_after : SafetyFigure or None
        From the standing load on the retaining line to its greatest tension when it snatches [N].
    remarks : tuple of Remark
    safety : SafetyBasis
        Of speeds and ways: the load's.
    """

    link: str
    load: SafetyFigure
    parts: bool
    parting_speed: float
    where: str
    drift: float | None
    rest: float | None
    drift_time: float | None
    drift_speed: float | None
    load_after: SafetyFigure | None
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def release(
    states: Sequence[DebrisLoad],
    link: WeakLink,
    stream_speed: float,
    machine_drag_area: float,
    mass: float,
    *,
    retaining: RetainingLine | None = None,
    water_density: float = 1000.0,
) -> Release:
    """Load on the weak link, and the machine's way when it parts.

    The freed machine, debris still on it, is carried by quadratic drag: U - v = U/(1 + b U t), b = rho CA/(2 m). The
    retaining line then stops it, integrated with the same drag; the upper end of the load is taken throughout. That
    debris may come free on the way is not counted on.

    Parameters
    ----------
    states : sequence of DebrisLoad
        Debris held at the same time; may be empty.
    link : WeakLink
    stream_speed : float
        > 0 [m/s].
    machine_drag_area : float
        Drag coefficient times area of the machine, >= 0 [m2].
    mass : float
        Of machine and debris with their water, > 0 [kg].
    retaining : RetainingLine, optional
    water_density : float
        [kg/m3]
    """
    u = number("The stream's speed", stream_speed, 1e-3, 20.0, "m/s")
    m = number("The mass", mass, 1.0, 1e9, "kg")
    rho = number("The water's density", water_density, 990.0, 1040.0, "kg/m3")
    own = 0.5 * rho * u * u * number("The machine's drag area", machine_drag_area, 0.0, 1e5, "m2")
    load = _sum(states, own)
    middle = own if load.value is None else load.value
    if middle <= 0.0:
        raise InputError("machine and debris have no drag at all: give a drag area or a load state above 0")
    speed = u * sqrt(link.capacity / middle)
    if load.high <= link.capacity:
        return Release(link.name, load, False, speed, "held", None, None, None, None, None, (), load.safety)
    if retaining is None:
        text = (
            f"{link.name} parts at {link.capacity:.3g} N and nothing else holds: the machine drifts with the stream, "
            f"up to {60.0 * u:.0f} m a minute, towards bridges, weirs and intakes. Fit a second line, tracking and "
            "a shut-off; ask the owners below."
        )
        told = (Remark("warning", text, "adrift"),)
        return Release(link.name, load, True, speed, "adrift", None, None, None, u, None, told, load.safety)
    time, taut = _carried(retaining.slack, u, load.high / (u * u * m))
    snatch = max(load.high, _snatch(taut, u, load.high / (u * u * m), retaining.stiffness, m))
    after = SafetyFigure(
        name="tension of the retaining line",
        unit="N",
        low=load.low,
        value=None,
        high=snatch,
        safety=SafetyBasis(
            "standing load to greatest tension when it snatches, quadratic drag", "own integration", "computed", SLOW
        ),
    )
    return Release(
        link=link.name,
        load=load,
        parts=True,
        parting_speed=speed,
        where="on the retaining line" if snatch <= retaining.capacity else "adrift",
        drift=retaining.slack + snatch / retaining.stiffness,
        rest=retaining.slack + middle / retaining.stiffness,
        drift_time=time,
        drift_speed=taut,
        load_after=after,
        remarks=_remarks(link, retaining, snatch),
        safety=load.safety,
    )


def _sum(states: Sequence[DebrisLoad], own: float) -> SafetyFigure:
    values = [s.along.high if s.along.value is None else s.along.value for s in states]
    named = " and ".join(["machine", *(s.name for s in states)])
    return SafetyFigure(
        name="standing load along the stream",
        unit="N",
        low=own + sum(s.along.low for s in states),
        value=own + sum(values),
        high=own + sum(s.along.high for s in states),
        safety=SafetyBasis(
            f"drag of {named}; shelter of one by another left out",
            "; ".join(dict.fromkeys(s.safety.edition for s in states)) or "own formula",
            "; ".join(dict.fromkeys(s.safety.status for s in states)) or "closed form",
            HELD,
        ),
    )


def _carried(way: float, u: float, b: float) -> tuple[float, float]:
    """Time [s] and speed [m/s] when a freed body has gone `way`; b is drag over mass and speed squared [1/m]."""
    if way <= 0.0:
        return 0.0, 0.0

    def off(t: float) -> float:
        return u * t - log1p(b * u * t) / b - way

    top = way / u + sqrt(2.0 * way / (b * u * u)) + 1.0
    while off(top) < 0.0 and isfinite(top):
        top *= 2.0
    time = float(brentq(off, 0.0, top, xtol=1e-9))
    return time, u - u / (1.0 + b * u * time)


def _snatch(speed: float, u: float, b: float, stiffness: float, mass: float) -> float:
    """Greatest tension of a line that stops a carried body [N]; by Runge-Kutta steps of 1/400 of its period."""
    squared = stiffness / mass
    h = 2.0 * pi / sqrt(squared) / 400.0
    x, v = 0.0, speed

    def pull(x: float, v: float) -> float:
        return b * abs(u - v) * (u - v) - squared * x

    for _ in range(4000):
        a1 = pull(x, v)
        a2 = pull(x + 0.5 * h * v, v + 0.5 * h * a1)
        a3 = pull(x + 0.5 * h * (v + 0.5 * h * a1), v + 0.5 * h * a2)
        a4 = pull(x + h * (v + 0.5 * h * a2), v + h * a3)
        x += h * (v + h * (a1 + a2 + a3) / 6.0)
        v += h * (a1 + 2.0 * a2 + 2.0 * a3 + a4) / 6.0
        if v <= 0.0:
            break
    return stiffness * x


def _remarks(link: WeakLink, line: RetainingLine, snatch: float) -> tuple[Remark, ...]:
    text = (
        f"When {link.name} parts, its line flies back and the machine runs {line.slack:.3g} m before the retaining "
        "line holds: nobody may be within reach of either."
    )
    found = [Remark("warning", text, "weak link")]
    if snatch > line.capacity:
        text = (
            f"The retaining line snatches with up to {snatch:.3g} N, above its {line.capacity:.3g} N: count on the "
            "machine going adrift. Less slack or a softer line lowers it."
        )
        found.append(Remark("warning", text, "retaining line"))
    return tuple(found)
