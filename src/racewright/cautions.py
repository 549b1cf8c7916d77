"""Cautions as data: the hazard, what to say about it, and who decides."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

from racewright.errors import InputError
from racewright.remark import Remark, Severity


@dataclass(frozen=True, slots=True)
class Caution:
    """One hazard and what its reader must be told.

    Attributes
    ----------
    hazard : str
        Name in the table, such as 'lifting'.
    title : str
        The same for a heading.
    text : str
        Plain sentences, our own words.
    defer_to : tuple of str
        Codes and people who decide in place of this program.
    status : str
        Whether those were read or are from memory, with a confidence.
    edition : str
        Year and month of the table.
    """

    hazard: str
    title: str
    text: str
    defer_to: tuple[str, ...]
    status: str
    edition: str

    @property
    def sentence(self) -> str:
        """Text and whom to ask, in one paragraph."""
        return f"{self.text} Defer to: {'; '.join(self.defer_to)}."

    def remark(self, severity: Severity = "caution") -> Remark:
        """The caution as a remark that travels with a result."""
        return Remark(severity, self.sentence, self.title.lower())


@cache
def cautions() -> tuple[Caution, ...]:
    """Every packaged caution, in the order of its file."""
    data = tomllib.loads(resources.files("racewright").joinpath("cautions.toml").read_text("utf-8"))
    edition = data.pop("edition")
    return tuple(
        Caution(hazard, row["title"], row["text"], tuple(row["defer_to"]), row["status"], edition)
        for hazard, row in data.items()
    )


def caution(hazard: str) -> Caution:
    """The caution of that name.

    Raises
    ------
    InputError
        There is none; the message names those there are.
    """
    for found in cautions():
        if found.hazard == hazard:
            return found
    names = ", ".join(known.hazard for known in cautions())
    raise InputError(f"no caution is called '{hazard}'; there are {names}")
