"""From the plain values of the neighbours' tables to what the rooms of fish, debris and sound know."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.ledger.place_inputs import form_of
from racewright.passage.fate import DoseCount
from racewright.passage.screen import Screen
from racewright.place.result import Site, Standing
from racewright.records.table_csv import read_columns
from racewright.sound.scaled_source import MeasuredSound
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint, State
from racewright.trials.doses import DoseRow

Keys = Mapping[str, Any]

DEPTH_KEYS = ("case.hub_depth", "case.hub_height", "place.depth")
"""Role paths that `axis_depth` and `water_depth` read, besides the site."""
DESIGN = "design point"
FASTEST = "fastest water, on load"
"""Names of the operating points."""
DAY = 86400.0
"""[s]"""
DISTANCES = (10.0, 30.0, 100.0, 300.0, 1000.0)
"""Where sound is told if the scheme says nothing: half decades, own choice [m]."""


@dataclass(frozen=True)
class Condition:
    """One operating point by name; `point` is None where there is no answer, with the reason."""

    name: str
    stream_speed: float
    rotor_speed: float
    point: OperatingPoint | None
    reason: str


def conditions(unit: Any, given: Any) -> tuple[Condition, ...]:
    """The design point, and the machine on load in the fastest water of the place."""
    nodes = given.nodes
    design: OperatingPoint = nodes["design_point"]
    found = [Condition(DESIGN, design.stream_speed, design.rotor_speed, design, "")]
    state = fastest_on_load(nodes["states"])
    if state is None or state.stream_speed == design.stream_speed:
        return tuple(found)
    vanes, blades = nodes["rows"]
    speed, turning = state.stream_speed, state.rotor_speed
    try:
        point = operating_point(unit, vanes, blades, nodes["flow"], nodes["water"], speed, turning)
        found.append(Condition(FASTEST, speed, turning, point, ""))
    except (InputError, NoAnswerError) as error:
        found.append(Condition(FASTEST, speed, turning, None, str(error)))
    return tuple(found)


def fastest_on_load(states: Sequence[State]) -> State | None:
    """The state on load at the highest stream speed; None where the drive has no answer at any."""
    return max((s for s in states if s.name == "on load"), key=lambda s: s.stream_speed, default=None)


def axis_depth(keys: Keys, site: Site) -> float:
    """Axis below the surface at median flow [m].

    Raises
    ------
    InputError
        Neither the case nor the place tells it.
    """
    depth = keys["case.hub_depth"]
    if depth is None and keys["case.hub_height"] is not None:
        water = water_depth(keys, site)
        depth = None if water is None else water - keys["case.hub_height"]
    if depth is None:
        message = "missing; fish and sound want to know how deep the axis lies, like hub_depth = '1.2 m'"
        raise InputError(message, key="hub_depth")
    return float(depth)


def water_depth(keys: Keys, site: Site) -> float | None:
    """Depth of the water at the machine at median flow, else as stated; None where it is not known [m]."""
    median = next((s.depth for s in site.standings if "median" in s.label), None)
    found = median if median is not None else keys["place.depth"]
    return None if found is None else float(found)


def flowing(site: Site) -> tuple[Standing, ...]:
    """Standings with a known discharge and moving water, by growing speed."""
    return tuple(sorted((s for s in site.standings if s.discharge > 0.0 and s.speed > 0.0), key=lambda s: s.speed))


def discharge_at(site: Site, stream_speed: float) -> float | None:
    """The river's discharge at a stream speed, linear between its standings and level beyond them [m3/s].

    Beyond the fastest standing the river carries more than told, so the share that passes the machine is told too
    high: the safe side.
    """
    known = flowing(site)
    if not known:
        return None
    return float(np.interp(stream_speed, [s.speed for s in known], [s.discharge for s in known]))


def dose_of(name: str, drift: Keys, doses: Sequence[DoseRow] | None) -> DoseCount | None:
    """The dose that overrides one kind of debris; None where the geometry answers.

    Raises
    ------
    InputError
        The case's trials have no such dose, or nothing of it entered the duct.
    """
    wanted = drift["dose"]
    if wanted is None:
        return None
    key = f"{name}.dose"
    rows = {row.card.name: row for row in doses or ()}
    if wanted not in rows:
        known = ", ".join(rows) or "none"
        raise InputError(f"the case's trials have no dose {wanted!r}; they have {known}", key=key)
    row = rows[wanted]
    if row.entered < 1:
        raise InputError(f"no piece of the dose {wanted!r} entered the duct; it says nothing of what stays", key=key)
    where = f"dose {wanted} of the case's trials, on the model of the case"
    return DoseCount(row.entered, row.lodged, where)


def screen_of(table: Keys) -> Screen:
    """The bars."""
    return Screen(table["bar_thickness"], table["bar_gap"], table["area"], table["slope"], table["shape"])


def measured_of(table: Keys, path: Path) -> MeasuredSound:
    """Band levels in their file; faults name it.

    The scheme states a standard uncertainty; the room takes a half width of about 95 %, twice that.
    """
    names = [table[f"{key}_column"] for key in ("frequency", "with", "background")]
    columns = read_columns(path, dict(zip(names, ("Hz", "1", "1"), strict=True)), str(path), form_of(table))
    try:
        return MeasuredSound(
            columns[names[0]],
            columns[names[1]],
            columns[names[2]],
            distance=table["distance"],
            relative_speed=table["relative_speed"],
            area=table["area"],
            uncertainty=2.0 * table["uncertainty"],
            where=table["where"],
        )
    except InputError as fault:
        if fault.key in ("frequency", "with_machine", "background"):
            raise InputError(f"{fault.key}: {fault.message}", file=str(path)) from None
        raise
