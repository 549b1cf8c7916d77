"""Rules between the keys of a holding's tables."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from racewright.safety_factors import safety_factors
from racewright.scheme.anchor_tables import AnchorTable
from racewright.scheme.debris_tables import DebrisTable
from racewright.scheme.holding_tables import HoldingTable
from racewright.scheme.line_tables import LineTable, SegmentTable

Broken = tuple[str, tuple[str, ...]]

ANCHOR_KINDS = ("deadweight", "drag", "screw", "rock", "tie")
"""The tables of which an anchor has one at most."""
_DEBRIS_NEEDS = {"trunk": ("length", "diameter"), "crown": ("width", "height"), "raft": ("length", "wood")}


def holding_rules(holding: HoldingTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one holding."""
    if not holding.line:
        yield f"missing; a holding needs lines like [{'.'.join(at)}.line.port_bow]", (*at, "line")
    if holding.line and all(line.purpose == "power cable" for line in holding.line.values()):
        yield "only a power cable: one tether at least must hold the machine", (*at, "line")
    for name, line in holding.line.items():
        yield from _line(holding, line, (*at, "line", name))
    for name, anchor in holding.anchor.items():
        yield from _anchor(anchor, (*at, "anchor", name))
    for name, debris in holding.debris.items():
        yield from _debris(debris, (*at, "debris", name))
    yield from _logs(holding, at)
    yield from _factors(holding, at)
    link = holding.weak_link
    if link is not None:
        given = [key for key in ("slack", "stiffness", "retained") if getattr(link, key) is not None]
        if given and len(given) < 3:
            missing = next(key for key in ("slack", "stiffness", "retained") if key not in given)
            yield "missing; a retaining line wants slack, stiffness and retained", (*at, "weak_link", missing)


def _line(holding: HoldingTable, line: LineTable, at: tuple[str, ...]) -> Iterator[Broken]:
    yield from _known(line.anchor, holding.anchor, "anchor", at, (*at, "anchor"))
    if (line.fairlead is None) == (not line.bridle):
        yield "give a fairlead or a bridle of two legs and more, one of the two", (*at, "fairlead")
    if line.fairlead is not None:
        yield from _known(line.fairlead, holding.fairlead, "fairlead", at, (*at, "fairlead"))
    if len(line.bridle) == 1:
        yield "a bridle has two legs or more; for one leg give a fairlead", (*at, "bridle")
    for name, leg in line.bridle.items():
        here = (*at, "bridle", name)
        yield from _known(leg.fairlead, holding.fairlead, "fairlead", at, (*here, "fairlead"))
        yield from _segment(leg, here)
    if not line.segment:
        yield f"missing; a line is made of segments like [{'.'.join(at)}.segment.rope]", (*at, "segment")
    orders: dict[int, str] = {}
    for name, segment in line.segment.items():
        here = (*at, "segment", name)
        if segment.order in orders:
            message = f"{segment.order} is the order of '{orders[segment.order]}' too; number them from the anchor up"
            yield message, (*here, "order")
        orders[segment.order] = name
        yield from _segment(segment, here)


def _segment(segment: SegmentTable, at: tuple[str, ...]) -> Iterator[Broken]:
    for key in ("mass", "stiffness", "strength"):
        if segment.kind == "own" and getattr(segment, key) is None:
            yield f"missing; a line of kind 'own' has no packaged {key}", (*at, key)


def _anchor(anchor: AnchorTable, at: tuple[str, ...]) -> Iterator[Broken]:
    kinds = [key for key in ANCHOR_KINDS if getattr(anchor, key) is not None]
    if len(kinds) > 1:
        yield f"give one kind of anchor, not {' and '.join(kinds)}", (*at, kinds[1])
    block = anchor.deadweight
    if block is not None and (block.bed == "own") != (block.friction is not None):
        yield "is given with bed = 'own', and only then", (*at, "deadweight", "friction")
    tie = anchor.tie
    if tie is not None and tie.holding is not None and not tie.source.strip():
        yield "missing; say who states the holding, like source = 'pull test'", (*at, "tie", "source")
    rock = anchor.rock
    if rock is not None and rock.bar_diameter > rock.hole_diameter:
        yield "must not be above hole_diameter: the bar stands in its hole", (*at, "rock", "bar_diameter")
    if anchor.factor is not None and not anchor.factor_source.strip():
        yield "missing; say where the factor comes from", (*at, "factor_source")


def _debris(debris: DebrisTable, at: tuple[str, ...]) -> Iterator[Broken]:
    for key in _DEBRIS_NEEDS[debris.kind]:
        if getattr(debris, key) is None:
            yield f"missing; a {debris.kind} needs it", (*at, key)
    if debris.kind == "trunk" and (debris.length or 1.0) < (debris.diameter or 0.0):
        yield "must not be above the length", (*at, "diameter")


def _logs(holding: HoldingTable, at: tuple[str, ...]) -> Iterator[Broken]:
    for name, strike in holding.strike.items():
        if strike.diameter > strike.length:
            yield "must not be above the length", (*at, "strike", name, "diameter")
    for name, log in holding.log.items():
        here = (*at, "log", name)
        if log.lightest > log.heaviest:
            yield "must not be below lightest", (*here, "heaviest")
        if log.longest < log.length:
            yield "must not be below the median length", (*here, "longest")
    if holding.season and not holding.log:
        yield f"seasons without logs; add a table like [{'.'.join(at)}.log.spruce]", (*at, "season")
    parts = sorted((s.exceeded_from, s.exceeded_to, name) for name, s in holding.season.items())
    for low, high, name in parts:
        if low >= high:
            yield f"must be above exceeded_from, {low:g}", (*at, "season", name, "exceeded_to")
    for (_low, end, first), (start, _high, name) in pairwise(parts):
        if start < end - 1e-9:
            yield f"begins before '{first}' ends, at {end:g}", (*at, "season", name, "exceeded_from")
    total = sum(s.logs for s in holding.season.values())
    if holding.season and abs(total - 1.0) > 1e-6:
        yield f"the logs of the seasons sum to {total:g}; they must sum to 1", (*at, "season")


def _factors(holding: HoldingTable, at: tuple[str, ...]) -> Iterator[Broken]:
    known = safety_factors()
    factors = holding.factors
    wanted: list[tuple[str, tuple[str, ...], bool]] = [
        (factors.line_intact, (*at, "factors", "line_intact"), True),
        (factors.line_lost, (*at, "factors", "line_lost"), True),
    ]
    wanted += [(key, (*at, "factors", "edit", key), False) for key in factors.edit]
    for key, here, of_line in wanted:
        if key not in known:
            near = difflib.get_close_matches(key, list(known), n=1)
            yield f"no packaged factor {key!r}" + (f"; did you mean {near[0]!r}?" if near else ""), here
        elif of_line and known[key].group != "line":
            yield f"{key!r} is a factor for a {known[key].group}, not for a line", here


def _known(
    wanted: str, tables: Mapping[str, Any], kind: str, at: tuple[str, ...], here: tuple[str, ...]
) -> Iterator[Broken]:
    if wanted not in tables:
        near = difflib.get_close_matches(wanted, list(tables), n=1)
        hint = f"; did you mean {near[0]!r}?" if near else f"; add [{'.'.join(at[:2])}.{kind}.{wanted}]"
        yield f"no {kind} {wanted!r}{hint}", here
