"""Published contact stiffnesses of logs."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class ContactStiffness:
    """One published stiffness of a log against a stiff target.

    Attributes
    ----------
    name : str
        Short name of what was struck, or with what.
    value : float
        [N/m]
    basis, edition, status, note : str
        Where it comes from, which edition, how it is known here, and what it holds for.
    """

    name: str
    value: float
    basis: str
    edition: str
    status: str
    note: str


@cache
def contact_stiffnesses() -> tuple[ContactStiffness, ...]:
    """The published range, softest first: 2.4 to 61 MN/m. No single one of them is the answer."""
    text = files("racewright.holding").joinpath("contact_stiffness.toml").read_text("utf-8")
    found = (ContactStiffness(**row) for row in tomllib.loads(text)["stiffness"])
    return tuple(sorted(found, key=lambda one: one.value))
