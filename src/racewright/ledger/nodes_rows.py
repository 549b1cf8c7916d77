"""The rows' nodes: shaped by the design or given by their sections, then laid over with what was measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, MissingColumn
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.node import Given, Node
from racewright.machine.as_built import BuiltRow, Measurement, as_built
from racewright.machine.given_row import SectionTable, given_row
from racewright.machine.row import Row
from racewright.machine.row_fit import axial_gap, check_row_within
from racewright.machine.unit import RowIntent
from racewright.records.csv_form import PLAIN
from racewright.records.table_csv import read_columns
from racewright.stage.design import design_rows
from racewright.tick import Tick

Floats = NDArray[np.float64]
Rows = tuple[Row, Row]
Built = tuple[BuiltRow | None, BuiltRow | None]

_ROLES: tuple[tuple[str, Literal["vanes", "blades"]], ...] = (("machine.vanes", "vanes"), ("machine.rotor", "blades"))


def _drawn(given: Given, _tick: Tick) -> Rows:
    """Both rows, each from its sections where they are given, else from the design."""
    unit, flow = unit_of(given.keys), given.nodes["flow"]
    hub, wall = float(flow.station_radius[0]), float(flow.station_radius[-1])
    found: list[Row | None] = []
    for role, kind in _ROLES:
        table = given.keys[role]["sections"]
        intent = unit.vanes if kind == "vanes" else unit.blades
        found.append(_given(given, role, kind, table, intent, hub, wall) if table else None)
    vanes, blades = found
    if vanes is None or blades is None:
        shaped = design_rows(unit, flow, given.nodes["water"])
        families = [given.keys[role]["family"] for role, _kind in _ROLES]
        vanes = replace(shaped[0], family=families[0]) if vanes is None else vanes
        blades = replace(shaped[1], family=families[1]) if blades is None else blades
    if any(row is not None for row in found):
        for row in (vanes, blades):
            check_row_within(row, unit.duct)
        axial_gap(vanes, blades)
    return vanes, blades


def _given(
    given: Given,
    role: str,
    kind: Literal["vanes", "blades"],
    table: Mapping[str, Any],
    intent: RowIntent,
    hub: float,
    wall: float,
) -> Row:
    path = given.files[f"{role}.sections.file"]
    wanted = {"radius": "length", "chord": "length", "angle": "angle", "camber": "angle", "thickness": ""}
    wanted |= {key: "angle" for key in ("sweep", "lean") if table[f"{key}_column"] is not None}
    columns = _columns(path, table, wanted)
    none = np.zeros(0)
    sections = SectionTable(
        columns["radius"],
        columns["chord"],
        columns["angle"],
        columns["camber"],
        columns["thickness"],
        columns.get("sweep", none),
        columns.get("lean", none),
    )
    clearance = wall - wall / (1.0 + intent.clearance)
    try:
        row = given_row(
            sections,
            kind=kind,
            count=intent.count,
            place_x=intent.place_x,
            hub_radius=hub,
            wall_radius=wall,
            clearance=clearance,
            family=given.keys[role]["family"],
        )
    except InputError as fault:
        if fault.key in ("count", "place_x", "clearance"):
            raise
        raise InputError(f"{fault.key}: {fault.message}", file=str(path)) from None
    return replace(row, stagger=row.stagger + intent.turned)


def _built(given: Given, _tick: Tick) -> Built:
    """What was measured on each row, laid over it; None where nothing was."""
    found: list[BuiltRow | None] = []
    for (role, _kind), row in zip(_ROLES, given.nodes["drawn_rows"], strict=True):
        table = given.keys[role]["as_built"]
        found.append(_measured(given.files[f"{role}.as_built.file"], table, row) if table else None)
    return found[0], found[1]


def _measured(path: Path, table: Mapping[str, Any], row: Row) -> BuiltRow:
    columns = _columns(path, table, {"radius": "length"})
    for key, kind in (("chord", "length"), ("angle", "angle"), ("thickness", "")):
        try:
            columns |= _columns(path, table, {key: kind})
        except MissingColumn:
            continue
    none = np.zeros(0)
    measured = Measurement(
        table["part"],
        columns["radius"],
        columns.get("chord", none),
        columns.get("angle", none),
        columns.get("thickness", none),
        table["clearance"],
    )
    try:
        return as_built(row, measured)
    except InputError as fault:
        raise InputError(f"{fault.key}: {fault.message}", file=str(path)) from None


def _columns(path: Path, table: Mapping[str, Any], wanted: Mapping[str, str]) -> dict[str, Floats]:
    """Columns in SI by what they are."""
    units = {"length": table["length_unit"], "angle": table["angle_unit"], "": "1"}
    named = {table[f"{key}_column"]: units[kind] for key, kind in wanted.items()}
    found = read_columns(path, named, str(path), PLAIN)
    return {key: found[table[f"{key}_column"]] for key in wanted}


def _rows(given: Given, _tick: Tick) -> Rows:
    """As they are run: as built where that was measured."""
    drawn, built = given.nodes["drawn_rows"], given.nodes["built_rows"]
    vanes, blades = (row if over is None else over.row for row, over in zip(drawn, built, strict=True))
    return vanes, blades


ROW_NODES = (
    Node(
        "drawn_rows",
        1,
        _drawn,
        keys=UNIT_KEYS,
        files=("machine.vanes.sections.file", "machine.rotor.sections.file"),
        nodes=("flow", "water"),
        needs=("machine",),
    ),
    Node(
        "built_rows",
        1,
        _built,
        keys=("machine.vanes", "machine.rotor"),
        files=("machine.vanes.as_built.file", "machine.rotor.as_built.file"),
        nodes=("drawn_rows",),
        needs=("machine",),
    ),
    Node("rows", 3, _rows, nodes=("drawn_rows", "built_rows"), needs=("machine",)),
)
