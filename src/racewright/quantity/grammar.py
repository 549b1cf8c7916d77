"""The grammar of a quantity: one decimal number, one space or none, one unit."""

from __future__ import annotations

import difflib
import math
import re
from dataclasses import dataclass
from decimal import Decimal

from racewright.quantity.units import CURRENCY_DIMENSIONS, CURRENCY_PER, DIMENSION_EXAMPLES, UNITS

_QUANTITY = re.compile(r"([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?)[ ]*([A-Za-z%].*)?", re.ASCII)
_CURRENCY = re.compile(r"([A-Z]{3})((?:/[A-Za-z]+)*)", re.ASCII)


@dataclass(frozen=True)
class Quantity:
    """A parsed quantity.

    Attributes
    ----------
    si : float
        Finite value in the SI unit of its dimension.
    dimension : str
        Name of the dimension, e.g. 'length'.
    currency : str
        Three-letter label for money, else ''.
    """

    si: float
    dimension: str
    currency: str = ""


def parse(text: str, dimension: str) -> Quantity:
    """Read a quantity such as "1.2 m", "15 degC", "60 rpm" or "1.6 EUR/L".

    Parameters
    ----------
    text : str
        Number, then unit. The decimal mark is a point; no thousands separators, no arithmetic.
    dimension : str
        The dimension wanted, a key of `DIMENSION_EXAMPLES`.

    Returns
    -------
    Quantity
        With a finite SI value.

    Raises
    ------
    ValueError
        With a message that says what was found and what would be right.
    """
    example = DIMENSION_EXAMPLES[dimension]
    found = _shorten(text)
    match = _QUANTITY.fullmatch(text.strip(" "))
    if match is None:
        raise ValueError(f"{found} is not a number and a unit; write it like {example!r}{_hint(text)}")
    number_text, unit_text = match.group(1), match.group(2)
    if unit_text is None:
        raise ValueError(f"{found} has no unit; write it like {example!r}")
    currency = _CURRENCY.fullmatch(unit_text)
    if unit_text in UNITS:
        unit = UNITS[unit_text]
        factor, offset, got, label = unit.factor, unit.offset, unit.dimension, ""
    elif currency and currency.group(2) in CURRENCY_PER:
        factor, offset, got = CURRENCY_PER[currency.group(2)], 0.0, CURRENCY_DIMENSIONS[currency.group(2)]
        label = currency.group(1)
    else:
        near = difflib.get_close_matches(unit_text, _symbols(dimension), n=1, cutoff=0.4)
        meant = f" (did you mean {near[0]!r}?)" if near else ""
        raise ValueError(f"{found} has the unknown unit {_shorten(unit_text)}{meant}; write it like {example!r}")
    if got != dimension:
        raise ValueError(f"{found} is {_one(got)}, but {_one(dimension)} is wanted here, like {example!r}")
    # in decimals, so that 9 mm is 0.009 m to the last bit
    si = float(Decimal(number_text) * Decimal(repr(factor)) + Decimal(repr(offset)))
    if not math.isfinite(si):
        raise ValueError(f"{found} is too large to be {_one(dimension)}; write it like {example!r}")
    return Quantity(si, got, label)


def _one(dimension: str) -> str:
    """With its article."""
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _symbols(dimension: str) -> list[str]:
    """Unit symbols of one dimension."""
    return [symbol for symbol, unit in UNITS.items() if unit.dimension == dimension]


def _hint(text: str) -> str:
    """Name the usual slip, a decimal comma."""
    return " (the decimal mark is a point)" if re.search(r"\d,\d", text) else ""


def _shorten(text: str) -> str:
    """Quote user text for a message: escaped, at most 60 characters."""
    return repr(text if len(text) <= 60 else text[:57] + "...")
