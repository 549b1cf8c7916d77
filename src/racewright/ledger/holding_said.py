"""What a holding's statics say in words: what does not hold, what was not told."""

from __future__ import annotations

import numpy as np

from racewright.holding.statics_low_water import LowWater
from racewright.holding.statics_sweep import Statics
from racewright.ledger.holding_debris import DEFAULT_TREE
from racewright.ledger.holding_findings import AtDepth
from racewright.ledger.node import Given
from racewright.remark import Remark


def remarks_of(
    given: Given, depths: list[AtDepth], lost: tuple[Statics, ...], tethers: list[str]
) -> tuple[Remark, ...]:
    found: list[Remark] = []
    for one in depths:
        found += _against(one)
    if len(tethers) == 1:
        text = f"'{tethers[0]}' is the only tether: when it is lost the machine drifts. Give it a second one."
        found.append(Remark("warning", text, "one line lost"))
    failing = _failing(lost)
    if failing:
        told = ", ".join(
            f"'{name}' in {len(cases)} ({', '.join(dict.fromkeys(cases.values()))})"
            for name, cases in failing.items()
        )
        text = f"With one line lost the machine does not hold its place or its shape in every load state: {told}."
        found.append(Remark("warning", text, "one line lost"))
    if given.keys["holding.speed_allowance"] > 1.0:
        text = (
            "The allowance on the speed is in lines, anchors, debris and single strikes whose speed is not given:"
            " strength, drive and resonance are still asked in the fastest water of the record, and a year of logs,"
            " which is a climate, at the record's own speeds."
        )
        found.append(Remark("caution", text, "fastest water"))
    else:
        text = (
            "The fastest water is that of the record, with nothing on it for doubt in the speed or for rarer floods;"
            " loads go with its square: a tenth more speed is a fifth more load. Say speed_allowance."
        )
        found.append(Remark("caution", text, "fastest water"))
    if not given.keys["holding.debris"]:
        length, diameter = DEFAULT_TREE
        text = (
            f"No debris is given: a trunk of {length:g} m by {diameter:g} m, square across, is taken for granted, an"
            " own choice without a source. Ask who lives at the river, and write [holding.NAME.debris.tree]."
        )
        found.append(Remark("caution", text, "debris"))
    seen = {text for one in depths for row in one.intact.points for p in row for text in p.remarks}
    for remark in sorted(seen, key=lambda r: r.text):
        if remark.about in ("strumming", "slack", "stability") and not any(r.about == remark.about for r in found):
            found.append(remark)
    return tuple(found)


def lowest_remarks(low: LowWater, lowest: float | None) -> tuple[Remark, ...]:
    """What the record's lowest water means, which is rarer than the low water of the tables."""
    if lowest is None:
        return ()
    if lowest <= 0.0:
        return (Remark("warning", "In the lowest water of the record the machine's place lies dry.", "low water"),)
    at = int(np.argmin(np.abs(low.depth - lowest)))
    if not low.reason[at]:
        return ()
    text = (
        f"In the lowest water of the record, {lowest:.2f} m deep, it does not hang as wanted: {low.reason[at]}"
        f" (water above it {low.cover[at]:.2f} m, below it {low.bed_clearance[at]:.2f} m). Say who takes the machine"
        " out before, or hang it elsewhere."
    )
    return (Remark("warning", text, "low water"),)


def _failing(lost: tuple[Statics, ...]) -> dict[str, dict[str, str]]:
    """Why each state does not hold, by the tether that is lost; the stream ahead counts before a turned one."""
    failing: dict[str, dict[str, str]] = {}
    for table in lost:
        for state, row, why in zip(table.states, table.feasible, table.reason, strict=True):
            if not row.all():
                reason = next(code for code, good in zip(why, row, strict=True) if not good)
                failing.setdefault(table.lost, {}).setdefault(state, reason)
    return failing


def _against(one: AtDepth) -> list[Remark]:
    """What stands against the layout in one depth, each reason once, with where it begins."""
    told: dict[str, str] = {}
    for i, row in enumerate(one.intact.points):
        for point in row:
            if not point.feasible and point.reasons:
                why = point.reasons[0]
                text = f"{why.text} First at {point.stream_speed:.2f} m/s, {one.intact.states[i]}, {one.label}."
                told.setdefault(why.code, text)
    return [Remark("warning", text, code) for code, text in told.items()]
