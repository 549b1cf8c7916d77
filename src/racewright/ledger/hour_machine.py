"""Power of the machines hour by hour: the place's record through power curve, stops, season, converter and cable."""

from __future__ import annotations

from datetime import UTC
from typing import Any

import numpy as np

from racewright.ledger.convert import drive_of
from racewright.ledger.node import Given
from racewright.ledger.place_inputs import REACH_KEYS, form_of, reach_of, said, season_of
from racewright.ledger.supply_inputs import through_line
from racewright.ledger.supply_things import HourMachine
from racewright.place.reach import flow_at
from racewright.place.season import outages
from racewright.place.span import span_of
from racewright.records.series import read_any_series
from racewright.remark import Remark
from racewright.supply.availability import Availability
from racewright.supply.cable import CAUTION
from racewright.supply.civil_time import even_series
from racewright.supply.even_series import EvenSeries, onto
from racewright.supply.fill import filled
from racewright.supply.machine_power import machine_series, power_at
from racewright.supply.power_table import PowerTable
from racewright.supply.stops_drawn import StopCause, draw_stops
from racewright.supply.time_grid import TimeGrid, year_grid
from racewright.tick import Tick
from racewright.upkeep.parts import YEAR
from racewright.upkeep.parts_availability import PartsAvailability

Floats = np.ndarray[Any, np.dtype[np.float64]]

LEAST_RECORDED = 0.75
"""Years with less of their time recorded lend no water: `fill.filled` refuses them [-]."""

MACHINE_KEYS = (
    "place.record",
    *REACH_KEYS,
    "place.season",
    "machine.drive",
    "machine.stops",
    "case.count",
    "community.supply.year",
    "community.supply.cable",
    "community.supply.converter",
)
"""Role paths that `hour_machine` reads."""


