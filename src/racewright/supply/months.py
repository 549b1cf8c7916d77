"""Energy by month, with the machine as the season lets it run and with the machine in all year."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.place.result import Calendar
from racewright.remark import Remark
from racewright.supply.power_table import PowerTable

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Days of each month in the energy year of 8760 h."""


@dataclass(frozen=True)
class MonthRow:
    """One month of the energy year.

    Attributes
    ----------
    month : int
        1 to 12, UTC.
    recorded : float
        Recorded time behind the row, all years together [s].
    mean_power : float
        After availability [W].
    energy : float
        In the month's days, 28 in February [J].
    running : float
        Share of time with power above zero, before availability [-].
    open_energy : float
        With the machine in all year [J]; the same as `energy` without a season.
    """

    month: int
    recorded: float
    mean_power: float
    energy: float
    running: float
    open_energy: float


@dataclass(frozen=True)
class MonthlyEnergy:
    """Energy by month.

    Attributes
    ----------
    rows : tuple of MonthRow
        Months that were recorded, January first.
    energy : float
        Sum of the rows; a whole year only when all twelve months are there [J].
    open_energy : float
        The same with the machine in all year [J].
    remarks : tuple of Remark
    """

    rows: tuple[MonthRow, ...]
    energy: float
    open_energy: float
    remarks: tuple[Remark, ...]


def energy_by_month(calendar: Calendar, table: PowerTable, open_calendar: Calendar | None = None) -> MonthlyEnergy:
    """Energy of each month, all years of the record together.

    Parameters
    ----------
    calendar : Calendar
        As counted, season included.
    table : PowerTable
    open_calendar : Calendar, optional
        With the machine in all year, of the same record.

    Raises
    ------
    InputError
        An open calendar of another record.
    """
    beside = calendar if open_calendar is None else open_calendar
    if not np.allclose(beside.month_time, calendar.month_time):
        raise InputError(
            "the calendar with the machine in all year is of another record than the one with the season"
        )
    rows = []
    for i in np.flatnonzero(calendar.month_time > 0.0):
        time = DAYS[i] * 86400.0
        pieces = table.over(calendar.edge, calendar.month_share[i])
        mean = table.mean_power(calendar.edge, calendar.month_share[i])
        in_all = table.mean_power(beside.edge, beside.month_share[i])
        running = pieces.share_running(table.speed, table.power)
        rows.append(MonthRow(int(i) + 1, float(calendar.month_time[i]), mean, mean * time, running, in_all * time))
    missing = [month for month in range(1, 13) if month not in {row.month for row in rows}]
    told = []
    if missing:
        text = f"No values in month(s) {', '.join(str(m) for m in missing)}: the sum is not a whole year."
        told.append(Remark("warning", text, "months"))
    return MonthlyEnergy(
        rows=tuple(rows),
        energy=sum(row.energy for row in rows),
        open_energy=sum(row.open_energy for row in rows),
        remarks=tuple(told),
    )
