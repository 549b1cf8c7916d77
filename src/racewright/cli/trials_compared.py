"""Corrected readings beside the prediction, as a table on the terminal and as figures for JSON."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

from racewright.cli.aligned import aligned
from racewright.ledger.trials_findings import Compared, Corrected, TrialsFindings
from racewright.remark import Remark
from racewright.trials.blockage_methods import CORRECTIONS
from racewright.trials.budget import coverage_factor
from racewright.trials.result import Reading

SHOWN = 30
"""Readings on the terminal; all of them stand in the JSON and in the CSV."""
DASH = "\u2013"
RECORD = "the same model at several blockages, taken to none at the channel's own speed: no ratio of speeds"


def compared_table(found: TrialsFindings) -> str:
    """Corrected readings beside the prediction, residuals by region, debris, remarks."""
    interval = f"+- ({100 * found.confidence:g} %)"
    head = (
        "run", "no.", "TSR", "CP channel", "as defined", "method", "U ratio", "CP", interval, "CP frontal",
        "predicted", "band", "residual %", "reaches", "within",
    )  # fmt: skip
    readings = {(r.run, k): one for r in found.campaign.runs for k, one in enumerate(r.reduction.readings, start=1)}
    corrected = {(c.run, c.number): c for c in found.corrected}
    rows = found.check.rows
    cells = [_row(one, corrected[one.run, one.number], readings[one.run, one.number], found) for one in rows[:SHOWN]]
    lines = aligned(head, cells) if cells else ["No reading can be compared."]
    if len(rows) > SHOWN:
        lines.append(f"... and {len(rows) - SHOWN} more; --csv and --json have all of them.")
    if cells:
        lines += legend({c.blockage.preferred or "" for c in found.corrected})
    for region in found.check.regions:
        lines.append(
            f"{region.region} design tip-speed ratio: CP {100 * region.power_residual:+.1f} %,"
            f" CT {100 * region.thrust_residual:+.1f} % of the prediction;"
            f" intervals reach the band at {region.inside} of {region.loads} loads ({region.readings} readings)"
        )
    for dose in found.doses:
        lines.append(
            f"debris {dose.card.name}: {dose.entered} entered, {dose.passed} passed, {dose.struck} struck,"
            f" {dose.lodged} lodged, {dose.unseen} unseen"
        )
    return "\n".join(lines + said(found.remarks))


def legend(methods: set[str]) -> list[str]:
    """What the columns and the methods mean."""
    told = [f"  {name}: {CORRECTIONS[name].title}" for name in CORRECTIONS if name in methods]
    if "record" in methods:
        told.append(f"  record: {RECORD}")
    return [
        "CP channel, as defined: on the rotor annulus and the channel's speed, with and without the cube mean"
        " corrected; CP: in the open stream; CP frontal: the same on the duct's frontal area; reaches: the interval"
        " reaches the predicted band; within: the value itself lies within it. Methods:",
        *told,
    ]


def _row(one: Compared, own: Corrected, reading: Reading, found: TrialsFindings) -> tuple[str, ...]:
    known = one.predicted_power is not None and one.predicted_low is not None and one.predicted_high is not None
    half = coverage_factor(math.inf, found.confidence) * one.power_uncertainty
    return (
        one.run,
        str(one.number),
        f"{one.tip_speed_ratio:.3f}",
        f"{reading.power_coefficient.value:.4f}",
        f"{reading.power_coefficient.as_defined:.4f}",
        own.blockage.preferred or DASH,
        DASH if own.stream_ratio is None else f"{own.stream_ratio:.4f}",
        f"{one.measured_power:.4f}",
        f"{half:.4f}",
        f"{one.measured_power * found.frontal_share:.4f}",
        f"{one.predicted_power:.4f}" if known else DASH,
        f"{one.predicted_low:.3f}..{one.predicted_high:.3f}" if known else DASH,
        f"{100 * one.power_residual:+.1f}" if one.power_residual is not None else DASH,
        _yes(one.inside),
        _yes(one.value_within),
    )


def _yes(told: bool | None) -> str:
    return DASH if told is None else "yes" if told else "no"


def said(remarks: Sequence[Remark]) -> list[str]:
    """Remarks, a line each."""
    return [f"{remark.severity}: {remark.text}" for remark in remarks]


def trials_figures(found: TrialsFindings) -> Any:
    """The findings with None where a number is infinite."""
    return _finite(found)


def _finite(value: Any) -> Any:
    """Infinite degrees of freedom become None; everything else stays."""
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: _finite(getattr(value, f.name)) for f in fields(value)})
    if isinstance(value, np.ndarray) and value.dtype.kind == "f":
        return value if np.isfinite(value).all() else [v if math.isfinite(v) else None for v in value.tolist()]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, tuple):
        return tuple(_finite(item) for item in value)
    return value
