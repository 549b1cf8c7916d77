"""`racewright programme`: what the steps of growth cost, how likely they pass, what stopping early is worth."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.growth_case import growth_case
from racewright.cli.programme_table import programme_table
from racewright.cli.progress import progress
from racewright.growth.programme_cash import ProgrammeCash
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.growth_findings import ProgrammeFound
from racewright.ledger.store import Store, cache_folder
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_programme(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print the programme; write its cash by quarter when asked.

    Raises
    ------
    InputError
        No growth in the case, or no programme in the growth.
    """
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = growth_case(loaded, case_name)
    table = loaded.scheme.growth[case.growth or ""]
    if table.programme is None:
        message = "no programme to compute; add a [growth.NAME.programme] table and what each size costs"
        raise loaded.error(message, "growth", case.growth or "")
    with progress("programme") as tick:
        store = Store(cache_folder(), CLASSES)
        found: ProgrammeFound = evaluate(loaded, name, case, wanted=("programme",), store=store, tick=tick)[
            "programme"
        ]
    currency = found.cash.terms.currency
    if csv is not None:
        _write(csv, found.cash, currency)
    if as_json:
        provenance = {"version": __version__, "command": "programme", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "programme": found}, provenance, currency) + "\n")
    sys.stderr.write(programme_table(found, invented=table.invented) + "\n")
    if csv is not None:
        sys.stderr.write(f"Cash by quarter (CSV): {csv}\n")


def _write(csv: Path, cash: ProgrammeCash, currency: str) -> None:
    """One row a quarter."""
    quarter = np.arange(1.0, cash.expected.size + 1.0)
    columns = (
        ("expected", cash.expected),
        ("if_all_pass", cash.if_all_pass),
        ("sum_low", cash.sum_low),
        ("sum_middle", cash.sum_middle),
        ("sum_high", cash.sum_high),
    )
    write_table(csv, [("quarter", "-", quarter), *((name, currency, values) for name, values in columns)])
