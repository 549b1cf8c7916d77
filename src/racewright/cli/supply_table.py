"""Supply, upkeep and money as text for the terminal."""

from __future__ import annotations

import textwrap

from racewright.cli.energy_table import printable
from racewright.ledger.money_things import PlanMoney, SupplyMoney
from racewright.ledger.supply_findings import SupplyFindings, UpkeepFindings
from racewright.ledger.supply_things import HourDays, SupplyBand, SupplyYear
from racewright.remark import Remark
from racewright.supply.quantiles import Quantiles

_MWH = 3.6e9
_KWH = 3.6e6
_WIDTH = 34
_DAY = 86400.0


def supply_table(supply: SupplyFindings, upkeep: UpkeepFindings | None, remarks: tuple[Remark, ...]) -> str:
    """Ways of supply, the day, the year and its band, upkeep, money, remarks, in everyday units."""
    lines = [*_ways(supply.year), "", *_line_of(supply), "", *_days(supply.year.days), "", *_band(supply.band)]
    if upkeep is not None:
        lines += _upkeep(upkeep, supply.year.currency)
    if supply.money is not None:
        lines += ["", *_money(supply.money)]
    if remarks:
        lines += ["", *(f"{r.severity}: {printable(r.text)}" for r in remarks)]
    return "\n".join(lines)


def _ways(year: SupplyYear) -> list[str]:
    lines = [f"ways of supply in {year.year}", "   fuel, L   saved, L   trips saved   short, h   unused, kWh"]
    for i, row in enumerate(year.rows, 1):
        lines += textwrap.wrap(f"{i} {printable(row.sentence)}", 76, subsequent_indent="  ")
        y = row.year
        lines.append(
            f"  {1e3 * y.fuel:8.0f}   {1e3 * row.fuel_saved:8.0f}   {row.trips_saved:11d}   "
            f"{y.unserved_time / 3600:8.1f}   {y.unused_energy / _KWH:11.0f}"
        )
    return lines


def _line_of(supply: SupplyFindings) -> list[str]:
    year, line = supply.year, supply.machines
    cur = year.currency
    lines = [
        _line("water of", f"{line.water_year}, {100 * line.recorded:.1f} % recorded"),
        _line("stops drawn", f"{line.stops}; able to run {100 * line.running:.1f} % of the time"),
        _line(
            "machines give", f"{line.sent_energy / _MWH:.2f} MWh, of which the line takes {line.line_loss / _MWH:.2f}"
        ),
        _line("fuel at the village", f"{year.fuel_price / 1e3:.3f} {cur}/L"),
    ]
    way = year.delivered
    if way is not None:
        parts = (
            ("bought", way.bought_part),
            ("carriers' fuel", way.fuel_part),
            ("crews", way.crew_part),
            ("hire", way.trip_part),
            ("spoilt", way.spoilt_part),
        )
        lines += [_line(name, f"{value / 1e3:.3f} {cur}/L") for name, value in parts if value > 0.0]
    return lines


def _days(days: HourDays) -> list[str]:
    """Every third hour of the village's clock, mean of the year."""
    lines = ["mean day, kW", "  hour    load  machine     sun  battery    sets   short"]
    columns = (days.load, days.machine, days.sun, days.giving - days.taking, days.sets, days.unserved)
    for hour in range(0, 24, 3):
        cells = (row[:, hour].mean() / 1e3 + 0.0 for row in columns)
        lines.append(f"  {hour:02d}:00 " + " ".join(f"{round(float(c), 2) + 0.0:7.2f}" for c in cells))
    return lines


