"""Energy year by year: the power curve over the climate of each year that is covered well enough."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.place.result import Calendar
from racewright.remark import Remark
from racewright.supply.door import SECONDS_PER_YEAR, fraction
from racewright.supply.power_table import PowerTable
from racewright.supply.spread import Spread, spread

Floats = NDArray[np.float64]

LEAST_COVERED = 0.9
"""Years with less of their time recorded are left out of the spread (common practice, no source) [-]."""

WANTED_YEARS = 10
"""Years of record that the trade's practice wants for a river (from memory)."""

TREND_CHANCE = 0.05
"""A trend this unlikely by chance is told [-]."""


@dataclass(frozen=True)
class YearlySpread:
    """Energy of each covered year, and its spread.

    Attributes
    ----------
    year : ndarray of int64, shape (n,)
        Years covered well enough, named as in the calendar.
    energy : ndarray, shape (n,)
        In 8760 h at the year's mean power, after availability [J].
    covered : ndarray, shape (n,)
        Part of each of these years that was recorded [-].
    left_out : tuple of int
        Years recorded in part, under the least covered.
    spread : Spread or None
        Of the energies [J]; None with fewer than two years, and for a tide's, which are no draws.
    remarks : tuple of Remark
    """

    year: NDArray[np.int64]
    energy: Floats
    covered: Floats
    left_out: tuple[int, ...]
    spread: Spread | None
    remarks: tuple[Remark, ...]


def energy_by_year(
    calendar: Calendar, table: PowerTable, least_covered: float = LEAST_COVERED, *, predicted: bool = False
) -> YearlySpread:
    """Energy of each year of a record and the spread from year to year.

    Parameters
    ----------
    calendar : Calendar
    table : PowerTable
    least_covered : float
        Smaller parts of a year are left out; 0 to 1, default `LEAST_COVERED` [-].
    predicted : bool
        The years are a tide's, predicted; default those of a record.

    Notes
    -----
    A year with gaps takes its mean power from what was recorded; nothing is filled.
    """
    fraction("least covered part of a year", least_covered, LEAST_COVERED)
    kept = calendar.covered >= least_covered - 1e-9
    energy = np.array(
        [SECONDS_PER_YEAR * table.mean_power(calendar.edge, share) for share in calendar.year_share[kept]]
    )
    year = calendar.year[kept]
    left_out = tuple(int(y) for y in calendar.year[~kept])
    found = spread(year, energy) if year.size >= 2 and not predicted else None
    return YearlySpread(
        year=year,
        energy=energy,
        covered=calendar.covered[kept],
        left_out=left_out,
        spread=found,
        remarks=_of_tide(energy) if predicted else tuple(_remarks(int(year.size), left_out, least_covered, found)),
    )


def _of_tide(energy: Floats) -> tuple[Remark, ...]:
    if not energy.size:
        return ()
    low, mean, high = (f"{value / 3.6e9:.4g}" for value in (energy.min(), energy.mean(), energy.max()))
    text = (
        f"The {energy.size} years are predicted from the tide's constituents and follow the moon's cycle of 18.6"
        f" years: {low} to {high} MWh, {mean} MWh in the mean. They are no draws, so that there is no P90 of a year;"
        " what the prediction is worth stands in the band."
    )
    return (Remark("note", text, "years"),)


def _remarks(count: int, left_out: tuple[int, ...], least: float, found: Spread | None) -> list[Remark]:
    told = []
    if left_out:
        names = ", ".join(str(y) for y in left_out[:8]) + (", ..." if len(left_out) > 8 else "")
        text = f"Left out of the spread, less than {100 * least:.0f} % recorded: {names}."
        told.append(Remark("note", text, "years"))
    if found is None:
        text = f"{count} whole year(s) recorded: no spread from year to year can be told, and no P90."
        told.append(Remark("warning", text, "years"))
        return told
    if count < WANTED_YEARS:
        text = (
            f"Only {count} whole years: P50 and P90 stand on few draws (the trade wants about {WANTED_YEARS}, from "
            "memory), and a wet or dry spell may fill them all."
        )
        told.append(Remark("warning", text, "years"))
    if found.effective_years < count:
        text = (
            f"Wet and dry years follow one another (correlation {found.lag_one:.2f} with the next year): the {count} "
            f"years count as {found.effective_years:.1f} independent ones."
        )
        told.append(Remark("caution", text, "years"))
    if count >= 5 and found.trend_chance < TREND_CHANCE:
        text = (
            f"The yearly energy changes by {100 * found.trend:+.1f} % a year over the record (chance without a trend "
            f"{found.trend_chance:.1g}): the past mean may not be that of the years to come."
        )
        told.append(Remark("caution", text, "trend"))
    return told
