"""Quantities given on the command line."""

from __future__ import annotations

import math

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
        unit, factor = _SHOWN[dimension]
        limits = f"between {low / factor:.4g} and {high / factor:.4g} {unit}"
        raise InputError(f"{text!r} is out of range; it must lie {limits}", key=option)
    return value


_SHOWN = {
    "speed": ("m/s", 1.0),
    "rotation": ("rpm", math.pi / 30.0),
    "power": ("W", 1.0),
    "length": ("m", 1.0),
    "density": ("kg/m3", 1.0),
}
"""Unit that limits are told in, and its factor to SI."""
