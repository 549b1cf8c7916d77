"""Drag of simple shapes that hang on the machine."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from racewright.errors import InputError
from racewright.machine.drive_checks import number
from racewright.uncertainty import Band


@dataclass(frozen=True, slots=True)
class Part:
    """One part of frame, floats or guards.

    Attributes
    ----------
    shape : str
        A name of the packaged table, see `shapes`.
    frontal_area : float
        > 0 [m2].
    """

    shape: str
    frontal_area: float


def shapes() -> tuple[str, ...]:
    """Names of the shapes in the table."""
    return tuple(name for name, row in _packaged().items() if isinstance(row, dict))


def drag_of(parts: tuple[Part, ...], stream_speed: float, density: float = 1000.0) -> Band:
    """Drag of parts that do not shelter one another, with the range of their coefficients [N].

    Parameters
    ----------
    parts : tuple of Part
    stream_speed : float
        0 to 15 [m/s].
    density : float
        Of the water, default fresh, rounded [kg/m3].
    """
    dynamic = 0.5 * number("The density", density, 900.0, 1200.0, "kg/m3")
    dynamic *= number("The stream speed", stream_speed, 0.0, 15.0, "m/s") ** 2
    low = value = high = 0.0
    told = []
    for part in parts:
        row = _packaged().get(part.shape)
        if not isinstance(row, dict):
            raise InputError(f"No shape is called '{part.shape}'; wanted one of {', '.join(shapes())}.")
        push = dynamic * number("A frontal area", part.frontal_area, 1e-9, 1e6, "m2")
        low, value, high = low + push * row["range"][0], value + push * row["value"], high + push * row["range"][1]
        told.append(f"{part.shape}: {row['basis']}")
    return Band(low, value, high, "; ".join(dict.fromkeys(told)))


@cache
def _packaged() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.holding").joinpath("data/shapes.toml").read_text("utf-8"))
