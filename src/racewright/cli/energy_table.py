"""The energy of a case as text for the terminal."""

from __future__ import annotations

from racewright.ledger.energy_parts import EnergyParts
from racewright.remark import Remark
from racewright.supply.months import MonthlyEnergy
from racewright.supply.result import YearlyEnergy
from racewright.supply.years import YearlySpread
from racewright.uncertainty import Band

_MWH = 3.6e9
_WIDTH = 34
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def energy_table(energy: YearlyEnergy, parts: EnergyParts, remarks: tuple[Remark, ...], count: int) -> str:
    """One machine's energy in a year, by month, by year, and its band by cause, in everyday units."""
    band, lost = parts.band, parts.availability
    rows = [
        ("yearly energy" + ("" if count == 1 else " of one"), _band(energy.total)),
        ("mean power", f"{energy.mean_power / 1e3:.3f} kW ({100 * energy.capacity_factor:.1f} % of rated power)"),
        ("below cut-in or out", f"{100 * energy.share_below_cut_in:.1f} % of the year"),
        ("at rated power", f"{100 * energy.share_rated:.1f} % of the year"),
        ("availability", f"{100 * lost.share:.1f} %"),
        *((f"lost to {c.cause}", f"{100 * c.share:.1f} %{_counted(c.in_climate)}") for c in lost.causes),
        ("speed known to", f"{100 * band.speed_relative:.1f} %, energy moves {band.sensitivity:.1f} times as much"),
    ]
    if count > 1:
        total = energy.total
        every = Band(count * total.low, count * total.value, count * total.high, total.basis)
        rows.insert(1, (f"of all {count}", f"{_band(every)}, each as if alone"))
    lines = [_line(name, value) for name, value in rows]
    lines += ["", _line("band by cause, MWh", "   low    high")]
    lines += [_line(row.cause, f"{row.low / _MWH:6.2f}  {row.high / _MWH:6.2f}") for row in band.rows]
    if parts.months is not None:
        lines += _months(parts.months)
    if parts.years is not None:
        lines += _years(parts.years)
    if remarks:
        lines += ["", *(f"{r.severity}: {printable(r.text)}" for r in remarks)]
    return "\n".join(lines)


def _months(months: MonthlyEnergy) -> list[str]:
    season = any(row.open_energy != row.energy for row in months.rows)
    lines = ["", _line("by month, MWh", "energy" + ("  in all year" if season else ""))]
    for row in months.rows:
        beside = f"  {row.open_energy / _MWH:11.2f}" if season else ""
        lines.append(_line(MONTHS[row.month - 1], f"{row.energy / _MWH:6.2f}{beside}"))
    return lines


def _years(years: YearlySpread) -> list[str]:
    lines = ["", _line("by year, MWh", "energy")]
    lines += [_line(str(y), f"{e / _MWH:6.2f}") for y, e in zip(years.year, years.energy, strict=True)]
    found = years.spread
    if found is not None:
        lines += [
            _line("P50", f"{found.p50 / _MWH:6.2f}"),
            _line("P90 of one year", f"{found.p90_year / _MWH:6.2f}"),
            _line("P90 of the mean", f"{found.p90_mean / _MWH:6.2f}"),
        ]
    return lines


def _line(name: str, value: str) -> str:
    return f"{printable(name)[:_WIDTH]:>{_WIDTH}}  {value}"


def _band(band: Band) -> str:
    return f"{band.value / _MWH:.2f} MWh (band {band.low / _MWH:.2f} to {band.high / _MWH:.2f} MWh)"


def _counted(in_climate: bool) -> str:
    return " (in the speed climate already)" if in_climate else ""


def printable(text: str) -> str:
    """Names of the user's own without characters that a terminal obeys."""
    return "".join(c if c.isprintable() else "?" for c in text)
