"""Drag coefficients of trunks, crowns and rafts."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from racewright.errors import InputError


@dataclass(frozen=True, slots=True)
class DragCoefficient:
    """A drag coefficient on projected area.

    Attributes
    ----------
    name : str
    low, value, high : float
        [-]
    basis, edition, status : str
    """

    name: str
    low: float
    value: float
    high: float
    basis: str
    edition: str
    status: str


@cache
def _all() -> dict[str, DragCoefficient]:
    text = files("racewright.holding").joinpath("debris_drag.toml").read_text("utf-8")
    return {row["name"]: DragCoefficient(**row) for row in tomllib.loads(text)["drag"]}


def drag_coefficient(name: str) -> DragCoefficient:
    """The coefficient of 'trunk across', 'trunk end-on', 'lodged debris' or 'crown'.

    Raises
    ------
    InputError
        For another name.
    """
    found = _all().get(name)
    if found is None:
        raise InputError(f"no drag coefficient is called {name!r}; there are: {', '.join(sorted(_all()))}")
    return found
