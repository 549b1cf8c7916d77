"""`racewright trials reduce`: readings from the campaign's store."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.trials_case import trial_runs, trials_case
from racewright.cli.trials_words import kept_readings, readings_table
from racewright.ledger.chain import scheme_hash
from racewright.ledger.trials_store import campaign_folder
from racewright.records.campaign.store import open_campaign
from racewright.scheme import load_scheme


def reduce_trials(path: Path, run: str | None, case_name: str | None, *, anew: bool, as_json: bool) -> None:
    """Reduce the runs of a campaign and print its readings; a run that has not changed is not reduced again."""
    loaded = load_scheme(path)
    name, case, roles = trials_case(loaded, case_name)
    with open_campaign(campaign_folder(loaded, case.trials or "")) as campaign:
        with progress("reduce") as tick:
            runs = trial_runs(loaded, name, case, roles, campaign, tick)
            reduced = runs.reduce(run, tick, anew=anew)
        kept = kept_readings(campaign, [one.run for one in reduced])
    if as_json:
        provenance = {"version": __version__, "command": "trials reduce", "scheme_sha256": scheme_hash(loaded)}
        answer = {
            "readings": kept,
            "reduced": [one.run for one in reduced if one.reduction is not None],
            "kept": [one.run for one in reduced if one.reduction is None],
            "remarks": list(runs.missing),
        }
        sys.stdout.write(to_json(answer, provenance) + "\n")
    sys.stderr.write(readings_table(kept, reduced, runs.missing) + "\n")
