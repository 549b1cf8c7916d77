"""The quick answer: the design point on the flow that is at hand, in a tenth of a second."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from racewright.desk import memory
from racewright.desk.parts.machine_shape import row_shape, shape_of
from racewright.desk.seam import Asked
from racewright.flow.result import Axisymmetric
from racewright.ledger.convert import unit_of
from racewright.ledger.graph import NODES, Plan, plan
from racewright.ledger.inputs import case_of
from racewright.ledger.nodes_machine import design_rotor_speed
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.operating_point import operating_point

Rows = tuple[Row, Row]

_FLOWS: dict[str, Axisymmetric] = {}
"""Flows that this worker has seen, by ledger key; the last is the one at hand."""
_ROWS: dict[str, Rows] = {}
"""Rows of the design, not turned, by all that shapes them; the last are those at hand."""

KEPT = 6


def quick(asked: Asked) -> dict[str, Any]:
    """Shape and design point of a draft on what is at hand: no flow is solved, no row designed.

    `basis` says what the point stands on: 'computed' on the very flow and rows of the draft, 'before' on those of the
    last shape, scaled to it, 'none' where nothing is at hand (the point is None then).
    """
    return _answer(asked, design=False)


def settled(asked: Asked) -> dict[str, Any]:
    """As `quick`, with the rows designed anew; `basis` is 'before' only where the flow is not solved yet."""
    return _answer(asked, design=True)


def _answer(asked: Asked, *, design: bool) -> dict[str, Any]:
    name, case = case_of(asked.loaded, asked.options.case)
    planned = plan(asked.loaded, name, case, ("design_point",))
    if "design_point" not in planned.given:
        return {"basis": "none", "shape": None, "vanes": None, "rotor": None, "point": None}
    keys = planned.given["design_point"].keys
    shape = shape_of(keys)
    flow, solved = _flow(planned, shape.throat_radius)
    rows, designed = (None, False) if flow is None else _rows(planned, flow, asked, solved=solved, design=design)
    if flow is None or rows is None:
        return {"basis": "none", "shape": shape, "vanes": None, "rotor": None, "point": None}
    unit, (vanes, blades) = unit_of(keys), rows
    water = NODES["water"].compute(planned.given["water"], asked.tick)
    asked.tick(0.5)
    turning = design_rotor_speed(keys, blades)
    point = operating_point(unit, vanes, blades, flow, water, unit.design.stream_speed, turning)
    return {
        "basis": "computed" if solved and designed else "before",
        "shape": shape,
        "vanes": row_shape(vanes, unit.vanes.turned),
        "rotor": row_shape(blades, unit.blades.turned),
        "point": point,
    }


def _flow(planned: Plan, throat: float) -> tuple[Axisymmetric | None, bool]:
    """The flow, and whether it is the draft's own."""
    key = planned.keys["flow"]
    if key not in _FLOWS:
        found, value = memory.store().get(key)
        if not found:
            return _scaled(throat), False
        _keep(_FLOWS, key, value)
    _keep(_FLOWS, key, _FLOWS.pop(key))
    return _FLOWS[key], True


def _scaled(throat: float) -> Axisymmetric | None:
    """The last flow, all lengths over the throat's as they were."""
    if not _FLOWS:
        return None
    last = next(reversed(_FLOWS.values()))
    size = throat / float(last.duct_r.min())
    lengths = ("station_radius", "duct_x", "duct_r", "hub_x", "hub_r", "wake_x", "wake_r", "rotor_x")
    scaled: dict[str, Any] = {key: getattr(last, key) * size for key in lengths}
    return replace(last, **scaled, annulus_area=last.annulus_area * size**2)


def _rows(planned: Plan, flow: Axisymmetric, asked: Asked, *, solved: bool, design: bool) -> tuple[Rows | None, bool]:
    """The rows as they are run, and whether they are the draft's own."""
    given, water = planned.given["drawn_rows"], NODES["water"].compute(planned.given["water"], asked.tick)
    own = True
    if given.files:
        drawn = NODES["drawn_rows"].compute(replace(given, nodes={"flow": flow, "water": water}), asked.tick)
    else:
        plain = _not_turned(given.keys)
        key = repr((plain, planned.keys["flow"], planned.keys["water"]))
        turned = unit_of(given.keys)
        if key in _ROWS:
            shaped = _ROWS.pop(key)
        elif design:
            still = replace(given, keys=plain, nodes={"flow": flow, "water": water})
            shaped = NODES["drawn_rows"].compute(still, asked.tick)
        elif not _ROWS:
            found, value = memory.store().get(planned.keys["drawn_rows"])
            if not found:
                return None, False
            angles = (turned.vanes.turned, turned.blades.turned)
            shaped = tuple(
                replace(row, stagger=row.stagger - angle) for row, angle in zip(value, angles, strict=True)
            )
        else:
            own, shaped = False, _fitted(next(reversed(_ROWS.values())), turned, flow)
        if own and solved:
            _keep(_ROWS, key, shaped)
        drawn = tuple(
            replace(row, stagger=row.stagger + intent.turned)
            for row, intent in zip(shaped, (turned.vanes, turned.blades), strict=True)
        )
    built = NODES["built_rows"].compute(replace(planned.given["built_rows"], nodes={"drawn_rows": drawn}), asked.tick)
    nodes = {"drawn_rows": drawn, "built_rows": built}
    return NODES["rows"].compute(replace(planned.given["rows"], nodes=nodes), asked.tick), own


def _not_turned(keys: Mapping[str, Any]) -> dict[str, Any]:
    """The same scheme values with both rows at their design angle."""
    rows = {role: {**keys[role], "turned": 0.0} for role in ("machine.vanes", "machine.rotor")}
    return {**keys, **rows}


def _fitted(rows: Rows, unit: Unit, flow: Axisymmetric) -> Rows:
    """Earlier rows with the draft's counts, chords and places, stretched between its hub and wall."""
    hub, wall = float(flow.station_radius[0]), float(flow.station_radius[-1])
    found = []
    for row, intent in zip(rows, (unit.vanes, unit.blades), strict=True):
        tip = wall / (1.0 + intent.clearance)
        share = (row.radius - row.radius[0]) / (row.radius[-1] - row.radius[0])
        changed: dict[str, Any] = {
            "count": intent.count,
            "place_x": intent.place_x,
            "radius": hub + share * (tip - hub),
            "chord": intent.hub_chord + share * (intent.tip_chord - intent.hub_chord),
            "clearance": wall - tip,
        }
        found.append(replace(row, **changed))
    return found[0], found[1]


def _keep(held: dict[str, Any], key: str, value: Any) -> None:
    """Put it last, and let the oldest go."""
    held[key] = value
    while len(held) > KEPT:
        held.pop(next(iter(held)))
