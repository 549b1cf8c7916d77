"""A machine, a tether and a strike for the tests; invented."""

from __future__ import annotations

from math import radians

from racewright.holding.log_body import Log
from racewright.holding.strike_machine import StruckMachine, blunt_outline, guarded_outline
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_tether import front_tether


def machine(lean: float = 50.0, *, fixed: bool = False) -> StruckMachine:
    """A duct 1.2 m wide; `lean` of its guard in degrees, 0 for none."""
    outline = guarded_outline(0.6, 0.7, radians(lean)) if lean else blunt_outline(0.6, 0.7)
    return StruckMachine(outline, 500.0, 650.0, 120.0, 0.9, 0.9, 100.0, fixed)


def strike(
    *,
    lean: float = 50.0,
    heading: float = 0.0,
    offset: float = 0.3,
    friction: float = 0.3,
    restitution: float = 0.3,
    fixed: bool = False,
    log: Log | None = None,
    speed: float = 2.5,
) -> Strike:
    """Angles in degrees."""
    return Strike(
        log=Log(6.0, 0.3, 800.0) if log is None else log,
        machine=machine(lean, fixed=fixed),
        tether=front_tether(20e3, 450.0 * speed**2, 20.0, 0.3, 9e3),
        stream_speed=speed,
        heading=radians(heading),
        offset=offset,
        friction=friction,
        restitution=restitution,
    )
