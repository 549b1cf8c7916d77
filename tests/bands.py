"""Bands for tests."""

from __future__ import annotations

from racewright.uncertainty import Band


def relative_band(value: float, half_width: float, basis: str) -> Band:
    """The band value (1 - h) to value (1 + h).

    Parameters
    ----------
    value : float
        Central value, not negative [any].
    half_width : float
        Relative half-width h, 0 to 1 [-].
    basis : str
        Where the range comes from.
    """
    return Band(value * (1.0 - half_width), value, value * (1.0 + half_width), basis)