def hour_machine(given: Given, _tick: Tick) -> HourMachine | None:
    """None where the place gives no dates, or no year is recorded well enough."""
    keys = given.keys
    record = keys["place.record"]
    if record is None or record["kind"] == "histogram" or given.nodes["site"].calendar is None:
        return None
    one = _recorded(given, record)
    grid = year_grid(keys["community.supply.year"])
    rows = _years(one, grid)
    if not rows:
        return None
    count, line = keys["case.count"], {key: keys[f"community.supply.{key}"] for key in ("cable", "converter")}
    year = keys["community.supply.year"]
    chosen = year if year in rows else sorted(rows, key=lambda y: float(rows[y][0].mean()))[(len(rows) - 1) // 2]
    row, recorded = rows[chosen]
    causes, even = causes_of(given)
    drawn = draw_stops(causes, grid, given.seed, machines=count)
    sent = even * machine_series(row, drawn.running)
    power = through_line(line, sent)
    rated = drive_of(keys).rated_power * count
    return HourMachine(
        water_year=chosen,
        recorded=recorded,
        power=power,
        years=np.array(sorted(rows), dtype=np.int64),
        never_stopped=np.array([through_line(line, count * rows[y][0]) for y in sorted(rows)]),
        greatest=float(through_line(line, np.array([rated]))[0]),
        stops=int(drawn.count.sum()),
        running=even * float(drawn.running.mean()),
        causes=causes,
        even_share=even,
        sent_energy=float(sent.sum()) * grid.interval,
        line_loss=float((sent - power).sum()) * grid.interval,
        remarks=tuple(_told(year, chosen, recorded, rated, sent, power, line, causes)),
    )


def _recorded(given: Given, record: Any) -> EvenSeries:
    """Power of one machine that never stops over the record, 0 while it is out of the water or aground [W]."""
    keys, path = given.keys, given.files["place.record.file"]
    series = read_any_series(
        path,
        time_column=record["time_column"],
        value_column=record["value_column"],
        unit=record["unit"],
        kind=record["kind"],
        zone=record["zone"],
        shown_as=str(path),
        form=form_of(record),
    )
    speed, depth = series.value, None
    if record["kind"] == "discharge":
        flow = flow_at(reach_of(given), series.value)
        speed, depth = np.where(flow.afloat, flow.speed, 0.0), flow.depth
    curve, drive = given.nodes["power_curve"], drive_of(keys)
    table = PowerTable(curve.stream_speed, curve.electrical_power, drive.cut_in_speed, drive.rated_power)
    power = power_at(table, speed)
    season = season_of(keys["place.season"])
    if season is not None:
        out, _ = outages(season, series.time, speed, depth, span_of(series).weight)
        power = np.where(out, 0.0, power)
    return even_series(series.time, power, UTC)


def _years(one: EvenSeries, grid: TimeGrid) -> dict[int, tuple[Floats, float]]:
    """Power of each recorded year in the hours of the wanted one, and how much of it was recorded.

    29 February is left out, or 28 February comes twice, where only one of the two is a leap year.
    """
    ends = one.grid.edges()[[0, -1]].astype("datetime64[s]").astype("datetime64[Y]").astype(np.int64) + 1970
    first, last = int(ends[0]), int(ends[1])
    found: dict[int, tuple[Floats, float]] = {}
    for year in range(max(first, 1900), min(last, 2200) + 1):
        hours = onto(one, year_grid(year, grid.interval))
        if hours.recorded < LEAST_RECORDED:
            continue
        value = filled(hours).value
        found[year] = (_same_days(value, grid), hours.recorded)
    return found


def _same_days(value: Floats, grid: TimeGrid) -> Floats:
    """The same dates in a year of another length."""
    day = 86400 // grid.interval
    if value.size > grid.count:
        return np.delete(value, np.s_[59 * day : 60 * day])
    if value.size < grid.count:
        return np.insert(value, 59 * day, value[58 * day : 59 * day])
    return value


def causes_of(given: Given) -> tuple[tuple[StopCause, ...], float]:
    """What stops are drawn from, and the availability that is spread evenly where nothing is."""
    parts: PartsAvailability | None = given.nodes["parts"]
    if parts is not None:
        return _of_parts(parts), 1.0
    stops = given.keys["machine.stops"]
    if stops:
        return tuple(StopCause(said(name), s["yearly"], s["each"]) for name, s in sorted(stops.items())), 1.0
    share: Availability = given.nodes["availability"]
    return (), share.share


def _of_parts(parts: PartsAvailability) -> tuple[StopCause, ...]:
    """Each part as a cause of stops of its mean length; together they leave the parts' availability."""
    found, left = [], 1.0
    for row in parts.rows:
        stops = row.failures + row.planned
        if stops <= 0.0 or row.lost_share <= 0.0:
            continue
        each = row.lost_share * YEAR / stops
        found.append(StopCause(row.name, row.lost_share / left * YEAR / each, each))
        left -= row.lost_share
    return tuple(found)


def _told(
    year: int, chosen: int, recorded: float, rated: float, sent: Floats, power: Floats, line: Any, causes: Any
) -> list[Remark]:
    told = []
    if chosen != year:
        text = (
            f"The record has no {year}: the water is that of {chosen}, a recorded year of middling energy. Load and "
            "water keep their dates, but a dry spell of one and a cold spell of the other may not fall together as "
            "they would."
        )
        told.append(Remark("caution", text, "water of the year"))
    if recorded < 1.0 - 1e-9:
        text = f"{100.0 * (1.0 - recorded):.2g} % of the water's year is missing and was filled from days about it."
        told.append(Remark("caution", text, "filled"))
    if not causes:
        text = "No stops are given: the stated availability is spread evenly, so that no hour is without the machine."
        told.append(Remark("caution", text, "stops"))
    if line["cable"] is not None:
        told.append(CAUTION)
    lost = float((sent - power).sum())
    if lost > 0.1 * float(sent.sum()) > 0.0:
        text = f"Converter and cable take {100.0 * lost / float(sent.sum()):.3g} % of the machines' energy."
        told.append(Remark("caution", text, "line"))
    return told
