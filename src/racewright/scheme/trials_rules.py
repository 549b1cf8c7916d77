"""Rules between the keys of a campaign's tables."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from racewright.quantity.units import UNITS
from racewright.scheme.trials_tables import ChannelTable, RunTable, TrialsTable

Broken = tuple[str, tuple[str, ...]]
DIMENSIONS = {
    "speed": "speed", "torque": "torque", "rotor_speed": "rotation", "thrust": "force", "level": "length",
    "temperature": "temperature",
}  # fmt: skip
"""Dimension of the reference values of a channel's calibration points, by what it measures."""
_ONE = ("torque", "rotor_speed", "thrust")


def trials_rules(trials: TrialsTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one campaign."""
    if not trials.channels:
        yield f"missing; a campaign needs channels like [{'.'.join(at)}.channels.shaft_torque]", (*at, "channels")
    for wanted in _ONE:
        count = sum(c.measures == wanted for c in trials.channels.values())
        if trials.channels and count != 1:
            yield f"{count} channels measure {wanted}; exactly one is wanted", (*at, "channels")
    speeds = [c for c in trials.channels.values() if c.measures == "speed"]
    if trials.channels and not speeds:
        yield "no channel measures speed; one or more are wanted", (*at, "channels")
    if speeds and not any(c.weight > 0.0 for c in speeds):
        yield "every probe of speed has the weight 0; give one at least a part", (*at, "channels")
    for name, channel in trials.channels.items():
        yield from _channel(trials, channel, (*at, "channels", name))
    for name, run in trials.runs.items():
        yield from _run(run, name, (*at, "runs", name))
    yield from _files(trials, at)
    rig = trials.rig
    if rig.axis_height >= rig.depth:
        message = f"the axis {rig.axis_height:g} m above the floor is not in water {rig.depth:g} m deep"
        yield message, (*at, "rig", "axis_height")
    found = trials.reduction
    if found.follows_least > found.follows_most:
        yield "must not be below follows_least", (*at, "reduction", "follows_most")
    cells = found.window / found.cell
    if abs(cells - round(cells)) > 1e-6 or cells < 24:
        yield "must be a whole number of cells, at least 24 of them", (*at, "reduction", "window")
    if trials.pieces is not None and not trials.doses:
        yield f"pieces without doses; add a table like [{'.'.join(at)}.doses.leaves]", (*at, "pieces")


def _channel(trials: TrialsTable, channel: ChannelTable, at: tuple[str, ...]) -> Iterator[Broken]:
    if channel.rate is not None:
        steps = trials.logger.rate / channel.rate
        if abs(steps - round(steps)) > 1e-6 or round(steps) < 1:
            message = f"{channel.rate:g} Hz must divide the logger's rate of {trials.logger.rate:g} Hz"
            yield message, (*at, "rate")
    if channel.lowest >= channel.highest:
        yield f"{channel.highest:g} must be above lowest, {channel.lowest:g}", (*at, "highest")
    if channel.stuck == 1:
        yield "one reading in a row is always equal to itself; write 0 (not tested) or 2 and more", (*at, "stuck")
    law = channel.calibration
    here = (*at, "calibration")
    if (law.coefficients is None) == (law.points is None):
        yield "give coefficients or points to fit them to, one of the two", here
        return
    if law.coefficients is not None and law.covariance is not None:
        size = len(law.coefficients)
        wanted = f"{size} coefficients have a covariance of {size} rows of {size}"
        if len(law.covariance) != size * size:
            yield f"has {len(law.covariance)} numbers; {wanted}", (*here, "covariance")
        elif not _could_be(law.covariance, size):
            yield "is no covariance: it must be symmetric, with 0 or more on its diagonal", (*here, "covariance")
    if law.points is not None and law.covariance is not None:
        yield "the covariance follows from the points; leave it away", (*here, "covariance")
    if law.points is not None and channel.measures != "other":
        wanted = DIMENSIONS[channel.measures]
        if getattr(UNITS.get(law.points.value_unit), "dimension", "") != wanted:
            yield f"{law.points.value_unit!r} is not a unit of {wanted}", (*here, "points", "value_unit")
    if law.lowest is not None and law.highest is not None and law.lowest >= law.highest:
        yield f"{law.highest:g} must be above lowest, {law.lowest:g}", (*here, "highest")


def _could_be(numbers: tuple[float, ...], size: int) -> bool:
    row = [numbers[i * size : (i + 1) * size] for i in range(size)]
    for i in range(size):
        for j in range(size):
            most = math.sqrt(max(row[i][i], 0.0) * max(row[j][j], 0.0))
            if abs(row[i][j] - row[j][i]) > 1e-9 * most or abs(row[i][j]) > most * (1.0 + 1e-9):
                return False
        if row[i][i] < 0.0:
            return False
    return True


def _run(run: RunTable, name: str, at: tuple[str, ...]) -> Iterator[Broken]:
    if not re.fullmatch(r"[A-Za-z0-9_-][A-Za-z0-9_.-]*", name):
        yield "a run's name is made of letters, digits, '_', '-' and '.'", at
    for tare, span in run.tares.items():
        if span.start >= span.end:
            yield f"{span.end:g} s must come after start, {span.start:g} s", (*at, "tares", tare, "end")
    if run.begin is not None and run.end is not None and run.begin >= run.end:
        yield f"{run.end:g} s must come after begin, {run.begin:g} s", (*at, "end")
    if run.one_load and not run.tares:
        yield "missing; fouling is looked for from tare to tare", (*at, "tares")
    if run.cleaned is not None and not run.one_load:
        yield "is of no use without one_load = true", (*at, "cleaned")


def _files(trials: TrialsTable, at: tuple[str, ...]) -> Iterator[Broken]:
    tables = [("logger", trials.logger), ("pieces", trials.pieces)]
    for key, table in tables:
        if table is not None and table.decimal == "comma" and table.delimiter == ",":
            yield (
                "decimal commas need another mark between cells; write delimiter = ';' or 'tab'",
                (*at, key, "delimiter"),
            )
