"""The case that a command about a machine speaks of: the one named, or the first machine of the scheme."""

from __future__ import annotations

from racewright.ledger.inputs import case_of
from racewright.scheme import LoadedScheme
from racewright.scheme.model import CaseTable


def machine_case(loaded: LoadedScheme, case_name: str | None) -> tuple[str, CaseTable]:
    """Name and table of a case that has a machine.

    Raises
    ------
    InputError
        No machine in the case or the scheme.
    """
    name, case = case_of(loaded, case_name)
    if not name and loaded.scheme.machine:
        case = CaseTable(machine=next(iter(loaded.scheme.machine)))
    if case.machine is None:
        message = "no machine to compute; add a [machine.NAME] table and name it in the case"
        raise loaded.error(message, "case", *([name] if name else []))
    return name, case
