"""`racewright check`: is the scheme sound, and can its data files be read? Loads no numerical library."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path

from racewright import __version__
from racewright.cli.check_drive import check_generator
from racewright.cli.check_held import check_held, check_seasons
from racewright.cli.check_others import check_community, check_sound, check_stress
from racewright.cli.check_place import PlaceRead, check_place
from racewright.cli.check_rows import check_rows
from racewright.cli.check_trials import check_trials
from racewright.cli.check_water import check_fit, check_levels, river_of
from racewright.cli.check_zones import check_zones
from racewright.remark import Remark
from racewright.scheme import LoadedScheme, load_scheme
from racewright.scheme.holding_tables import HoldingTable

COUNTED = ("record_rows", "transect_points", "gaugings", "spot_speeds")
"""What is counted of a place."""


def check_scheme(path: Path, *, as_json: bool) -> None:
    """Check a scheme and every data file that it names; print what was found."""
    loaded = load_scheme(path)
    check_zones(loaded)
    read = {name: check_place(loaded, name) for name in loaded.scheme.place}
    rows = {name: found.counts for name, found in read.items()}
    scheme, remarks = loaded.scheme, _doubts(loaded, read)
    lines = [f"{path}: {_verdict(remarks)}. Format {loaded.written_format}{_older(loaded)}."]
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
    lines += [f"  {one.severity}: {one.about}: {one.text}" for one in remarks]
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
            "remarks": [asdict(one) for one in remarks],
            "units": {f"places.{n}.{k}": "-" for n in rows for k in COUNTED},
            "provenance": {"version": __version__, "command": "check"},
        }
        sys.stdout.write(json.dumps(answer, indent=1, allow_nan=False) + "\n")
    sys.stderr.write("\n".join(lines) + "\n")


def _verdict(remarks: list[Remark]) -> str:
    if not remarks:
        return "sound"
    return f"can be computed, with {len(remarks)} caution{'' if len(remarks) == 1 else 's'} below"


def _doubts(loaded: LoadedScheme, read: Mapping[str, PlaceRead]) -> list[Remark]:
    """What is no fault, but wants a look."""
    rivers = {name: river_of(loaded, name, found) for name, found in read.items()}
    remarks: list[Remark] = []
    for name, river in rivers.items():
        if river is not None:
            remarks += check_levels(loaded, name, river)
    for name in loaded.scheme.holding:
        remarks += check_seasons(loaded, name)
    for name, case in loaded.scheme.case.items():
        river = rivers.get(case.place or "")
        remarks += [*check_fit(loaded, name, river), *check_held(loaded, name, river)]
    return remarks


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
