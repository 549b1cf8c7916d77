"""Sizes that meet every wish of a holding: net buoyancy and spread of fairleads."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from racewright.errors import NoAnswerError
from racewright.holding.layout import Layout
from racewright.holding.layout_proposals import propose_bridle_width, propose_buoyancy
from racewright.holding.layout_wishes import Wished, Wishes
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle
from racewright.ledger.holding_findings import Held, SizeProposal
from racewright.ledger.holding_waters import stream_of
from racewright.ledger.node import Given

_WIDEST = 3.0
"""Most that the fairleads are spread, over how they stand now. Own choice [-]."""


def proposals(given: Given, held: Held, layout: Layout, stream: Stream) -> tuple[SizeProposal, ...]:
    """Net buoyancy and spread of fairleads, each the least that meets every wish with the other left as it is."""
    table, keys = held.depths[0].intact, given.keys
    loads = given.nodes["held_loads"]
    centres = {o.name: (o.drag_x, 0.0, o.drag_up) for o in loads}
    states = tuple(o.state for o in loads)
    most = max(f.factor for f in held.factors if f.case in ("intact", "both"))
    wishes = Wishes(keys["holding.bed_clearance"], keys["holding.cover"], keys["holding.roll"], 1.0 / most)
    waters = [(stream, table.stream_speed[[0, -1]])]
    turned = [one for one in held.depths[1:] if one.intact.points[0][-1].heading != 0.0]
    shallow = min(held.depths, key=lambda one: one.depth)
    for one in [*turned, *([shallow] if shallow is not held.depths[0] else [])]:
        there = stream_of(given, one.depth, float(one.intact.stream_speed[-1]))
        waters.append((replace(there, heading=one.intact.points[0][-1].heading), one.intact.stream_speed[-1:]))
    wished = Wished(layout, tuple(waters), states, wishes, centres=centres, lost_in=1 + len(turned), lost=held.lost)
    net = layout.body.buoyancy - layout.body.weight
    half = max((abs(p[1]) for p in _leads(layout)), default=0.0)
    found = []
    try:
        bought = propose_buoyancy(wished)
        words = f"{bought.bed_clearance:.2f} m over the bed, {bought.cover:.2f} m of cover in the fastest water"
        found.append(SizeProposal("net buoyancy", net, bought.net, "N", bought.binds, f"{words}; {_ALL}", True))
    except NoAnswerError as fault:
        found.append(SizeProposal("net buoyancy", net, net, "N", "", str(fault), False))
    what = "fairleads from the middle plane"
    try:
        wide = propose_bridle_width(wished, widest=_WIDEST)
        words = f"a roll of {math.degrees(wide.roll):.1f} deg at most in the fastest water; {_ALL}"
        found.append(SizeProposal(what, half, wide.half_width, "m", wide.binds, words, True))
    except NoAnswerError as fault:
        found.append(SizeProposal(what, half, half, "m", "", str(fault), False))
    return tuple(found)


_ALL = (
    "with it clearances, cover, roll and lines keep what is wanted in every state in the fastest water, ahead and "
    "turned, and in the shallowest, no taut line goes slack, and with a tether lost the machine holds wherever it "
    "does now; one size at a time, and what the anchors then bear is not asked: compute again with it"
)


def _leads(layout: Layout) -> Iterator[tuple[float, float, float]]:
    for tether in layout.tethers:
        lead = tether.fairlead
        if isinstance(lead, Bridle):
            yield from lead.fairleads
        else:
            yield lead
