"""`racewright trials reduce`: readings from the campaign's store."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.trials_case import trial_runs, trials_case
from racewright.cli.trials_csv import write_kept
from racewright.cli.trials_kept import kept_readings
from racewright.cli.trials_words import readings_table
from racewright.ledger.chain import scheme_hash
from racewright.ledger.trials_kept import campaign_folder
from racewright.records.campaign.store import open_campaign
from racewright.records.table_out import check_target
from racewright.scheme import load_scheme


def reduce_trials(
    path: Path, csv: Path | None, run: str | None, case_name: str | None, *, anew: bool, as_json: bool
) -> None:
    """Reduce the runs of a campaign and print its readings; a run that has not changed is not reduced again."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case, roles = trials_case(loaded, case_name)
    with open_campaign(campaign_folder(loaded, case.trials or "")) as campaign:
        with progress("reduce") as tick:
            runs = trial_runs(loaded, name, case, roles, campaign, tick)
            reduced = runs.reduce(run, tick, anew=anew)
        kept = kept_readings(campaign, [one.run for one in reduced])
    if csv is not None:
        write_kept(csv, kept)
    if as_json:
        provenance = {"version": __version__, "command": "trials reduce", "scheme_sha256": scheme_hash(loaded)}
        answer = {
            "readings": kept,
            "reduced": [one.run for one in reduced if one.reduction is not None],
            "kept": [one.run for one in reduced if one.reduction is None],
            "remarks": list(runs.missing),
        }
        sys.stdout.write(to_json(answer, provenance) + "\n")
    confidence = roles.find("trials").reduction.confidence
    sys.stderr.write(readings_table(kept, reduced, runs.missing, confidence) + "\n")
    if csv is not None:
        sys.stderr.write(f"Readings: {csv}\n")
