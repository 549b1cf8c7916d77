"""The case that a command about trials speaks of, with the roles of its tables and its runs."""

from __future__ import annotations

from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.roles import Roles, roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.trials_store import TrialRuns
from racewright.ledger.trials_things import tested
from racewright.records.campaign.store import Campaign
from racewright.scheme import LoadedScheme
from racewright.scheme.model import CaseTable
from racewright.tick import Tick


def trials_case(loaded: LoadedScheme, case_name: str | None) -> tuple[str, CaseTable, Roles]:
    """The case named, else the first that has trials.

    Raises
    ------
    InputError
        No such case, or none with trials.
    """
    if case_name is None:
        case_name = next((n for n, c in loaded.scheme.case.items() if c.trials is not None), None)
    name, case = case_of(loaded, case_name)
    if case.trials is None:
        message = "no trials in any case; add a [trials.NAME] table and trials = 'NAME' to a case"
        raise loaded.error(message, "case", *([name] if name else []))
    return name, case, roles_of(loaded.scheme, name, case)


def trial_runs(
    loaded: LoadedScheme, name: str, case: CaseTable, roles: Roles, campaign: Campaign, tick: Tick
) -> TrialRuns:
    """The runs of an open campaign, with the machine that was tested."""
    values = evaluate(loaded, name, case, wanted=("rows", "flow"), store=Store(cache_folder(), CLASSES), tick=tick)
    return TrialRuns(loaded, roles, campaign, tested(values["rows"], values["flow"]))
