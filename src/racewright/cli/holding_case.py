"""The case and the findings of a command about a holding."""

from __future__ import annotations

from racewright.cli.progress import progress
from racewright.errors import NoAnswerError
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.holding_parts import HoldingFindings, holding_of
from racewright.ledger.inputs import case_of
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import LoadedScheme


def holding_findings(
    loaded: LoadedScheme, case_name: str | None, wanted: tuple[str, ...], what: str
) -> tuple[str, HoldingFindings]:
    """Name of the case, and what was found of its holding.

    Parameters
    ----------
    loaded : LoadedScheme
    case_name : str or None
        The first case when None.
    wanted : tuple of str
        Nodes to compute.
    what : str
        Of the command, for its progress.

    Raises
    ------
    InputError
        When the case has no machine, place or holding.
    NoAnswerError
        When the holding gives no answer.
    """
    name, case = case_of(loaded, case_name)
    at = ("case", name) if name else ("case",)
    for role, table in (("machine", case.machine), ("place", case.place), ("holding", case.holding)):
        if table is None:
            message = f"no {role}, so nothing is held; add a [{role}.NAME] table and {role} = 'NAME' to the case"
            raise loaded.error(message, *at)
    with progress(what) as tick:
        values = evaluate(loaded, name, case, wanted=wanted, store=Store(cache_folder(), CLASSES), tick=tick)
    found = holding_of(roles_of(loaded.scheme, name, case), values)
    if found is None:
        raise NoAnswerError("The holding gave no answer.")
    return name, found
