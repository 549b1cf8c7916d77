"""The water of a place as the ledger reads it: its record, and its transect with the machine in it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from racewright.desk.seam import Asked
from racewright.ledger.graph import plan
from racewright.ledger.inputs import case_of
from racewright.ledger.node import Given
from racewright.ledger.place_inputs import form_of, reach_of
from racewright.place.reach import Reach
from racewright.place.result import Series
from racewright.records.series import read_any_series


def record_of(asked: Asked) -> Series | None:
    """The record of the case's place; None where it has none over time."""
    given = _given(asked)
    record: Any = None if given is None else given.keys["place.record"]
    if given is None or record is None or record["kind"] == "histogram":
        return None
    path = given.files["place.record.file"]
    return read_any_series(
        path,
        time_column=record["time_column"],
        value_column=record["value_column"],
        unit=record["unit"],
        kind=record["kind"],
        zone=record["zone"],
        shown_as=str(path),
        form=form_of(record),
    )


def reach_at(asked: Asked) -> Reach | None:
    """The rated transect with the machine in it; None where the place has no transect, or no rating."""
    given = _given(asked)
    if given is None or given.keys["place.transect"] is None:
        return None
    fit = asked.values("rating")["rating"]
    if fit is None and given.keys["place.rating"] is None:
        return None
    return reach_of(replace(given, nodes={"rating": fit}))


def _given(asked: Asked) -> Given | None:
    name, case = case_of(asked.loaded, asked.options.case)
    return plan(asked.loaded, name, case, ("site",)).given.get("site")
