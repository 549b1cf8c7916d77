"""From the plain values of a tide's scheme table to its record, its tide and its site."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.ledger.place_inputs import form_of
from racewright.place.season import Season
from racewright.place.tide import tide
from racewright.place.tide_record import TideRecord
from racewright.place.tide_result import Tide
from racewright.place.tide_site import TidalSite, site_from_tide
from racewright.place.tide_turning import Turning
from racewright.records.tide_csv import read_tide
from racewright.tick import Tick, silent

_COLUMNS = {
    "level": ("value_column",),
    "along": ("value_column",),
    "east north": ("east_column", "north_column"),
    "speed direction": ("value_column", "direction_column"),
}


def tide_record_of(table: Any, path: Path) -> TideRecord:
    """The record in its file.

    Parameters
    ----------
    table : mapping
        `kind`, `time_column`, the columns of its kind, `unit`, `zone`, `delimiter`, `decimal`, `encoding`.
    path : Path

    Raises
    ------
    InputError
    """
    return read_tide(
        path,
        form=table["kind"],
        time_column=table["time_column"],
        value_columns=tuple(table[key] for key in _COLUMNS[table["kind"]]),
        unit=table["unit"],
        zone=table["zone"],
        shown_as=str(path),
        text=form_of(table),
    )


def tide_of(table: Any, record: TideRecord) -> Tide:
    """The tide fitted to the record.

    Parameters
    ----------
    table : mapping
        `latitude` [rad], `constituents` (names parted by blanks, or None), `infer`, `method`.
    record : TideRecord

    Raises
    ------
    InputError
    """
    named = table["constituents"]
    return tide(
        record,
        table["latitude"],
        constituents=tuple(named.split()) if named else None,
        infer=table["infer"],
        method=table["method"],
    )


def tidal_site_of(
    table: Any,
    found: Tide,
    *,
    cut_in_speed: float | None = None,
    season: Season | None = None,
    depth: float | None = None,
    hub_depth: float | None = None,
    outer_radius: float | None = None,
    tick: Tick = silent,
) -> TidalSite:
    """What the machine meets.

    Parameters
    ----------
    table : mapping
        `turning` (or None), `faces`, `swing_speed` [m/s], `turning_time` [s], `first_year` (None for the one after
        the record's last), `period`, `flood_direction` [rad], `speed_factor`, `slack_speed` [m/s].
    found : Tide
    cut_in_speed, season, depth, hub_depth, outer_radius, tick
        As for `place.site_from_tide`.

    Raises
    ------
    InputError
    """
    if season is not None and season.least_depth is not None:
        message = "a tide of speed does not say how deep the water is; give least_speed instead"
        raise InputError(message, key="season.least_depth")
    way, turning = table["turning"], None
    if way is not None:
        turning = Turning(way, table["faces"], table["swing_speed"], table["turning_time"])
    year = table["first_year"]
    if year is None:
        year = int(np.datetime64(found.last, "s").astype("datetime64[Y]").astype(np.int64)) + 1971
    return site_from_tide(
        found,
        turning,
        first_year=year,
        period=table["period"],
        flood_direction=table["flood_direction"],
        speed_factor=table["speed_factor"],
        cut_in_speed=cut_in_speed,
        slack_speed=table["slack_speed"],
        season=season,
        depth=depth,
        hub_depth=hub_depth,
        outer_radius=outer_radius,
        tick=tick,
    )
