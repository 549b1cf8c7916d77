"""What torque weighs and costs: direct drive, or gear and fast generator."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.machine.drive_checks import Floats, filled, growing, number
from racewright.uncertainty import Band


@dataclass(frozen=True)
class MassLine:
    """Mass over torque of one kind of part, and what a kilogram costs.

    Attributes
    ----------
    torque : ndarray, shape (n,)
        Growing, > 0 [N m].
    low, high : ndarray, shape (n,)
        Specific mass, > 0 [kg/(N m)].
    cost_low, cost_high : float
        Cost of a kilogram, >= 0 [currency/kg].
    currency : str
        Label of that cost.
    basis : str
        Status and source.
    """

    torque: Floats
    low: Floats
    high: Floats
    cost_low: float
    cost_high: float
    currency: str
    basis: str

    def __post_init__(self) -> None:
        torque = growing("The mass line's torque", self.torque)
        low = filled("The mass line's low", self.low, torque.shape)
        high = filled("The mass line's high", self.high, torque.shape)
        if np.any(low <= 0.0) or np.any(high < low) or torque[0] <= 0.0:
            raise InputError("A mass line wants torque and specific mass above 0, and low not above high.")
        number("The low cost of a kilogram", self.cost_low, 0.0, 1e9)
        number("The high cost of a kilogram", self.cost_high, self.cost_low, 1e9)

    def mass(self, torque: float) -> Band:
        """Mass [kg] of a part for a continuous torque [N m]; the middle is the geometric mean.

        Raises
        ------
        InputError
            Outside the line's torques.
        """
        wanted = number("The torque", torque, float(self.torque[0]), float(self.torque[-1]), "N m")
        at, line = math.log(wanted), np.log(self.torque)
        low, high = (wanted * math.exp(float(np.interp(at, line, np.log(side)))) for side in (self.low, self.high))
        return Band(low, math.sqrt(low * high), high, self.basis)

    def cost(self, mass: Band) -> Band:
        """Cost [currency] of a mass [kg]: low by low, high by high; the middle is the geometric mean."""
        low, high = mass.low * self.cost_low, mass.high * self.cost_high
        return Band(low, math.sqrt(low * high), high, self.basis)


@dataclass(frozen=True)
class DriveMass:
    """Mass and cost of one way of turning torque into electricity.

    Attributes
    ----------
    name : {'direct drive', 'gear and generator'}
    torque : float
        Continuous torque at the rotor shaft [N m].
    ratio : float
        Gear ratio, 1 for the direct drive [-].
    mass : Band
        Of generator and gear [kg].
    cost : Band
        Of generator and gear [currency].
    currency : str
        Label of the cost.
    """

    name: str
    torque: float
    ratio: float
    mass: Band
    cost: Band
    currency: str


def direct_drive_mass(torque: float, *, line: MassLine | None = None) -> DriveMass:
    """A generator at rotor speed.

    Parameters
    ----------
    torque : float
        Continuous torque at the rotor shaft, 1 to 1e7 with the packaged line [N m].
    line : MassLine, optional
        In place of `mass_line('direct_drive')`.
    """
    used = line or mass_line("direct_drive")
    mass = used.mass(torque)
    return DriveMass("direct drive", torque, 1.0, mass, used.cost(mass), used.currency)


def geared_mass(
    torque: float, ratio: float, *, gear: MassLine | None = None, generator: MassLine | None = None
) -> DriveMass:
    """A gear and a fast generator.

    Parameters
    ----------
    torque : float
        Continuous torque at the rotor shaft [N m].
    ratio : float
        Gear ratio, above 1 to 500 [-].
    gear, generator : MassLine, optional
        In place of `mass_line('gear')` and `mass_line('fast_generator')`; one currency.
    """
    number("The gear ratio", ratio, 1.0, 500.0)
    first, second = gear or mass_line("gear"), generator or mass_line("fast_generator")
    if first.currency != second.currency:
        raise InputError(f"Gear and generator are priced in {first.currency} and {second.currency}; wanted is one.")
    box, fast = first.mass(torque), second.mass(torque / ratio)
    return DriveMass(
        "gear and generator",
        torque,
        ratio,
        _sum(box, fast),
        _sum(first.cost(box), second.cost(fast)),
        first.currency,
    )


@cache
def mass_line(name: str) -> MassLine:
    """The packaged line of 'direct_drive', 'gear' or 'fast_generator'."""
    data = _packaged()
    if name not in ("direct_drive", "gear", "fast_generator"):
        raise InputError(f"No mass line is called '{name}'; wanted: direct_drive, gear or fast_generator.")
    row, cost = data[name], data["cost"]
    low, high = cost[name]
    basis = f"{data['status']}, {data['edition']}: {row['source']}"
    torque, least, most = (np.array(row[key], dtype=np.float64) for key in ("torque", "low", "high"))
    return MassLine(torque, least, most, float(low), float(high), cost["currency"], basis)


@cache
def _packaged() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.machine").joinpath("data/drive_mass.toml").read_text("utf-8"))


def _sum(a: Band, b: Band) -> Band:
    return Band(a.low + b.low, a.value + b.value, a.high + b.high, a.basis)
