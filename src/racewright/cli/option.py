"""Quantities given on the command line."""

from __future__ import annotations

from racewright.errors import InputError
from racewright.quantity import parse


def quantity_option(text: str, dimension: str, option: str, low: float, high: float) -> float:
    """A quantity with its unit, in SI, within its limits.

    Raises
    ------
    InputError
        Says which option, what was found and what would be right.
    """
    try:
        value = parse(text, dimension).si
    except ValueError as fault:
        raise InputError(str(fault), key=option) from None
    if not low <= value <= high:
        raise InputError(f"{text!r} is out of range; it must lie between {low:g} and {high:g} SI", key=option)
    return value
