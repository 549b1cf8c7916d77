"""`racewright trials compare`: corrected readings beside the prediction of the as-built machine."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.trials_case import trials_case
from racewright.cli.trials_compared import compared_table, trials_figures
from racewright.cli.trials_csv import write_compared
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.trials_parts import trials_of
from racewright.records.table_out import check_target
from racewright.scheme import load_scheme

WANTED = ("campaign", "foulings", "corrected", "prediction_check", "doses")


def compare_trials(path: Path, csv: Path | None, case_name: str | None, *, as_json: bool) -> None:
    """Correct the readings, set them against prediction, look for fouling; print all, write a table when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case, roles = trials_case(loaded, case_name)
    with progress("compare") as tick:
        values = evaluate(loaded, name, case, wanted=WANTED, store=Store(cache_folder(), CLASSES), tick=tick)
    found = trials_of(roles, values)
    assert found is not None  # `trials_case` gives a case that has trials
    if csv is not None:
        write_compared(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "trials compare", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"trials": trials_figures(found)}, provenance) + "\n")
    sys.stderr.write(compared_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Readings: {csv}\n")
