"""What a plain number in a field means: the unit that is shown beside it."""

from __future__ import annotations

import re
from collections.abc import Callable

from racewright.desk.keeper.keys import meaning_of
from racewright.quantity import DIMENSION_EXAMPLES

_UNIT = re.compile(r"[+-]?[\d.]+(?:[eE][+-]?\d{1,3})? *([A-Za-z%].*)")
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?")
ANGLE = "deg"
"""Every angle is asked for in degrees, whatever the file has it in."""


def unit_of(path: str, written: str, currency: Callable[[], str] = lambda: "") -> str:
    """The unit that a field shows and that a plain number in it stands in; '' where none is to be added.

    That of the value as written, else of the key's default, else of its lowest value. A share is in per cent only
    where it is written so.

    Parameters
    ----------
    path : str
        Dotted key.
    written : str
        What the draft has there; '' where it has nothing.
    currency : callable
        Gives the case's currency, '' where it counts in none; asked only for a price that is not written yet.
    """
    meaning = meaning_of(path)
    if meaning is None or meaning.takes is None:
        return ""
    key = meaning.takes
    if key.kind == "quantity":
        return ANGLE if key.dimension == "angle" else _in(written) or _in(meaning.default) or _in(key.low)
    if key.kind == "money":
        return _in(written) or _in(meaning.default) or _price(DIMENSION_EXAMPLES[key.dimension], currency())
    if key.kind == "ratio":
        return "%" if _in(written or meaning.default) == "%" else ""
    return ""


def with_unit(text: str, unit: str) -> str:
    """The text of a field with the unit that its plain number stands in; any other text as it is."""
    text = text.strip()
    bare = _NUMBER.fullmatch(text) is not None and len(text) < 40
    return f"{text} {unit}" if unit and bare else text


def _in(text: str) -> str:
    found = _UNIT.fullmatch(text.strip())
    return found[1].strip() if found else ""


def _price(example: str, currency: str) -> str:
    """The unit of a price like the example's, in another currency."""
    unit = _in(example)
    return currency + unit[3:] if currency else ""
