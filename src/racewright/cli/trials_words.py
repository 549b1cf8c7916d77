"""Campaigns as tables on the terminal, and as figures for JSON."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from racewright.ledger.trials_findings import Compared, Corrected, TrialsFindings
from racewright.ledger.trials_parts import of_readings
from racewright.ledger.trials_store import COEFFICIENTS, NUMBERS, QUANTITIES, Imported, Reduced
from racewright.records.campaign.store import Campaign, Run
from racewright.remark import Remark

_SHOWN = 30
"""Readings on the terminal; all of them stand in the JSON and in the store."""


@dataclass(frozen=True)
class KeptReading:
    """One reading as the store keeps it.

    Attributes
    ----------
    run : str
    number : int
        Of the reading in its run, from 1 [-].
    start, end : float
        After the run's first row [s].
    stream_speed, mean_speed : float
        Cube mean and plain mean [m/s].
    turbulence_intensity : float
        [-]
    torque, rotor_speed, thrust, power : float
        [N m], [rad/s], [N], [W]
    temperature, depth : float
        [K], [m]
    blockage, froude_number, chord_reynolds, cavitation_number : float
        [-]
    power_coefficient, torque_coefficient, thrust_coefficient, tip_speed_ratio : float
        As in the channel [-].
    power_uncertainty, torque_uncertainty, thrust_uncertainty, ratio_uncertainty : float
        Their standard uncertainties [-].
    """

    run: str
    number: int
    start: float
    end: float
    stream_speed: float
    mean_speed: float
    turbulence_intensity: float
    torque: float
    rotor_speed: float
    thrust: float
    power: float
    temperature: float
    depth: float
    blockage: float
    froude_number: float
    chord_reynolds: float
    cavitation_number: float
    power_coefficient: float
    torque_coefficient: float
    thrust_coefficient: float
    tip_speed_ratio: float
    power_uncertainty: float
    torque_uncertainty: float
    thrust_uncertainty: float
    ratio_uncertainty: float


_UNCERTAIN = dict(
    zip(
        COEFFICIENTS,
        ("power_uncertainty", "torque_uncertainty", "thrust_uncertainty", "ratio_uncertainty"),
        strict=True,
    )
)


def kept_readings(campaign: Campaign, runs: Sequence[str]) -> list[KeptReading]:
    """The readings of some runs, in order."""
    found = []
    wanted = {key for key, _unit in QUANTITIES} | {*NUMBERS, *COEFFICIENTS}
    for run in runs:
        spans = {int(row[1]): (float(row[2]), float(row[3])) for row in campaign.rows("span", run) if row[4]}
        values: dict[int, dict[str, float]] = {place: {} for place in spans}
        for _run, place, quantity, value, uncertainty, _freedom, _unit in campaign.rows("reading", run):
            if quantity in wanted:
                values[int(place)][quantity] = float(value)
            if quantity in _UNCERTAIN:
                values[int(place)][_UNCERTAIN[quantity]] = float(uncertainty)
        for number, place in enumerate(sorted(spans), start=1):
            found.append(KeptReading(run, number, *spans[place], **values[place]))
    return found


@dataclass(frozen=True)
class ImportedRun:
    """What became of one logger file.

    Attributes
    ----------
    run : Run
    fresh : bool
        False when the store had the file already.
    readings : int or None
        Steady readings found now; None where the kept ones still hold [-].
    """

    run: Run
    fresh: bool
    readings: int | None


def figures(one: Imported) -> ImportedRun:
    """What JSON says of an import."""
    found = one.reduced.reduction
    return ImportedRun(one.run, one.fresh, None if found is None else len(found.readings))


def runs_table(taken: Sequence[Imported], folder: Path, missing: Sequence[Remark]) -> str:
    """What became of each file."""
    lines = [f"Campaign: {folder}"]
    for one in taken:
        run = one.run
        said = "taken in" if one.fresh else "was there already"
        notes = [f"{run.rows} rows, {run.seconds:.1f} s"]
        if run.repeated:
            notes.append(f"{run.repeated} repeated stamps spread evenly")
        if run.cut_short:
            notes.append("last line had no end and was left out")
        lines.append(f"  {run.run}: {run.file} {said}; {', '.join(notes)}")
    lines += _reduced([one.reduced for one in taken])
    lines.append("Next: racewright trials reduce SCHEME, or trials compare SCHEME")
    return "\n".join(lines + _said(missing))


def readings_table(kept: Sequence[KeptReading], reduced: Sequence[Reduced], missing: Sequence[Remark]) -> str:
    """Readings with their uncertainty, and the stretches that gave none."""
    head = ("run", "no.", "from s", "U m/s", "TI %", "TSR", "CP", "+- (k=2)", "CT", "+- (k=2)", "Re/1e5", "Fr")
    rows = [
        (
            one.run,
            str(one.number),
            f"{one.start:.0f}",
            f"{one.stream_speed:.3f}",
            f"{100 * one.turbulence_intensity:.1f}",
            f"{one.tip_speed_ratio:.3f}",
            f"{one.power_coefficient:.4f}",
            f"{2 * one.power_uncertainty:.4f}",
            f"{one.thrust_coefficient:.4f}",
            f"{2 * one.thrust_uncertainty:.4f}",
            f"{one.chord_reynolds / 1e5:.2f}",
            f"{one.froude_number:.3f}",
        )
        for one in kept[:_SHOWN]
    ]
    lines = _aligned(head, rows) if rows else ["No steady reading."]
    if len(kept) > _SHOWN:
        lines.append(f"... and {len(kept) - _SHOWN} more; --json has all of them.")
    lines.append(
        "On the rotor annulus and the channel's own speed; 'racewright trials compare' corrects for the channel."
    )
    return "\n".join([*lines, *_reduced(reduced), *_said(missing)])


def _reduced(reduced: Sequence[Reduced]) -> list[str]:
    """Each run in a line: readings, what was refused and flagged."""
    lines = []
    for run in reduced:
        if run.reduction is None:
            lines.append(f"{run.run}: unchanged, not reduced again")
            continue
        left = sum(r.end - r.start for r in run.reduction.refusals)
        flagged = ", ".join(f"{f.channel} {100 * f.share:.2f} %" for f in run.reduction.flags if f.share > 0.0)
        lines.append(
            f"{run.run}: {len(run.reduction.readings)} readings, {left:.0f} of {run.reduction.duration:.0f} s"
            f" refused; flagged: {flagged or 'nothing'}"
        )
        lines += _said([*run.reduction.remarks, *of_readings(run.run, run.reduction.readings)])
    return lines


def compared_table(found: TrialsFindings) -> str:
    """Corrected readings beside the prediction, residuals by region, fouling, debris."""
    head = ("run", "no.", "TSR", "method", "U ratio", "CP", "+- (k=2)", "predicted", "band", "residual %", "in band")
    methods = {(c.run, c.number): c.blockage.preferred for c in found.corrected}
    rows = [_compared(one, methods[one.run, one.number] or "", found.corrected) for one in found.check.rows[:_SHOWN]]
    lines = _aligned(head, rows) if rows else ["No reading can be compared."]
    for region in found.check.regions:
        lines.append(
            f"{region.region} design tip-speed ratio: CP {100 * region.power_residual:+.1f} %,"
            f" CT {100 * region.thrust_residual:+.1f} % of the prediction;"
            f" {region.inside} of {region.loads} loads in band"
        )
    for dose in found.doses:
        lines.append(
            f"debris {dose.card.name}: {dose.entered} entered, {dose.passed} passed, {dose.struck} struck,"
            f" {dose.lodged} lodged, {dose.unseen} unseen"
        )
    return "\n".join(lines + _said(found.remarks))


def _compared(one: Compared, method: str, corrected: Sequence[Corrected]) -> tuple[str, ...]:
    own = next(c for c in corrected if (c.run, c.number) == (one.run, one.number))
    known = one.predicted_power is not None and one.predicted_low is not None and one.predicted_high is not None
    return (
        one.run,
        str(one.number),
        f"{one.tip_speed_ratio:.3f}",
        method,
        "\u2013" if own.stream_ratio is None else f"{own.stream_ratio:.4f}",
        f"{one.measured_power:.4f}",
        f"{2 * one.power_uncertainty:.4f}",
        f"{one.predicted_power:.4f}" if known else "-",
        f"{one.predicted_low:.3f}..{one.predicted_high:.3f}" if known else "-",
        f"{100 * one.power_residual:+.1f}" if one.power_residual is not None else "-",
        "-" if one.inside is None else "yes" if one.inside else "no",
    )


def _aligned(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> list[str]:
    width = [max(len(row[i]) for row in (head, *rows)) for i in range(len(head))]
    return ["  ".join(cell.rjust(w) for cell, w in zip(row, width, strict=True)) for row in (head, *rows)]


def _said(remarks: Sequence[Remark]) -> list[str]:
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
