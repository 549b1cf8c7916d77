"""`racewright trials export`: a campaign out of its store, in open formats."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import get_args

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.trials_case import trials_case
from racewright.errors import InputError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.trials_beside import beside
from racewright.ledger.trials_kept import campaign_folder
from racewright.records.campaign.export import Kind, export_campaign
from racewright.records.campaign.store import open_campaign
from racewright.scheme import load_scheme


def export_trials(path: Path, out: Path, kind: str, case_name: str | None, *, as_json: bool) -> None:
    """Write every run and table to a new folder."""
    kinds: tuple[Kind, ...] = get_args(Kind)
    chosen = next((known for known in kinds if known == kind), None)
    if chosen is None:
        raise InputError(f"--format is {kind!r}; wanted one of {', '.join(kinds)}")
    loaded = load_scheme(path)
    _name, case, roles = trials_case(loaded, case_name)
    with open_campaign(campaign_folder(loaded, case.trials or "")) as campaign, progress("export") as tick:
        files = export_campaign(campaign, out, chosen, tick, beside(loaded, roles))
    if as_json:
        provenance = {"version": __version__, "command": "trials export", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"folder": str(out), "files": [f.name for f in files]}, provenance) + "\n")
    sys.stderr.write(f"Exported to {out}: {', '.join(f.name for f in files)}\n")
