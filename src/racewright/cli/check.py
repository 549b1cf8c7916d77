"""`racewright check`: is the scheme sound, and can its data files be read? Loads no numerical library."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import cast

from racewright import __version__
from racewright.cli.check_drive import check_generator
from racewright.cli.check_file import check_file
from racewright.cli.check_others import check_community, check_sound, check_stress
from racewright.cli.check_rows import check_rows
from racewright.cli.check_trials import check_trials
from racewright.cli.check_zones import check_zones
from racewright.errors import InputError
from racewright.record_rules import SHORTEST, check_bins, check_joined, too_short
from racewright.records.csv_form import CsvForm
from racewright.records.series_check import check_series
from racewright.records.table_rows import read_cells
from racewright.records.tide_rows import TideForm, read_tide_rows
from racewright.scheme import LoadedScheme, load_scheme
from racewright.scheme.holding_tables import HoldingTable
from racewright.scheme.place_tables import GaugingsTable, RecordTable, TransectTable
from racewright.scheme.tide_tables import TideTable

LEAST_LEVELS = 3
"""Different gauged levels that fix a rating of stated zero level; two more fix the zero level too."""

COUNTED = ("record_rows", "transect_points", "gaugings", "spot_speeds")
"""What is counted of a place."""


def check_scheme(path: Path, *, as_json: bool) -> None:
    """Check a scheme and every data file that it names; print what was found."""
    loaded = load_scheme(path)
    check_zones(loaded)
    rows = {name: _check_place(loaded, name) for name in loaded.scheme.place}
    scheme = loaded.scheme
    lines = [f"{path}: sound. Format {loaded.written_format}{_older(loaded)}."]
    for name, (record_rows, transect_rows, gaugings) in rows.items():
        gauged = f", {gaugings} gaugings" if gaugings else ""
        transect = f", transect with {transect_rows} points" if transect_rows else ""
        rows_said = "a file of" if record_rows is None else f"{record_rows} rows of"
        record = scheme.place[name].record
        said = f"{len(scheme.place[name].spot)} spot speeds" if record is None else f"{rows_said} {record.kind}"
        if scheme.place[name].tide is not None:
            said = f"{rows_said} tide"
        lines.append(f"  place {name}: {said}{gauged}{transect}")
    for name in scheme.machine:
        lines.append(
            f"  machine {name}{_generator(loaded, name)}{check_rows(loaded, name)}{check_stress(loaded, name)}"
        )
    lines += [f"  holding {name}: {_held(table)}" for name, table in scheme.holding.items()]
    lines += [f"  neighbours {name}{check_sound(loaded, name)}" for name in scheme.neighbours]
    lines += [f"  community {name}{check_community(loaded, name)}" for name in scheme.community]
    lines += [f"  growth {name}" for name in scheme.growth]
    lines += [f"  trials {name}: {check_trials(loaded, name)}" for name in scheme.trials]
    lines += [f"  case {name}: {_joined(loaded, name)}" for name in scheme.case]
    if not scheme.case:
        lines.append("  no [case.NAME] table yet: a report will only say what is missing")
    if as_json:
        answer = {
            "sound": True,
            "places": {
                n: {
                    "record_rows": r,
                    "transect_points": t,
                    "gaugings": g,
                    "spot_speeds": len(scheme.place[n].spot),
                }
                for n, (r, t, g) in rows.items()
            },
            "machines": list(scheme.machine),
            "holdings": list(scheme.holding),
            "neighbours": list(scheme.neighbours),
            "communities": list(scheme.community),
            "growth": list(scheme.growth),
            "trials": list(scheme.trials),
            "cases": list(scheme.case),
            "units": {f"places.{n}.{k}": "-" for n in rows for k in COUNTED},
            "provenance": {"version": __version__, "command": "check"},
        }
        sys.stdout.write(json.dumps(answer, indent=1, allow_nan=False) + "\n")
    sys.stderr.write("\n".join(lines) + "\n")


def _check_place(loaded: LoadedScheme, name: str) -> tuple[int | None, int, int]:
    """Rows of the record, points of the transect, gaugings."""
    place = loaded.scheme.place[name]
    rows, gaugings = None, 0
    if place.record is not None:
        rows = check_file(loaded, place.record, ("place", name, "record"), _record_rows)
    if place.tide is not None:
        rows = check_file(loaded, place.tide, ("place", name, "tide"), _tide_rows)
    if place.gaugings is not None:
        gaugings = check_file(loaded, place.gaugings, ("place", name, "gaugings"), _gaugings) or 0
    if place.transect is None:
        return rows, 0, gaugings
    return rows, check_file(loaded, place.transect, ("place", name, "transect"), _transect_points) or 0, gaugings


def _record_rows(record: RecordTable, path: Path, form: CsvForm) -> int | None:
    shown = str(path)
    if record.kind == "histogram":
        columns = {record.from_column: record.unit, record.to_column: record.unit, record.value_column: "1"}
        low, high, share = read_cells(path, columns, shown, form)
        try:
            check_joined(low, high)
            check_bins([*low[:1], *high], share)
        except InputError as fault:
            raise InputError(fault.message, file=shown) from None
        return len(share)
    both = (record.time_column, record.value_column)
    rows = check_series(path, both, record.unit, record.kind, record.zone, shown, form)
    if rows is not None and rows < SHORTEST:
        raise InputError(too_short(rows), file=shown)
    return rows


def _tide_rows(table: TideTable, path: Path, form: CsvForm) -> int:
    columns = {
        "east north": (table.east_column, table.north_column),
        "speed direction": (table.value_column, table.direction_column),
    }
    found = read_tide_rows(
        path,
        form=cast(TideForm, table.kind),
        time_column=table.time_column,
        value_columns=columns.get(table.kind, (table.value_column,)),
        unit=table.unit,
        zone=table.zone,
        shown_as=str(path),
        text=form,
    )
    return len(found.times)


def _gaugings(table: GaugingsTable, path: Path, form: CsvForm) -> int:
    columns = {table.level_column: table.level_unit, table.discharge_column: table.discharge_unit}
    levels = read_cells(path, columns, str(path), form)[0]
    wanted = LEAST_LEVELS + (2 if table.zero_level is None else 0)
    if len(set(levels)) < wanted:
        message = f"{len(set(levels))} different gauged levels; at least {wanted} are needed to fit a rating"
        raise InputError(message, file=str(path))
    return len(levels)


def _transect_points(table: TransectTable, path: Path, form: CsvForm) -> int:
    columns = {table.distance_column: table.unit, table.bed_column: table.unit}
    return len(read_cells(path, columns, str(path), form)[0])


def _generator(loaded: LoadedScheme, name: str) -> str:
    points = check_generator(loaded, name)
    return f": generator table with {points} points" if points else ""


def _held(table: HoldingTable) -> str:
    parts = [(len(table.line), "line"), (len(table.anchor), "anchor"), (len(table.debris), "debris case")]
    return ", ".join(f"{count} {what}{'' if count == 1 else 's'}" for count, what in parts)


def _older(loaded: LoadedScheme) -> str:
    newest = loaded.scheme.format
    return f", read as format {newest}" if loaded.written_format < newest else ""


def _joined(loaded: LoadedScheme, name: str) -> str:
    case = loaded.scheme.case[name]
    kinds = ("place", "machine", "holding", "neighbours", "community", "growth", "trials")
    parts = [f"{kind} {getattr(case, kind)}" for kind in kinds if getattr(case, kind)]
    return ", ".join(parts) if parts else "joins nothing yet"
