"""`racewright supply`: a village's hourly year in every way of supply, its upkeep and its money."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.supply_table import supply_table
from racewright.errors import NoAnswerError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.supply_findings import WANTED, SupplyFindings, supply_of, supply_remarks, upkeep_of
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme

_KWH = 3.6e6


def show_supply(path: Path, csv: Path | None, case_name: str | None, *, as_json: bool) -> None:
    """Compute and print supply, upkeep and money of a case; write the options as a table when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = case_of(loaded, case_name)
    at = ("case", name) if name else ("case",)
    for role, table in (("place", case.place), ("machine", case.machine), ("community", case.community)):
        if table is None:
            message = f"no {role}, so no hourly year; add a [{role}.NAME] table and {role} = 'NAME' to the case"
            raise loaded.error(message, *at)
    community = case.community or ""
    if loaded.scheme.community[community].supply is None:
        message = f"no hourly year; add a [community.{community}.supply] table, as the guide shows"
        raise loaded.error(message, "community", community)
    with progress("supply") as tick:
        values = evaluate(loaded, name, case, wanted=WANTED, store=Store(cache_folder(), CLASSES), tick=tick)
    supply, upkeep = supply_of(values), upkeep_of(values)
    if supply is None:
        raise NoAnswerError(
            "no hourly year: the place has no record with dates of which some calendar year is three quarters whole"
        )
    remarks = tuple(sorted(supply_remarks(values), key=lambda r: WORST_FIRST[r.severity]))
    if csv is not None:
        _write(csv, supply)
    if as_json:
        provenance = {"version": __version__, "command": "supply", "scheme_sha256": scheme_hash(loaded)}
        answer = {"case": name, "count": case.count, "supply": supply, "upkeep": upkeep, "remarks": list(remarks)}
        sys.stdout.write(to_json(answer, provenance, supply.year.currency) + "\n")
    sys.stderr.write(supply_table(supply, upkeep, remarks) + "\n")
    if csv is not None:
        sys.stderr.write(f"Ways of supply: {csv}\n")


def _write(csv: Path, supply: SupplyFindings) -> None:
    """One row for each way of supply, in the order of the terminal's table."""
    rows = supply.year.rows
    years = [row.year for row in rows]
    columns = [
        ("way", "-", np.arange(1, len(rows) + 1)),
        ("fuel", "m3", np.array([y.fuel for y in years])),
        ("fuel_saved", "m3", np.array([row.fuel_saved for row in rows])),
        ("trips", "-", np.array([row.trips for row in rows])),
        ("trips_saved", "-", np.array([row.trips_saved for row in rows])),
        ("without_supply", "h", np.array([y.unserved_time / 3600.0 for y in years])),
        ("unserved", "kWh", np.array([y.unserved_energy / _KWH for y in years])),
        ("unused", "kWh", np.array([y.unused_energy / _KWH for y in years])),
        ("sets", "kWh", np.array([y.sets_energy / _KWH for y in years])),
        ("all_sets_off", "h", np.array([y.no_set_time / 3600.0 for y in years])),
        ("money_saved", supply.year.currency, np.array([row.money_saved for row in rows])),
    ]
    write_table(csv, columns)
