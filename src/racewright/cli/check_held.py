"""Could a holding float and reach, do its logs' seasons fill the year? Loads no numerical library, solves nothing."""

from __future__ import annotations

import math
from itertools import pairwise

from racewright.cli.check_water import River
from racewright.remark import Remark
from racewright.scheme import LoadedScheme
from racewright.scheme.holding_tables import HoldingTable
from racewright.scheme.line_tables import LineTable, SegmentTable

_DENSITY = {"fresh": 1000.0, "sea": 1025.0}
"""Near enough here [kg/m3]."""
_GIVES = {"polyester": 0.12, "nylon": 0.35}
_STIFF = 0.03
"""Stretch at which fibre ropes part, rounded, and that of all else, chain, wire and HMPE; from memory [-]."""
_WHOLE = 1e-6
"""Shares of the year that count as none [-]."""


def check_seasons(loaded: LoadedScheme, name: str) -> list[Remark]:
    """A caution where the seasons of a holding's logs leave out a part of the year."""
    parts = sorted((s.exceeded_from, s.exceeded_to) for s in loaded.scheme.holding[name].season.values())
    if not parts:
        return []
    edges = [(0.0, 0.0), *parts, (1.0, 1.0)]
    gaps = [(end, start) for (_, end), (start, _) in pairwise(edges) if start - end > _WHOLE]
    if not gaps:
        return []
    told = " and ".join(f"from {100.0 * a:.4g} % to {100.0 * b:.4g} %" for a, b in gaps)
    share = sum(b - a for a, b in gaps)
    text = (
        f"The seasons of the logs leave out {100.0 * share:.3g} % of the year, water exceeded {told} of the time: no"
        " log comes down in it, and all of the year's pass in the rest. Let a season follow on, with logs = 0"
        " if none come."
    )
    return [Remark("caution", text, f"holding {name}")]


def check_held(loaded: LoadedScheme, name: str, river: River | None) -> list[Remark]:
    """Cautions where a case's holding sinks, or a line is too short where the machine is meant to hang.

    Plain arithmetic on masses and straight lines: `tethers` finds the balance.
    """
    case = loaded.scheme.case[name]
    holding, place = loaded.scheme.holding.get(case.holding or ""), loaded.scheme.place.get(case.place or "")
    if holding is None or place is None:
        return []
    depth = place.depth
    if river is not None and case.across is not None:
        depth = river.curve.level(max(river.discharge)) - river.bed_at(case.across)
    height = case.hub_height
    if height is None and case.hub_depth is not None and depth is not None:
        height = depth - case.hub_depth
    if height is None:
        return []
    about = f"holding {case.holding}"
    found = [Remark("caution", text, about) for text in _sinks(holding, _DENSITY[place.water.kind], height)]
    water = "" if depth is None or case.hub_height is not None else f" in the highest water, {depth:.3g} m deep"
    return found + [Remark("caution", text, about) for text in _short(holding, height, water)]


def _sinks(holding: HoldingTable, density: float, height: float) -> list[str]:
    """Nothing where a line comes from above, as from a bridge."""
    body = holding.body
    lifted = density * body.displaced_volume
    above = [
        line
        for line in holding.line.values()
        if holding.anchor[line.anchor].height > height + max(holding.fairlead[f].up for f in _fairleads(line))
    ]
    if lifted > body.mass or above:
        return []
    return [
        f"It cannot float: {body.displaced_volume:.4g} m3 lift {lifted:.4g} kg in this water, and all that floats"
        f" weighs {body.mass:.4g} kg; no line comes from above. Add buoyancy or take off"
        f" {body.mass - lifted:.3g} kg and more."
    ]


def _short(holding: HoldingTable, height: float, water: str) -> list[str]:
    """One text for each line that parts before it is as long as its way."""
    texts = []
    for name, line in holding.line.items():
        anchor = holding.anchor[line.anchor]
        segments = list(line.segment.values())
        ways: list[tuple[str, list[SegmentTable]]]
        ways = [(leg.fairlead, [*segments, leg]) for leg in line.bridle.values()]
        ways = ways or [(key, segments) for key in _fairleads(line)]
        for fairlead, parts in ways:
            at = holding.fairlead[fairlead]
            way = math.dist((at.x, at.left, height + at.up), (-anchor.ahead, anchor.left, anchor.height))
            length = math.fsum(part.length for part in parts)
            longest = math.fsum(part.length * (1.0 + _stretch(part)) for part in parts)
            if way > longest:
                texts.append(
                    f"Line {name} cannot reach: it is {length:.4g} m long, {longest:.4g} m when it parts, and from"
                    f" anchor {line.anchor} to fairlead {fairlead} it is {way:.4g} m where the machine is meant to"
                    f" hang{water}. Lengthen it, or hang the machine nearer."
                )
    return texts


def _stretch(part: SegmentTable) -> float:
    """At which it parts [-]."""
    if part.strength is not None and part.stiffness is not None:
        return part.strength / part.stiffness
    return _GIVES.get(part.kind, _STIFF)


def _fairleads(line: LineTable) -> list[str]:
    return [leg.fairlead for leg in line.bridle.values()] or ([line.fairlead] if line.fairlead else [])
