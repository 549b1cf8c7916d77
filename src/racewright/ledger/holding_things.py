"""From a holding's plain scheme values to the body, its lines and its place."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.holding.added_mass import cylinder_across, duct_across, inertia_matrix, ring_along
from racewright.holding.body import Body, cylinder_outline
from racewright.holding.layout import Layout
from racewright.holding.line_segment import Segment, grown
from racewright.holding.line_table import segment
from racewright.holding.ring_wing import ring_wing
from racewright.holding.tether import Bridle, FixedPoint, Tether
from racewright.ledger.convert import Keys, duct_of
from racewright.ledger.place_inputs import outer_radius

Floats = NDArray[np.float64]
Table = Mapping[str, Any]

_OWN_DRAG = 1.2
"""Drag coefficient of a line of kind 'own' that says none: a long cylinder, as the packaged ropes have."""
BODY_KEYS = ("holding.body", "machine.duct")
LAYOUT_KEYS = (*BODY_KEYS, "holding.fairlead", "holding.anchor", "holding.line", "holding.growth")
"""Role paths that make a `Layout`, besides the water and the depth."""


def body_of(keys: Keys, density: float, gravity: float) -> Body:
    """The floating machine about the duct's leading edge on the axis."""
    table, duct = keys["holding.body"], duct_of(keys)
    outer, length = outer_radius(duct), duct.length
    outline = cylinder_outline(outer, 0.0, length)
    more = [(0.5 * length, 0.0, s * table[k]) for k, s in (("top", 1.0), ("bottom", -1.0)) if table[k] is not None]
    weight_at = (table["weight_x"], 0.0, table["weight_up"])
    side = table["side_drag_area"]
    return Body(
        weight=table["mass"] * gravity,
        buoyancy=table["displaced_volume"] * density * gravity,
        centre_of_weight=weight_at,
        centre_of_buoyancy=(table["buoyancy_x"], 0.0, table["buoyancy_up"]),
        outline=np.concatenate([outline, np.array(more, dtype=np.float64).reshape(-1, 3)]),
        thrust_centre=(0.5 * length, 0.0, 0.0),
        drag_centre=(0.5 * length, 0.0, table["drag_up"]),
        duct=ring_wing(2.0 * outer, length, (0.5 * length, 0.0, 0.0)),
        side_drag_area=2.0 * outer * length if side is None else side,
        side_drag_centre=(0.5 * length, 0.0, 0.0),
        inertia=_inertia(table, outer, length, duct.thickness, density),
    )


def _inertia(table: Table, outer: float, length: float, thickness: float, density: float) -> Floats:
    """Mass spread as a ring of the duct's size; water inside and about the duct moves with it across the axis.

    Along the axis the duct's ring moves water, and what of hub, struts and frame stands across the stream, of which
    no key tells the size: counted as one bar a fifth of the duct's radius thick and as long as the duct. Own choice,
    no source.
    """
    across = duct_across(density, outer, length)
    swing = across * length**2 / 12.0
    along = ring_along(density, outer, thickness * length) + cylinder_across(density, 0.1 * outer, length)
    rolling = 0.05 * table["mass"] * outer**2
    gyration = (0.8 * outer, math.hypot(0.55 * outer, length / math.sqrt(12.0)))
    middle = (0.5 * length, 0.0, 0.0)
    return inertia_matrix(
        table["mass"],
        (table["weight_x"], 0.0, table["weight_up"]),
        (gyration[0], gyration[1], gyration[1]),
        (along, across, across, rolling, swing, swing),
        middle,
    )


def layout_of(keys: Keys, density: float, gravity: float, height: float) -> Layout:
    """The body on its lines, the axis meant to hang `height` above the bed [m].

    Raises
    ------
    InputError
        A diameter outside the packaged table and the like, with the name of the line.
    """
    tethers = tuple(_tether(keys, name, line) for name, line in sorted(keys["holding.line"].items()))
    return Layout(body_of(keys, density, gravity), tethers, (0.0, 0.0, height))


def _tether(keys: Keys, name: str, line: Table) -> Tether:
    anchor, fairleads = keys["holding.anchor"][line["anchor"]], keys["holding.fairlead"]
    coat = keys["holding.growth"]
    try:
        parts = sorted(line["segment"].values(), key=lambda part: part["order"])
        segments = tuple(_segment(part, coat) for part in parts)
        legs = sorted(line["bridle"].items())
        lead: Any = (
            Bridle(
                tuple(_lead(fairleads[leg["fairlead"]]) for _, leg in legs),
                tuple((_segment(leg, coat),) for _, leg in legs),
            )
            if legs
            else _lead(fairleads[line["fairlead"]])
        )
    except InputError as fault:
        raise InputError(f"line '{said(name)}': {fault.message}", key=fault.key) from None
    fixed = FixedPoint((-anchor["ahead"], anchor["left"], anchor["height"]), anchor["on"], _uplift(anchor))
    return Tether(said(name), fixed, segments, lead, line["drag_factor"], line["purpose"])


def said(name: str) -> str:
    """A table's name as a reader is told it."""
    return name.replace("_", " ")


def _lead(table: Table) -> tuple[float, float, float]:
    return (table["x"], table["left"], table["up"])


def _uplift(anchor: Table) -> float:
    """What the fixed point bears upwards: nothing for an anchor that digs in, its weight for a block."""
    if anchor["deadweight"] is not None:
        block = anchor["deadweight"]
        return float(block["mass"] * 9.80665 * (1.0 - 1000.0 / block["density"]))
    return 0.0 if anchor["drag"] is not None else math.inf


def _segment(part: Table, coat: float) -> Segment:
    if part["kind"] == "own":
        area = 0.25 * math.pi * part["diameter"] ** 2
        drag = _OWN_DRAG if part["drag_coefficient"] is None else part["drag_coefficient"]
        found = Segment(
            f"own {1e3 * part['diameter']:g} mm", part["length"], part["diameter"], part["mass"], area,
            part["stiffness"], part["strength"], drag,
        )  # fmt: skip
    else:
        found = segment(
            part["kind"], part["length"], part["diameter"], part["grade"], spliced=part["spliced"],
            strength=part["strength"], mass=part["mass"], stiffness=part["stiffness"],
            drag_coefficient=part["drag_coefficient"],
        )  # fmt: skip
    return grown(found, coat) if coat > 0.0 else found
