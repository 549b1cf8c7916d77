"""Bands: a value with the range it is believed to lie in."""

from __future__ import annotations

from dataclasses import dataclass

PRIOR_DUCTED_POWER = 0.25
"""Relative half-width of the prior band on every ducted power [-]. Common practice here, no source: it
stands until a user's own test calibrates the machine."""


@dataclass(frozen=True)
class Band:
    """A value and its range, all in one SI unit.

    Attributes
    ----------
    low, value, high : float
        low <= value <= high [unit of the quantity].
    basis : str
        Where the range comes from.
    """

    low: float
    value: float
    high: float
    basis: str
