"""Published levels to set a figure beside."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources


@dataclass(frozen=True, slots=True)
class PublishedLevel:
    """One published figure.

    Attributes
    ----------
    title : str
    low, high : float
        Range, in the unit of `reference` [dB].
    reference, source, status : str
    """

    title: str
    low: float
    high: float
    reference: str
    source: str
    status: str


@cache
def published_levels() -> tuple[PublishedLevel, ...]:
    """Every packaged figure."""
    text = resources.files("racewright.sound").joinpath("data/published_levels.toml").read_text("utf-8")
    return tuple(PublishedLevel(**row) for row in tomllib.loads(text).values() if isinstance(row, dict))
