"""Where the rotor's torque and the drive's torque agree: the speeds the shaft can run at, and the one it meets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.machine.drive_checks import Floats, number, rpm
from racewright.stage.root import bracketed_root
from racewright.stage.rotor_map import RotorMap

Load = Callable[[Floats], Floats]
"""Torque that the drive takes at the rotor shaft [N m] at rotor speeds [rad/s]; NaN where it is not known."""

FINER = 8
"""Steps between two tip-speed ratios of the map when roots are looked for."""


@dataclass(frozen=True)
class Equilibria:
    """Steady rotor speeds at one stream speed.

    Attributes
    ----------
    stream_speed : float
        [m/s]
    rotor_speed : ndarray, shape (n,)
        Speeds where the torques agree, growing [rad/s].
    stable : ndarray of bool, shape (n,)
        True where the rotor's torque falls against the drive's as the shaft speeds up.
    starts : bool
        The standing rotor sets itself turning. True also when the map does not answer at standstill (see remark).
    met : float or None
        Speed reached from standstill: 0 when it does not start, None when the torques do not agree up to the end of
        the map [rad/s].
    remark : str
        What the reader must know, or ''.
    """

    stream_speed: float
    rotor_speed: Floats
    stable: NDArray[np.bool_]
    starts: bool
    met: float | None
    remark: str


def ladder(rotor: RotorMap, stream_speed: float) -> Floats:
    """Rotor speeds [rad/s] at every ratio of the map and between, at one stream speed [m/s]."""
    ratio = rotor.tip_speed_ratio
    steps = np.arange(FINER) / FINER
    fine = (ratio[:-1, None] + np.diff(ratio)[:, None] * steps).ravel()
    return np.append(fine, ratio[-1]) * stream_speed / rotor.tip_radius


def equilibria(
    rotor: RotorMap, stream_speed: float, load: Load, *, breakaway_torque: float = 0.0, corner: float | None = None
) -> Equilibria:
    """All steady speeds at one stream speed.

    Parameters
    ----------
    rotor : RotorMap
    stream_speed : float
        Inside the map [m/s].
    load : callable
        As `Load`.
    breakaway_torque : float
        Torque that must be passed at standstill, >= 0 [N m].
    corner : float, optional
        Rotor speed where the load has a corner (current begins) [rad/s].

    Raises
    ------
    InputError
        For a stream speed outside the map.
    """
    low, high = float(rotor.stream_speed[0]), float(rotor.stream_speed[-1])
    number("The stream speed", stream_speed, low, high, "m/s")
    number("The breakaway torque", breakaway_torque, 0.0, 1e9, "N m")

    def net(speed: Floats) -> Floats:
        found: Floats = rotor.torque_at(stream_speed, speed) - load(speed)
        return found

    speed = ladder(rotor, stream_speed)
    if corner is not None and 0.0 < corner < speed[-1]:
        speed = np.unique(np.append(speed, corner))
    excess = net(speed)
    known = np.isfinite(excess)
    above = known & (excess > 0.0)
    changes = np.flatnonzero(known[:-1] & known[1:] & (above[:-1] != above[1:]))
    roots, stable = np.zeros(0), above[changes]
    if changes.size:
        scale = float(np.max(np.abs(excess[known])))
        roots = bracketed_root(net, speed[changes], speed[changes + 1], tolerance=1e-13 * scale)
    still = float(rotor.torque_at(stream_speed, 0.0)) if speed[0] == 0.0 else np.nan
    answered = bool(np.isfinite(still))
    starts = (still > breakaway_torque and bool(above[0])) if answered else True
    met = _met(roots, stable, starts)
    end = float(speed[known][-1]) if known.any() else 0.0
    remark = _remark(stream_speed, roots, stable, met, end) if answered else _unknown(stream_speed)
    return Equilibria(stream_speed, roots, stable, starts, met, remark)


def _met(roots: Floats, stable: NDArray[np.bool_], starts: bool) -> float | None:
    if not starts:
        return 0.0
    held = roots[stable]
    return float(held[0]) if held.size else None


def _unknown(stream_speed: float) -> str:
    return f"At {stream_speed:.3g} m/s the torque at standstill is not known; the rotor is taken as set turning."


def _remark(stream_speed: float, roots: Floats, stable: NDArray[np.bool_], met: float | None, end: float) -> str:
    held = roots[stable]
    told = f"At {stream_speed:.3g} m/s "
    if met is None:
        told += f"the drive takes less torque than the water gives up to {rpm(end)}"
        return told + ", where what is known of it ends: the rotor runs away."
    if met == 0.0 and held.size:
        return told + f"the rotor does not start by itself; set turning it would run at {rpm(held[-1])}."
    if met == 0.0:
        return told + "the rotor does not turn."
    if held.size > 1:
        others = ", ".join(rpm(value) for value in held[1:])
        return told + f"from standstill the rotor stays at {rpm(met)}; it could also run at {others}."
    return ""
