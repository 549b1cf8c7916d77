"""Ways to choose the rotor's speed below rated power: torque law, fixed speed, battery."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.machine.drive_battery import Battery, battery_line
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, number
from racewright.machine.drive_line import LineGenerator
from racewright.stage.drive_equilibrium import Load, equilibria
from racewright.stage.rotor_map import RotorMap, rotor_loads


@dataclass(frozen=True)
class TorqueLaw:
    """Torque at the rotor shaft = factor x rotor speed squared.

    Attributes
    ----------
    factor : float
        > 0 [N m s2/rad2].
    """

    factor: float

    def __post_init__(self) -> None:
        number("The torque law's factor", self.factor, 1e-12, 1e15, "N m s2/rad2")


@dataclass(frozen=True)
class FixedSpeed:
    """The rotor's speed does not change.

    Attributes
    ----------
    rotor_speed : float
        > 0 [rad/s].
    """

    rotor_speed: float

    def __post_init__(self) -> None:
        number("The fixed rotor speed", self.rotor_speed, 1e-6, 1e6, "rad/s")


@dataclass(frozen=True)
class BatteryLaw:
    """The generator works straight onto a battery; the speed is what comes of it.

    Attributes
    ----------
    battery : Battery
    generator : PermanentMagnet or GeneratorTable
        The same generator as in the drive.
    """

    battery: Battery
    generator: LineGenerator


Law = TorqueLaw | FixedSpeed | BatteryLaw


@dataclass(frozen=True)
class LawSpeed:
    """Rotor speed that a law comes to at one stream speed.

    Attributes
    ----------
    rotor_speed : float or None
        None where there is no such speed [rad/s].
    remark : str
        Why not, or what the reader must know; else ''.
    """

    rotor_speed: float | None
    remark: str


def torque_law(rotor: RotorMap, tip_speed_ratio: float, stream_speed: float) -> TorqueLaw:
    """The law that holds a tip-speed ratio: factor = torque / (ratio x U / R)^2.

    Where the torque coefficient changes with stream speed (Reynolds number) the ratio is met at `stream_speed` and
    drifts a little elsewhere.

    Parameters
    ----------
    rotor : RotorMap
    tip_speed_ratio : float
        To be held, > 0 [-].
    stream_speed : float
        Where it is met [m/s].
    """
    number("The tip-speed ratio", tip_speed_ratio, 1e-3, 100.0)
    turning = tip_speed_ratio * stream_speed / rotor.tip_radius
    return TorqueLaw(float(rotor_loads(rotor, stream_speed, turning).torque[0]) / turning**2)


def law_load(law: TorqueLaw | BatteryLaw, chain: DriveChain) -> Load:
    """Torque that the law takes at the rotor shaft, over rotor speed."""
    if isinstance(law, TorqueLaw):
        factor = law.factor
        return lambda speed: factor * speed**2

    def line(speed: Floats) -> Floats:
        points = battery_line(law.generator, law.battery, chain.gear.ratio * speed)
        return np.where(points.answered, chain.gear.rotor_torque(points.torque), np.nan)

    return line


def charging_speed(law: BatteryLaw, chain: DriveChain, fastest: float) -> float | None:
    """Rotor speed where current begins to flow; None if not up to `fastest` [rad/s]."""

    def flows(speed: float) -> bool:
        return bool(battery_line(law.generator, law.battery, np.array([chain.gear.ratio * speed])).current[0] > 0.0)

    if not flows(fastest):
        return None
    low, high = 0.0, fastest
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if flows(middle) else (middle, high)
    return high


def law_speed(rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float) -> LawSpeed:
    """Rotor speed under a law, reached from standstill, at one stream speed inside the map [m/s].

    Notes
    -----
    Under the torque law the drive waits until the rotor turns freely before it takes torque, so that gear friction
    and cogging are for `start_up` to judge; on a battery they count here, for nothing waits.
    """
    if isinstance(law, FixedSpeed):
        answers = rotor.surfaces["torque"].answers(np.array(stream_speed), rotor.ratio(stream_speed, law.rotor_speed))
        told = "" if answers else f"At {stream_speed:.3g} m/s the map does not answer at the fixed rotor speed."
        return LawSpeed(law.rotor_speed if answers else None, told)
    load = law_load(law, chain)
    if isinstance(law, TorqueLaw):
        found = equilibria(rotor, stream_speed, load)
        fast = found.rotor_speed[found.stable]
        return LawSpeed(float(fast[-1]), "") if fast.size else LawSpeed(None, found.remark)
    corner = charging_speed(law, chain, float(rotor.fastest_ratio * stream_speed / rotor.tip_radius))
    found = equilibria(rotor, stream_speed, load, breakaway_torque=chain.breakaway_torque, corner=corner)
    return LawSpeed(found.met, found.remark)
