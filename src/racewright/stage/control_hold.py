"""Holding rated power at one stream speed by slowing the rotor, by speeding it up, or by dumping what is too much."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from racewright.errors import InputError
from racewright.machine.drive_battery import battery_line
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, number, rpm
from racewright.stage.control_law import BatteryLaw, Law, TorqueLaw
from racewright.stage.drive_equilibrium import ladder
from racewright.stage.root import bracketed_root
from racewright.stage.rotor_map import RotorMap

Hold = Literal["slow", "speed up", "dump"]
_CLOSE = 1e-6
"""Share of rated power that a held point may miss; more means the generator's knowledge ends there."""


@dataclass(frozen=True)
class Limits:
    """What drive and rotor must not pass.

    Attributes
    ----------
    rated_power : float
        Electrical power that is not passed on, > 0 [W].
    torque : float
        Largest torque at the rotor shaft; inf when there is no limit [N m].
    rotor_speed : float
        Largest rotor speed; inf when there is no limit [rad/s].
    """

    rated_power: float
    torque: float = math.inf
    rotor_speed: float = math.inf

    def __post_init__(self) -> None:
        number("Rated power", self.rated_power, 1e-3, 1e9, "W")
        for name, value in (("torque", self.torque), ("rotor speed", self.rotor_speed)):
            if not value > 0.0:
                raise InputError(
                    f"The limit of {name} is {value:g}; it must lie above 0, or be infinite for no limit."
                )


@dataclass(frozen=True)
class Held:
    """A held point.

    Attributes
    ----------
    rotor_speed : float
        [rad/s]; that of the law where no speed holds rated power.
    dumped : bool
        True when power above the rated is made and must be dumped.
    reason : str
        Why rated power is not held within the limits; '' when it is.
    """

    rotor_speed: float
    dumped: bool
    reason: str


def electrical_power(
    rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float, rotor_speed: Floats
) -> Floats:
    """Electrical power [W] at rotor speeds [rad/s]; inf where the generator cannot take the rotor's power, NaN where
    the map does not answer."""
    torque = rotor.torque_at(stream_speed, rotor_speed)
    known = np.isfinite(torque)
    if isinstance(law, BatteryLaw):
        line = battery_line(law.generator, law.battery, chain.gear.ratio * rotor_speed)
        power, answered = line.battery_power, line.answered
    else:
        output = chain.output(np.where(known, torque, 0.0), rotor_speed)
        power, answered = output.electrical_power, output.answered
    return np.where(known, np.where(answered, power, np.inf), np.nan)


def hold(
    rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float, on_law: float, how: Hold, limits: Limits
) -> Held:
    """Hold rated power where the law would make more.

    Parameters
    ----------
    rotor, chain, law
    stream_speed : float
        Inside the map [m/s].
    on_law : float
        Rotor speed of the law there, at which electrical power is above rated [rad/s].
    how : {'slow', 'speed up', 'dump'}
    limits : Limits

    Notes
    -----
    Slowing is refused where the rotor's own torque rises with speed (stall): no steady generator torque holds it
    there. It is also refused when any torque between the law's speed and the held one passes the limit: the generator
    must overcome that torque to come back from a gust.
    """
    if how == "dump":
        return Held(on_law, True, _dump_reason(rotor, chain, law, stream_speed, on_law, limits))
    if not isinstance(law, TorqueLaw):
        fixed = "the battery fixes the rotor's speed" if isinstance(law, BatteryLaw) else "the rotor's speed is fixed"
        return Held(on_law, True, fixed)
    found = _crossing(rotor, chain, law, stream_speed, on_law, how, limits.rated_power)
    if found is None:
        end = "slowest" if how == "slow" else "fastest"
        return Held(
            on_law, True, f"power stays above rated, or above what the generator takes, to the {end} speed known"
        )
    speed, exact = found
    if not exact:
        return Held(speed, False, "the generator cannot take the torque on the way there")
    return Held(speed, False, _speed_reason(rotor, stream_speed, on_law, speed, how, limits))


def _crossing(
    rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float, on_law: float, how: Hold, rated: float
) -> tuple[float, bool] | None:
    """Rotor speed nearest to the law's where power falls to rated, on the side of `how`; and whether exactly."""
    steps = ladder(rotor, stream_speed)
    side = steps[steps < on_law][::-1] if how == "slow" else steps[steps > on_law]
    steps = np.concatenate([[on_law], side])
    power = electrical_power(rotor, chain, law, stream_speed, steps)
    first = int(np.argmax(~(power > rated)))
    if power[first] > rated or not np.isfinite(power[first]):
        return None

    def excess(speed: Floats) -> Floats:
        made = electrical_power(rotor, chain, law, stream_speed, speed)
        return np.where(np.isfinite(made), made, 1e3 * rated) - rated

    ends = steps[first - 1 : first + 1]
    root = bracketed_root(excess, ends[:1], ends[1:], tolerance=1e-10 * rated)
    return float(root[0]), bool(abs(excess(root)[0]) <= _CLOSE * rated)


def _speed_reason(
    rotor: RotorMap, stream_speed: float, on_law: float, speed: float, how: Hold, limits: Limits
) -> str:
    if how == "speed up":
        if speed > limits.rotor_speed:
            return f"the rotor would turn at {rpm(speed)}, above its limit of {rpm(limits.rotor_speed)}"
        return ""
    way = np.linspace(speed, on_law, 33)
    torque = rotor.torque_at(stream_speed, way)
    most = float(np.nanmax(torque))
    if most > limits.torque:
        return f"slowing takes a torque of {most:.4g} N m, above the limit of {limits.torque:.4g} N m"
    step = 1e-4 * on_law
    if float(rotor.torque_at(stream_speed, speed + step)) > float(rotor.torque_at(stream_speed, speed)):
        return "stall: the rotor's torque rises with its speed there, so a steady generator torque does not hold it"
    return ""


def _dump_reason(
    rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float, on_law: float, limits: Limits
) -> str:
    if np.isinf(electrical_power(rotor, chain, law, stream_speed, np.array([on_law]))[0]):
        return "the generator cannot take the rotor's power"
    torque = float(rotor.torque_at(stream_speed, on_law))
    if torque > limits.torque:
        return f"the torque is {torque:.4g} N m, above the limit of {limits.torque:.4g} N m"
    if on_law > limits.rotor_speed:
        return f"the rotor turns at {rpm(on_law)}, above its limit of {rpm(limits.rotor_speed)}"
    return ""
