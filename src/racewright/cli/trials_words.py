"""What became of a campaign's files and runs, in tables on the terminal."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from racewright.cli.aligned import aligned
from racewright.cli.trials_compared import SHOWN, said
from racewright.cli.trials_kept import KeptReading
from racewright.ledger.trials_parts import of_readings
from racewright.ledger.trials_store import Imported, Reduced
from racewright.records.campaign.store import Run
from racewright.remark import Remark
from racewright.trials.budget import coverage_factor


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
        became = "taken in" if one.fresh else "was there already"
        notes = [f"{run.rows} rows, {run.duration:.1f} s"]
        if run.repeated:
            notes.append(f"{run.repeated} repeated stamps spread evenly")
        if run.cut_short:
            notes.append("last line had no end and was left out")
        lines.append(f"  {run.run}: {run.file} {became}; {', '.join(notes)}")
    lines += _reduced([one.reduced for one in taken])
    lines.append("Next: racewright trials compare SCHEME; trials reduce SCHEME prints the readings as in the channel")
    return "\n".join(lines + said(missing))


def readings_table(
    kept: Sequence[KeptReading], reduced: Sequence[Reduced], missing: Sequence[Remark], confidence: float
) -> str:
    """Readings with their intervals at the stated confidence, and the stretches that gave none."""
    interval = f"+- ({100 * confidence:g} %)"
    lid = all(one.froude_number is None for one in kept)
    head: tuple[str, ...] = (
        "run", "no.", "from s", "U m/s", "TI %", "TSR", "CP", interval, "as defined", "frontal", "CT", interval,
        "Re/1e5",
    )  # fmt: skip
    rows: list[tuple[str, ...]] = [_row(one, confidence) for one in kept[:SHOWN]]
    if not lid:
        head = (*head, "Fr")
        rows = [(*row, f"{one.froude_number:.3f}") for row, one in zip(rows, kept, strict=False)]
    lines = aligned(head, rows) if rows else ["No steady reading."]
    if len(kept) > SHOWN:
        lines.append(f"... and {len(kept) - SHOWN} more; --csv and --json have all of them.")
    lines.append(
        "On the rotor annulus and the channel's own speed (frontal: CP as defined on the duct's frontal area);"
        " 'racewright trials compare' corrects for the channel."
    )
    return "\n".join([*lines, *_reduced(reduced), *said(missing)])


def _row(one: KeptReading, confidence: float) -> tuple[str, ...]:
    power = one.power_uncertainty * coverage_factor(one.power_freedom or math.inf, confidence)
    thrust = one.thrust_uncertainty * coverage_factor(one.thrust_freedom or math.inf, confidence)
    return (
        one.run,
        str(one.number),
        f"{one.start:.0f}",
        f"{one.stream_speed:.3f}",
        f"{100 * one.turbulence_intensity:.1f}",
        f"{one.tip_speed_ratio:.3f}",
        f"{one.power_coefficient:.4f}",
        f"{power:.4f}",
        f"{one.power_as_defined:.4f}",
        f"{one.frontal_power_coefficient:.4f}",
        f"{one.thrust_coefficient:.4f}",
        f"{thrust:.4f}",
        f"{one.chord_reynolds / 1e5:.2f}",
    )


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
        lines += said([*run.reduction.remarks, *of_readings(run.run, run.reduction.readings)])
    return lines
