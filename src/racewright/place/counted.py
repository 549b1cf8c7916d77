"""From speeds over time to the climates that a site keeps: as counted, and with the machine in all year."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.place.climate import climate_from_values
from racewright.place.result import Calendar, Floats, OutageShare, SpeedClimate
from racewright.place.season import Season, outages
from racewright.place.years import calendar_of
from racewright.remark import Remark


@dataclass(frozen=True)
class Counted:
    """Climates of one record; fields as in `Site`.

    Attributes
    ----------
    climate : SpeedClimate
    calendar : Calendar
    outages : tuple of OutageShare
    open_climate : SpeedClimate or None
    open_calendar : Calendar or None
    """

    climate: SpeedClimate
    calendar: Calendar
    outages: tuple[OutageShare, ...] = ()
    open_climate: SpeedClimate | None = None
    open_calendar: Calendar | None = None


def counted(
    time: NDArray[np.int64],
    speed: Floats,
    weight: Floats,
    *,
    depth: Floats | None,
    season: Season | None,
    start_month: int,
    bin_width: float,
) -> Counted:
    """Count speeds by size, year and month, with no speed while the season keeps the machine out.

    Parameters
    ----------
    time : ndarray of int64, shape (n,)
        [s since 1970-01-01 UTC]
    speed : ndarray, shape (n,)
        Zero while the machine is aground or out of the water [m/s].
    weight : ndarray, shape (n,)
        Time each stamp stands for [s].
    depth : ndarray, shape (n,), or None
        At the machine [m].
    season : Season or None
    start_month : int
        Of the year, 1 to 12.
    bin_width : float
        [m/s]
    """
    climate = climate_from_values(speed, weight, bin_width)
    calendar = calendar_of(time, speed, weight, climate.edge, start_month)
    if season is None:
        return Counted(climate, calendar)
    out, shares = outages(season, time, speed, depth, weight)
    kept: Floats = np.where(out, 0.0, speed)
    inside = climate_from_values(kept, weight, bin_width)
    return Counted(
        climate=inside,
        calendar=calendar_of(time, kept, weight, inside.edge, start_month),
        outages=shares,
        open_climate=climate,
        open_calendar=calendar,
    )


MOST_OUT = 0.5
"""Share of the time out of the water from which a slip in the dates is more likely than a season; own rule [-]."""


def outage_remarks(shares: tuple[OutageShare, ...]) -> list[Remark]:
    """How much of the record the season takes away."""
    if not shares:
        return []
    parts = ", ".join(f"{s.cause} {100.0 * s.share:.2g} %" for s in shares)
    whole = sum(s.share for s in shares)
    text = (
        f"The machine is out of the water for {100.0 * whole:.2g} % of the record ({parts}); "
        "the climate counts no speed then."
    )
    if whole > MOST_OUT:
        text += " That is more than half of the time: are first and last day in the right order?"
    return [Remark("note" if whole <= MOST_OUT else "warning", text, "season")]