def _band(band: SupplyBand) -> list[str]:
    rows: tuple[tuple[str, Quantiles, float, str], ...] = (
        ("fuel", band.fuel, 1e-3, "L"),
        ("fuel saved", band.fuel_saved, 1e-3, "L"),
        ("without supply", band.unserved_time, 3600.0, "h"),
        ("unused", band.unused_energy, _KWH, "kWh"),
        ("able to run", band.running, 0.01, "%"),
    )
    lines = [f"{band.years} years drawn (P10, P50, P90)"]
    lines += [_line(name, f"{q.p10 / u:9.1f} {q.p50 / u:9.1f} {q.p90 / u:9.1f} {unit}") for name, q, u, unit in rows]
    return lines


def _upkeep(upkeep: UpkeepFindings, currency: str) -> list[str]:
    lines: list[str] = []
    if upkeep.parts is not None:
        share = upkeep.parts.share
        lines += [
            "",
            _line(
                "able to run by parts",
                f"{100 * share.value:.1f} % ({100 * share.low:.1f} to {100 * share.high:.1f} %)",
            ),
        ]
        lines += [
            _line(
                row.name,
                f"{row.failures:.2f} a year, {row.mean_stop / _DAY:.1f} d each, {100 * row.lost_share:.2f} % lost",
            )
            for row in upkeep.parts.rows
        ]
    if upkeep.spares is not None:
        lines += ["", "spares to hold, by the cost of lost energy"]
        lines += [
            _line(
                row.name, f"{row.held}; {row.tied_up:.0f} {currency} tied up, {row.money_kept:.0f} {currency}/yr kept"
            )
            for row in upkeep.spares.rows
        ]
    if upkeep.carrying is not None:
        lines += ["", "carried by"]
        lines += [
            _line(row.name, f"heaviest {row.heaviest} {row.heaviest_mass:.0f} kg, {row.mass_left:.0f} kg left")
            + ("" if not row.refused else f"; not: {printable('; '.join(row.refused))}")
            for row in upkeep.carrying.rows
        ]
    if upkeep.recovery is not None:
        lines += ["", "pull to draw it out"]
        lines += [
            _line(case.water, f"{case.pull.pull / 1e3:.2f} kN at {case.stream_speed:.2f} m/s")
            for case in upkeep.recovery.cases
        ]
    return lines


def _money(money: SupplyMoney) -> list[str]:
    lines = [f"money over {money.years} years in {printable(money.terms)}, {100 * money.rate:.1f} % a year"]
    for row in money.rows:
        lines += ["", *textwrap.wrap(printable(row.sentence), 76), *_plan(row, money.currency)]
    return lines


def _plan(row: PlanMoney, currency: str) -> list[str]:
    cost, value = row.cost_band, row.value_band
    payback = "not within the life" if row.payback is None else f"{row.payback:.1f} years"
    lines = [
        _line("capital", f"{row.capital:.0f} {currency}"),
        _line(
            "cost of used energy",
            f"{row.levelised * _KWH:.3f} {currency}/kWh (P10 {cost.p10 * _KWH:.3f}, P90 {cost.p90 * _KWH:.3f})",
        ),
        _line(
            "net present value", f"{row.net_present_value:.0f} {currency} (P10 {value.p10:.0f}, P90 {value.p90:.0f})"
        ),
        _line("chance of a gain", f"{100 * row.chance_of_gain:.0f} %"),
        _line("paid back after", payback),
    ]
    if row.break_even_fuel_price is not None:
        lines.append(_line("pays from a fuel price of", f"{row.break_even_fuel_price / 1e3:.3f} {currency}/L"))
    if row.break_even_travel_time is not None:
        lines.append(_line("pays from a way of", f"{row.break_even_travel_time / 3600:.1f} h there and back"))
    first = max(row.movers, key=lambda m: m.value_share, default=None)
    if first is not None and first.value_share > 0.0:
        lines.append(
            _line(
                "measure first", f"{first.name.replace('_', ' ')} ({100 * first.value_share:.0f} % of the variance)"
            )
        )
    return lines


def _line(name: str, value: str) -> str:
    return f"{printable(name)[:_WIDTH]:>{_WIDTH}}  {printable(value)}"
