"""Readings of a campaign as CSV files: a comment row of units, the header, the rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from pathlib import Path

from racewright.cli.trials_kept import KeptReading
from racewright.cli.trials_units import TRIALS_UNITS
from racewright.ledger.trials_findings import TrialsFindings
from racewright.records.table_out import MARK, check_target
from racewright.records.whole_file import write_whole

Cell = str | int | float | None


def write_kept(path: Path, kept: Sequence[KeptReading]) -> None:
    """The readings as in the channel, every field a column."""
    names = [f.name for f in fields(KeptReading)]
    units = TRIALS_UNITS["KeptReading"]
    rows = [[getattr(one, name) for name in names] for one in kept]
    _write(path, [(name, units.get(name, "-")) for name in names], rows)


def write_compared(path: Path, found: TrialsFindings) -> None:
    """Every reading: in the channel, in the open stream, and beside its prediction where there is one."""
    channel = {(r.run, k): one for r in found.campaign.runs for k, one in enumerate(r.reduction.readings, start=1)}
    beside = {(row.run, row.number): row for row in found.check.rows}
    columns = [
        ("run", "-"), ("number", "-"), ("start", "s"), ("stream_speed", "m/s"), ("rotor_speed", "rad/s"),
        ("channel_tip_speed_ratio", "-"), ("channel_power_coefficient", "-"), ("channel_power_as_defined", "-"),
        ("channel_thrust_coefficient", "-"), ("method", "-"), ("stream_ratio", "-"), ("tip_speed_ratio", "-"),
        ("power_coefficient", "-"), ("power_uncertainty", "-"), ("thrust_coefficient", "-"),
        ("thrust_uncertainty", "-"), ("frontal_power_coefficient", "-"), ("predicted_power", "-"),
        ("predicted_low", "-"), ("predicted_high", "-"), ("predicted_thrust", "-"), ("power_residual", "-"),
        ("inside", "-"), ("value_within", "-"),
    ]  # fmt: skip
    rows: list[list[Cell]] = []
    for one in found.corrected:
        reading, row = channel[one.run, one.number], beside.get((one.run, one.number))
        told: list[Cell] = [None] * 7
        if row is not None:
            inside, within = (
                None if yes is None else "yes" if yes else "no" for yes in (row.inside, row.value_within)
            )
            told = [
                row.predicted_power, row.predicted_low, row.predicted_high, row.predicted_thrust, row.power_residual,
                inside, within,
            ]  # fmt: skip
        rows.append(
            [
                one.run, one.number, reading.start, reading.stream_speed, reading.rotor_speed,
                reading.tip_speed_ratio.value, reading.power_coefficient.value, reading.power_coefficient.as_defined,
                reading.thrust_coefficient.value, one.blockage.preferred, one.stream_ratio, one.tip_speed_ratio,
                one.power_coefficient, one.power_uncertainty, one.thrust_coefficient, one.thrust_uncertainty,
                None if one.power_coefficient is None else one.power_coefficient * found.frontal_share, *told,
            ]
        )  # fmt: skip
    _write(path, columns, rows)


def _write(path: Path, columns: Sequence[tuple[str, str]], rows: Sequence[Sequence[Cell]]) -> None:
    check_target(path)
    lines = [MARK + ", ".join(unit for _name, unit in columns), ",".join(name for name, _unit in columns)]
    lines += [",".join("" if cell is None else str(cell) for cell in row) for row in rows]
    write_whole(path, ("\n".join(lines) + "\n").encode())
