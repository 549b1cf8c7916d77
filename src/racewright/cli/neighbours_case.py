"""The case that a command about fish, debris or sound speaks of, and what is found of its neighbours."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from typing import Any

from racewright.cautions import caution
from racewright.cli.energy_table import printable
from racewright.ledger.inputs import case_of
from racewright.ledger.neighbours_findings import NeighboursFindings
from racewright.passage.lines import ThroughLines
from racewright.remark import Remark
from racewright.scheme import LoadedScheme
from racewright.scheme.model import CaseTable

KEPT_STATIONS = 10
"""One station in so many of each streamline is printed. Own choice."""


def neighbours_case(loaded: LoadedScheme, case_name: str | None) -> tuple[str, CaseTable]:
    """Name and table of a case that has neighbours, and with them a machine and a place.

    Raises
    ------
    InputError
        No neighbours in the case or the scheme.
    """
    name, case = case_of(loaded, case_name)
    if case.neighbours is None:
        message = "no neighbours; add a [neighbours.NAME] table and neighbours = 'NAME' to the case"
        raise loaded.error(message, "case", *([name] if name else []))
    return name, case


def neighbours_figures(found: NeighboursFindings) -> NeighboursFindings:
    """The findings with one station in ten of every streamline, for print."""
    return _thinned(found)  # type: ignore[no-any-return]


def _thinned(value: Any) -> Any:
    if isinstance(value, ThroughLines):
        step = slice(None, None, KEPT_STATIONS)
        return dataclasses.replace(value, x=value.x[step], radius=value.radius[:, step], speed=value.speed[:, step])
    if isinstance(value, tuple):
        return tuple(_thinned(item) for item in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        inner = {f.name: getattr(value, f.name) for f in dataclasses.fields(value)}
        return dataclasses.replace(value, **{name: _thinned(item) for name, item in inner.items()})
    return value


def told(remarks: Iterable[Remark], *hazards: str) -> list[str]:
    """Remarks as lines, and the standing cautions of some hazards."""
    lines = ["", *(f"{r.severity}: {printable(r.text)}" for r in remarks)]
    return [*lines, *(f"caution: {caution(hazard).sentence}" for hazard in hazards)]
