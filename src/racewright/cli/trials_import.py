"""`racewright trials import`: logger files into the campaign's store, then reduced there."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.trials_case import trial_runs, trials_case
from racewright.cli.trials_words import figures, runs_table
from racewright.ledger.chain import scheme_hash
from racewright.ledger.trials_kept import campaign_folder
from racewright.records.campaign.store import open_campaign
from racewright.scheme import load_scheme


def import_trials(path: Path, run: str | None, case_name: str | None, *, as_json: bool) -> None:
    """Take in the logger files of a case's campaign; what is there already stays."""
    loaded = load_scheme(path)
    name, case, roles = trials_case(loaded, case_name)
    folder = campaign_folder(loaded, case.trials or "")
    with open_campaign(folder, make=True) as campaign, progress("import") as tick:
        runs = trial_runs(loaded, name, case, roles, campaign, tick)
        taken = runs.take_in(run, tick)
    if as_json:
        provenance = {"version": __version__, "command": "trials import", "scheme_sha256": scheme_hash(loaded)}
        answer = {"campaign": str(folder), "runs": [figures(one) for one in taken]}
        sys.stdout.write(to_json(answer, provenance) + "\n")
    sys.stderr.write(runs_table(taken, folder, runs.missing) + "\n")
