"""Start-up: the least stream speed that sets the standing rotor turning and does not let it stick on the way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, rpm
from racewright.remark import Remark
from racewright.stage.drive_equilibrium import FINER, Equilibria, Load, equilibria
from racewright.stage.rotor_map import RotorMap

_HALVINGS = 45


@dataclass(frozen=True)
class StartUp:
    """What starting takes.

    Attributes
    ----------
    breakaway_torque : float
        At the rotor shaft: gear friction and cogging x ratio [N m].
    starting_speed : float or None
        Least stream speed at which the standing rotor's torque passes it; None when the map's fastest water does not
        do it or standstill is not answered [m/s].
    running_speed : float or None
        Least stream speed from which on the rotor also runs up to its highest steady speed [m/s].
    sticking_rotor_speed : float or None
        Where it would stick just below that stream speed; None when nothing but breakaway stops it [rad/s].
    remarks : tuple of Remark
    """

    breakaway_torque: float
    starting_speed: float | None
    running_speed: float | None
    sticking_rotor_speed: float | None
    remarks: tuple[Remark, ...]


def start_up(rotor: RotorMap, chain: DriveChain, *, load: Load | None = None) -> StartUp:
    """Judge the start.

    Parameters
    ----------
    rotor : RotorMap
        Answering at tip-speed ratio 0.
    chain : DriveChain
        Its gear friction and cogging hold the rotor at standstill.
    load : callable, optional
        Torque at the rotor shaft while it runs up; `chain.idle_torque` (no current) when left out.

    Notes
    -----
    Cogging counts at standstill only: once turning, its mean over a turn is 0. Waves and eddies, which help a rotor
    off, and weed, which holds it, are left out.
    """
    resisting = load or chain.idle_torque
    breakaway = chain.breakaway_torque
    slow, fast = float(rotor.stream_speed[0]), float(rotor.stream_speed[-1])
    speeds = np.unique(np.concatenate([np.linspace(a, b, FINER + 1) for a, b in pairwise(rotor.stream_speed)]))
    if rotor.tip_speed_ratio[0] != 0.0 or not np.all(np.isfinite(rotor.torque_at(speeds, 0.0))):
        told = "The rotor's torque at standstill is not known everywhere in the map, so the start cannot be judged."
        return StartUp(breakaway, None, None, None, (Remark("caution", told, "start-up"),))

    def at(speed: float) -> Equilibria:
        return equilibria(rotor, speed, resisting, breakaway_torque=breakaway)

    def moves(speed: float) -> bool:
        return float(rotor.torque_at(speed, 0.0)) > breakaway

    def runs(speed: float) -> bool:
        found = at(speed)
        steady = found.rotor_speed[found.stable]
        return found.starts and (steady.size == 0 or found.met == float(steady[-1]))

    starting = _least(speeds, moves)
    running = _least(speeds, runs)
    remarks: list[Remark] = []
    sticking = None
    if starting is None:
        remarks.append(
            Remark(
                "warning",
                f"The standing rotor does not pass the breakaway torque of {breakaway:.3g} N m in water up to "
                f"{fast:.3g} m/s: it must be set turning.",
                "start-up",
            )
        )
    elif starting == slow:
        remarks.append(
            Remark(
                "note", f"The rotor starts in the slowest water of the map, {slow:.3g} m/s, or slower.", "start-up"
            )
        )
    if running is None and starting is not None:
        sticking = at(fast).met
        remarks.append(_sticks(sticking, fast, "up to the fastest water of the map"))
    elif running is not None and running > slow and starting is not None and running > starting * (1.0 + 1e-6):
        below = at(running * (1.0 - 1e-6))
        sticking = below.met
        remarks.append(_sticks(sticking, starting, f"from {starting:.3g} to {running:.3g} m/s"))
    return StartUp(breakaway, starting, running, sticking, tuple(remarks))


def _sticks(rotor_speed: float | None, stream_speed: float, where: str) -> Remark:
    at = "at an unknown speed" if rotor_speed is None else f"near {rpm(rotor_speed)}"
    return Remark("caution", f"The rotor starts but sticks {at} {where}.", "start-up")


def _least(speeds: Floats, holds: Callable[[float], bool]) -> float | None:
    """Least speed from which on `holds` is true at every faster one; None when not at the fastest."""
    ok = [holds(float(speed)) for speed in speeds]
    if not ok[-1]:
        return None
    fails = [i for i, fine in enumerate(ok) if not fine]
    if not fails:
        return float(speeds[0])
    low, high = float(speeds[fails[-1]]), float(speeds[fails[-1] + 1])
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high
