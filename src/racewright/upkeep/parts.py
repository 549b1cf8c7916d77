"""Parts that fail or wear out, how long a new one takes to come, and how many lie on site."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.uncertainty import Band

YEAR = 8760.0 * 3600.0
"""The energy year of 8760 h [s]."""

_LONGEST = 100.0 * YEAR


@dataclass(frozen=True, slots=True)
class MachinePart:
    """A kind of part of one machine; the machine stands still while one of them is out.

    Attributes
    ----------
    name : str
    failure_rate : Band
        Of one, for each second that the machine runs, >= 0; its range is the knowledge of it [1/s].
    mend_time : Band
        From the part at hand to running again: access, recovery, work, putting back, >= 0 [s].
    wait : Band
        From ordering to the part at hand when it is flown or shipped in, >= 0 [s].
    count : int
        Alike in the machine, 1 or more; they share the spares.
    held : int
        Spares on site, 0 to 50; each used one is ordered again at once.
    price : float
        Of one, >= 0 [currency].
    life : float or None
        Running time after which it is replaced before it fails; None: never [s].
    planned_time : float
        Standstill for such a replacement, the new part ordered in time, >= 0 [s].
    source : str
        Where rate and waits come from.
    """

    name: str
    failure_rate: Band
    mend_time: Band
    wait: Band
    count: int = 1
    held: int = 0
    price: float = 0.0
    life: float | None = None
    planned_time: float = 0.0
    source: str = ""

    def __post_init__(self) -> None:
        _band(f"the failure rate of {self.name}", self.failure_rate, 1.0, "1/s")
        _band(f"the time to mend {self.name}", self.mend_time, _LONGEST, "s")
        _band(f"the wait for {self.name}", self.wait, _LONGEST, "s")
        for what, number, least, most in (("count", self.count, 1, 1000), ("spares", self.held, 0, 50)):
            if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= most:
                raise InputError(f"{what} of {self.name}: {number!r}; wanted a whole number from {least} to {most}")
        within(f"the price of {self.name}", self.price, 0.0, 1e12, "currency")
        if self.life is not None:
            within(f"the life of {self.name}", self.life, 3600.0, _LONGEST, "s")
        within(f"the planned standstill for {self.name}", self.planned_time, 0.0, _LONGEST, "s")


def sure_band(value: float, basis: str = "as given") -> Band:
    """A value without a range."""
    return Band(value, value, value, basis)


def rate_between_failures(short: float, likely: float, long: float, basis: str) -> Band:
    """Failure rate from the mean running time between failures [1/s].

    Parameters
    ----------
    short, likely, long : float
        The time and its range, above 0, short <= likely <= long [s].
    basis : str
        Where it comes from.
    """
    if not 0.0 < short <= likely <= long < math.inf:
        raise InputError(
            f"times between failures are {(short, likely, long)!r} s; wanted 0 < short <= likely <= long"
        )
    return Band(1.0 / long, 1.0 / likely, 1.0 / short, basis)


def _band(name: str, band: Band, most: float, unit: str) -> None:
    for end in (band.low, band.value, band.high):
        within(name, end, 0.0, most, unit)
    if not band.low <= band.value <= band.high:
        raise InputError(f"{name} is {(band.low, band.value, band.high)!r} {unit}; wanted low <= value <= high")
