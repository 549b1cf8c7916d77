"""Take in the logger files of a case's campaign, as `trials import` does, in a worker."""

from __future__ import annotations

from pathlib import Path

from racewright.tick import Tick, silent


def take_in(data: bytes, path: Path, case: str | None, tick: Tick = silent) -> list[str]:
    """Names of the runs that are in the store afterwards.

    Parameters
    ----------
    data : bytes
        The draft.
    path : Path
        Of the scheme's file.
    case : str or None
        The first with trials when None.
    tick : Tick
        A cancel leaves the runs that were taken in before.

    Raises
    ------
    InputError
        As `trials import` refuses a file, or a store in use.
    """
    from racewright.cli.trials_case import trial_runs, trials_case
    from racewright.desk.keeper.read import load_text
    from racewright.ledger.trials_kept import campaign_folder
    from racewright.records.campaign.store import open_campaign

    loaded = load_text(data, path)
    name, table, roles = trials_case(loaded, case)
    with open_campaign(campaign_folder(loaded, table.trials or ""), make=True) as campaign:
        runs = trial_runs(loaded, name, table, roles, campaign, lambda done: tick(0.3 * done))
        runs.take_in(None, lambda done: tick(0.3 + 0.7 * done))
        return [run.run for run in campaign.runs()]
