"""Numbers for the reader: a unit, and as many digits as the number deserves."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.uncertainty import Band

THIN = "\u202f"
"""Thin space that does not break, between a number and its unit and between groups of three digits."""
UNKNOWN = "not known"
"""Stands where a number is not finite."""


@dataclass(frozen=True)
class Scale:
    """A unit for the reader: shown number = SI value / factor."""

    unit: str
    factor: float


_KWH = 3.6e6
POWER = (Scale("W", 1.0), Scale("kW", 1e3), Scale("MW", 1e6))
ENERGY = (Scale("kWh", _KWH), Scale("MWh", 1e3 * _KWH), Scale("GWh", 1e6 * _KWH))
FORCE = (Scale("N", 1.0), Scale("kN", 1e3), Scale("MN", 1e6))
PRESSURE = (Scale("Pa", 1.0), Scale("kPa", 1e3), Scale("MPa", 1e6))
TORQUE = (Scale(f"N{THIN}m", 1.0), Scale(f"kN{THIN}m", 1e3), Scale(f"MN{THIN}m", 1e6))
LENGTH = (Scale("m", 1.0),)
AREA = (Scale("m²", 1.0),)
SMALL_LENGTH = (Scale("mm", 1e-3), Scale("m", 1.0))
SPEED = (Scale("m/s", 1.0),)
DISCHARGE = (Scale("m³/s", 1.0),)
HEAD = (Scale("J/kg", 1.0),)
ROTATION = (Scale("rpm", math.pi / 30.0),)
ANGLE = (Scale("°", math.pi / 180.0),)
SHARE = (Scale("%", 1e-2),)
DENSITY = (Scale("kg/m³", 1.0),)
FUEL = (Scale("L", 1e-3),)
FUEL_USE = (Scale("L/kWh", 1e-3 / _KWH),)
NONE = (Scale("", 1.0),)


def per_energy(currency: str) -> tuple[Scale, ...]:
    """Cost of energy: currency/J shown per kilowatt-hour."""
    return (Scale(f"{currency}/kWh", 1.0 / _KWH),)


def per_fuel(currency: str) -> tuple[Scale, ...]:
    """Price of fuel: currency/m3 shown per litre."""
    return (Scale(f"{currency}/L", 1e3),)


def money(currency: str) -> tuple[Scale, ...]:
    """A sum of money."""
    return (Scale(currency, 1.0),)


def pick(scales: tuple[Scale, ...], value: float) -> Scale:
    """The largest unit of which the value is at least one (after rounding to three digits)."""
    fitting = [s for s in scales if abs(value) >= 0.9995 * s.factor]
    return fitting[-1] if fitting else scales[0]


def number(value: float, decimals: int) -> str:
    """A plain number with a true minus, in groups of three from 10 000 on; decimals -2 rounds to hundreds."""
    if not math.isfinite(value):
        return UNKNOWN
    rounded = round(value, decimals) + 0.0
    text = f"{abs(rounded):.{max(decimals, 0)}f}"
    whole, dot, rest = text.partition(".")
    if len(whole) > 4:
        head = len(whole) % 3 or 3
        whole = THIN.join([whole[:head], *(whole[i : i + 3] for i in range(head, len(whole), 3))])
    return ("\u2212" if rounded < 0 else "") + whole + dot + rest


def decimals_for(value: float, digits: int) -> int:
    """Decimal places that show `digits` significant digits of the value, never negative, at most 6."""
    if value == 0.0 or not math.isfinite(value):
        return 0 if value == 0.0 else digits
    exponent = int(f"{abs(value):.{digits - 1}e}".partition("e")[2])
    return min(6, max(0, digits - 1 - exponent))


def quantity(value: float, scales: tuple[Scale, ...], digits: int = 3) -> str:
    """A value with its unit, `digits` significant digits.

    Parameters
    ----------
    value : float
        SI value; a value that is not finite reads 'not known'.
    scales : tuple of Scale
        Units to choose from, smallest first.
    digits : int
        Significant digits, 1 to 6.
    """
    if not math.isfinite(value):
        return UNKNOWN
    scale = pick(scales, value)
    shown = value / scale.factor
    return join(number(shown, decimals_for(shown, digits)), scale)


def fixed(value: float, scales: tuple[Scale, ...], decimals: int) -> str:
    """A value with its unit and a fixed number of decimals, for columns that must line up."""
    if not math.isfinite(value):
        return UNKNOWN
    scale = pick(scales, value)
    return join(number(value / scale.factor, decimals), scale)


def join(text: str, scale: Scale) -> str:
    """Number and unit with a thin space; degrees close up."""
    if not scale.unit or text == UNKNOWN:
        return text
    return text + scale.unit if scale.unit == "°" else f"{text}{THIN}{scale.unit}"


@dataclass(frozen=True)
class BandText:
    """A band in words: `value` and `range` ('2.9 to 4.9 kW'), both with the unit."""

    value: str
    range: str

    @property
    def both(self) -> str:
        """'3.9 kW (2.9 to 4.9 kW)'."""
        return f"{self.value} ({self.range})"


def band(given: Band, scales: tuple[Scale, ...]) -> BandText:
    """A band, rounded to about a fifth of its half-width so that no digit is idle.

    A band of a value that is not 0 closes only where a limit (rated power, the load) cuts both its ends: it
    reads 'at the cap', with three digits.
    """
    if not all(math.isfinite(v) for v in (given.low, given.value, given.high)):
        return BandText(UNKNOWN, "no range")
    scale = pick(scales, max(abs(given.value), abs(given.high) / 2, abs(given.low) / 2))
    low, value, high = (v / scale.factor for v in (given.low, given.value, given.high))
    half = (high - low) / 2
    if half <= 0.0:
        if value == 0.0:
            return BandText(join("0", scale), "no range")
        text = join(number(value, 2 - math.floor(math.log10(abs(value)))), scale)
        return BandText(text, "at the cap")
    places = -math.floor(math.log10(half / 5) + 1e-9)
    places = min(places, decimals_for(max(abs(value), half), 3))
    unit = f"{THIN}{scale.unit}" if scale.unit else ""
    return BandText(f"{number(value, places)}{unit}", f"{number(low, places)} to {number(high, places)}{unit}")
