"""Availability from its causes: shares of time lost, multiplied and listed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.supply.door import SECONDS_PER_YEAR, fraction, not_negative


@dataclass(frozen=True)
class LostTime:
    """One cause of lost time.

    Attributes
    ----------
    cause : str
    share : float
        Of the time in which the machine could run but for this cause, 0 to 1 [-].
    in_climate : bool
        True when the climate counts no speed then (season, aground): listed, not multiplied again.
    """

    cause: str
    share: float
    in_climate: bool = False

    def __post_init__(self) -> None:
        fraction(f"time lost to {self.cause}", self.share, 0.02)


def stops(cause: str, yearly: float, each: float) -> LostTime:
    """Lost time of so many stops a year.

    Parameters
    ----------
    cause : str
        Such as 'debris' or 'faults'.
    yearly : float
        Stops in a year, >= 0 [1/yr].
    each : float
        Mean time from stop to running again, waiting for people included, >= 0 [s].

    Raises
    ------
    InputError
        Negative or not finite; more lost time than the year has.
    """
    lost = not_negative(f"{cause} stops", yearly, "1/yr", 12.0) * not_negative(f"{cause} stop", each, "s", 14400.0)
    if lost > SECONDS_PER_YEAR:
        raise InputError(
            f"{yearly:g} stops of {each / 3600:g} h lose {lost / 3600:.0f} h, more than a year of 8760 h"
        )
    return LostTime(cause, lost / SECONDS_PER_YEAR)


@dataclass(frozen=True)
class Availability:
    """Share of time that the machine is able to run.

    Attributes
    ----------
    share : float
        Product of (1 - lost share) over the causes that the climate does not hold already; this goes into the
        yearly energy [-].
    whole : float
        The same over all causes [-].
    causes : tuple of LostTime
    """

    share: float
    whole: float
    causes: tuple[LostTime, ...]


def availability(causes: tuple[LostTime, ...]) -> Availability:
    """Multiply what independent causes leave over.

    Raises
    ------
    InputError
        A cause named twice.
    """
    names = [cause.cause for cause in causes]
    if len(set(names)) != len(names):
        raise InputError(f"a cause of lost time is named twice in {', '.join(names)}")
    outside = math.prod(1.0 - cause.share for cause in causes if not cause.in_climate)
    return Availability(outside, math.prod(1.0 - cause.share for cause in causes), causes)
