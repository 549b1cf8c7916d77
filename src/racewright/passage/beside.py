"""The two-row machine beside bare fast rotors, by the same code: who strikes more, faster, and of how many fish."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.machine.duct_contour import duct_contour
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.passage.bare_fast import BareFast, bare_fast, bare_of_power
from racewright.passage.crossing import row_crossings
from racewright.passage.species import FishClass
from racewright.passage.strike import Heading, strike
from racewright.passage.strike_result import Strike
from racewright.stage.result import OperatingPoint
from racewright.water import Water

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Contender:
    """One machine of the comparison, against fish of m lengths.

    Attributes
    ----------
    name : str
        'two-row machine', 'bare rotor of equal power', 'bare rotor of equal outer diameter'.
    outer_radius : float
        Of duct or tip [m].
    shaft_power, flow_rate : float
        [W], [m3/s]
    strike : Strike
    struck_flow : ndarray, shape (m,)
        Flow whose fish are struck, flow rate x chance [m3/s].
    deadly_flow_low, deadly_flow, deadly_flow_high : ndarray, shape (m,)
        Flow whose fish die of strikes [m3/s].
    """

    name: str
    outer_radius: float
    shaft_power: float
    flow_rate: float
    strike: Strike
    struck_flow: Floats
    deadly_flow_low: Floats
    deadly_flow: Floats
    deadly_flow_high: Floats


@dataclass(frozen=True, slots=True)
class Difference:
    """The two-row machine less one bare rotor, over the bare rotor; below 0 speaks for the machine.

    Attributes
    ----------
    against : str
        Name of the bare rotor.
    chance, chance_axial, chance_along : ndarray, shape (m,)
        Of the chance of a strike of a fish that comes in: as headed, body along the axis, body along the water [-].
    death : ndarray, shape (m,)
        Of the screening value of death by strike; 0 where neither kills [-].
    fastest : float
        Of the highest relative speed [-].
    struck_flow, deadly_flow : ndarray, shape (m,)
        Of the flow whose fish are struck, or die [-].
    struck_per_energy, deaths_per_energy : ndarray, shape (m,)
        Of the same for each unit of energy made [-].
    words : str
        Sign and size in a sentence, for the longest fish asked.
    """

    against: str
    chance: Floats
    chance_axial: Floats
    chance_along: Floats
    death: Floats
    fastest: float
    struck_flow: Floats
    deadly_flow: Floats
    struck_per_energy: Floats
    deaths_per_energy: Floats
    words: str


@dataclass(frozen=True, slots=True)
class Beside:
    """The comparison.

    Attributes
    ----------
    contenders : tuple of Contender
        The machine first.
    differences : tuple of Difference
        Against each bare rotor.
    """

    contenders: tuple[Contender, ...]
    differences: tuple[Difference, ...]


def beside_bare(
    unit: Unit,
    vanes: Row,
    blades: Row,
    water: Water,
    point: OperatingPoint,
    fish: FishClass,
    length: ArrayLike,
    *,
    heading: Heading = "worse",
    bare_count: int = 3,
    bare_tip_speed_ratio: float = 5.0,
    bare: tuple[BareFast, BareFast] | None = None,
) -> Beside:
    """Strike in the machine, in a bare rotor of its power, and in one of its outer diameter, in the same stream.

    Differences are told whichever way they go. Only strikes are compared; a bare rotor's pressures and shear are not.

    Parameters
    ----------
    unit, vanes, blades, water, point
        The machine and one of its operating points, with shaft power above 0.
    fish : FishClass
    length : array_like, shape (m,)
        Up to the duct's length [m].
    heading : str
        As in `strike`.
    bare_count, bare_tip_speed_ratio
        Of the bare rotors, as in `bare_fast`.
    bare : tuple of BareFast, optional
        What `bare_rotors` gave for this point, so that several classes share it; computed without it.

    Raises
    ------
    InputError
        The point gives no power; otherwise as `strike` and `bare_fast`.
    """
    if bare is None:
        bare = bare_rotors(unit, water, point, count=bare_count, tip_speed_ratio=bare_tip_speed_ratio)
    equal, wide = bare
    outer = float(duct_contour(unit.duct)[1].max())
    own = strike(
        row_crossings(unit, vanes, blades, point), fish, length, heading=heading, duct_length=unit.duct.length
    )

    def other(name: str, rotor: BareFast) -> Contender:
        struck = strike([rotor.crossing], fish, length, heading=heading)
        return _contender(name, rotor.radius, rotor.shaft_power, rotor.flow_rate, struck)

    machine = _contender("two-row machine", outer, point.shaft_power, point.flow_rate, own)
    others = (other("bare rotor of equal power", equal), other("bare rotor of equal outer diameter", wide))
    return Beside((machine, *others), tuple(_difference(machine, one) for one in others))


def bare_rotors(
    unit: Unit, water: Water, point: OperatingPoint, *, count: int = 3, tip_speed_ratio: float = 5.0
) -> tuple[BareFast, BareFast]:
    """Bare rotors of the point's shaft power and of the duct's outer diameter, in its stream; as `bare_fast`.

    Raises
    ------
    InputError
        The point gives no power.
    """
    if not point.shaft_power > 0.0:
        raise InputError(f"the point gives {point.shaft_power:.4g} W; compare where the machine works", key="point")
    outer = float(duct_contour(unit.duct)[1].max())
    speed = point.stream_speed
    return (
        bare_of_power(water, speed, point.shaft_power, count=count, tip_speed_ratio=tip_speed_ratio),
        bare_fast(water, speed, outer, count=count, tip_speed_ratio=tip_speed_ratio),
    )


def _contender(name: str, outer: float, power: float, flow: float, struck: Strike) -> Contender:
    return Contender(
        name,
        outer,
        power,
        flow,
        struck,
        flow * struck.chance,
        flow * struck.death_low,
        flow * struck.death,
        flow * struck.death_high,
    )


def _difference(machine: Contender, bare: Contender) -> Difference:
    own, other = machine.strike, bare.strike
    worth = bare.shaft_power / machine.shaft_power
    chance = _less(own.chance, other.chance)
    struck = _less(machine.struck_flow, bare.struck_flow)
    speed = float(own.fastest / other.fastest - 1.0)
    deaths = _less(machine.deadly_flow, bare.deadly_flow)
    last = int(np.argmax(own.length))
    return Difference(
        against=bare.name,
        chance=chance,
        chance_axial=_less(_any(own, "mean_axial"), _any(other, "mean_axial")),
        chance_along=_less(_any(own, "mean_along"), _any(other, "mean_along")),
        death=_less(own.death, other.death),
        fastest=speed,
        struck_flow=struck,
        deadly_flow=deaths,
        struck_per_energy=_less(machine.struck_flow * worth, bare.struck_flow),
        deaths_per_energy=_less(machine.deadly_flow * worth, bare.deadly_flow),
        words=(
            f"For fish of {own.length[last]:.2g} m, against the {bare.name}: chance of a strike "
            f"{_said(chance[last])}, fastest edge {_said(speed)}, fish struck of a stream that carries them evenly "
            f"{_said(struck[last])}, fish killed (screening) {_said(deaths[last])}."
        ),
    )


def _any(struck: Strike, name: str) -> Floats:
    free = np.ones(struck.length.shape)
    for one in struck.rows:
        free = free * (1.0 - getattr(one, name))
    return 1.0 - free


def _less(own: Floats, other: Floats) -> Floats:
    """own/other - 1; 0 where both are 0."""
    same = (own == 0.0) & (other == 0.0)
    return np.asarray(np.where(same, 0.0, own / np.where(same, 1.0, np.maximum(other, 1e-12)) - 1.0))


def _said(part: float) -> str:
    if abs(part) < 5e-3:
        return "the same"
    return f"{100.0 * abs(part):.0f} % {'higher' if part > 0.0 else 'lower'}"
