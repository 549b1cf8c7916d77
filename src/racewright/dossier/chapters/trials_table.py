"""The table of readings, kept to a page."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_words import PERCENT, counted, measured, named
from racewright.dossier.document import Block, Column, Table, Text
from racewright.dossier.text import clean
from racewright.dossier.trials_view import Shown
from racewright.ledger.trials_findings import TrialsFindings

MOST_ROWS = 25
"""Most readings in the table. Own choice: a page."""
_OF_ONE_LOAD = 3
"""Readings shown of a run at one load: its first, middle and last."""


def readings_table(trials: TrialsFindings, shown: Sequence[Shown]) -> tuple[Block, ...]:
    """At most 25 rows, and what the rest are.

    Parameters
    ----------
    trials : TrialsFindings
        Tells the runs at one load.
    shown : sequence of Shown
        Not empty.
    """
    kept = kept_rows(shown, {f.run for f in trials.foulings})
    columns = (
        Column("reading", share=1.9),
        Column("begin, s", "end", 0.9),
        Column("speed, m/s", "end", 0.9),
        Column("turbulence, %", "end", 1.3),
        Column("tip-speed ratio", "end", 0.9),
        Column("CP", "end", 1.7),
        Column("CT", "end", 1.7),
        Column("Reynolds, thousands", "end", 1.1),
        Column("Froude", "end", 0.9),
        Column("cavitation", "end", 1.0),
    )
    caption = (
        f"Readings as measured in the channel, on the rotor annulus (hub to throat wall), \u00b1 at {PERCENT}. "
        "Speed: cube mean over time and probes. Reynolds "
        "number of the blade chord at 0.7 of the tip radius, in the undisturbed stream; Froude number of the depth; "
        "cavitation number of the stream at the rotor's top."
    )
    table = Table(caption, columns, tuple(_row(s) for s in kept))
    rest = [s for s in shown if s not in kept]
    return (table, Text(_rest(rest))) if rest else (table,)


def kept_rows(shown: Sequence[Shown], one_load: set[str]) -> tuple[Shown, ...]:
    """Three of each run at one load, all others; evenly thinned where that is too many."""
    kept: list[Shown] = []
    for run in dict.fromkeys(s.run for s in shown):
        own = [s for s in shown if s.run == run]
        kept += _spaced(own, _OF_ONE_LOAD) if run in one_load else own
    return tuple(_spaced(kept, MOST_ROWS))


def _spaced(rows: list[Shown], most: int) -> list[Shown]:
    """First, last, and evenly spaced ones between."""
    if len(rows) <= most:
        return rows
    return [rows[round(k * (len(rows) - 1) / (most - 1))] for k in range(most)]


def _row(one: Shown) -> tuple[str, ...]:
    reading, numbers = one.reading, one.reading.numbers
    return (
        named(one) + (", fouled" if one.fouled else ""),
        fmt.number(reading.start, 0),
        fmt.number(reading.stream_speed, 3),
        fmt.number(100.0 * reading.turbulence_intensity, 1),
        fmt.number(reading.tip_speed_ratio.value, 3),
        measured(reading.power_coefficient),
        measured(reading.thrust_coefficient),
        fmt.number(numbers.chord_reynolds / 1e3, 0),
        fmt.number(numbers.froude_number, 3),
        fmt.number(numbers.cavitation_number, 1),
    )


def _rest(rest: Sequence[Shown]) -> str:
    told = []
    runs = list(dict.fromkeys(s.run for s in rest))
    for run in runs[:6]:
        own = [s.reading for s in rest if s.run == run]
        power = [r.power_coefficient.value for r in own]
        thrust = [r.thrust_coefficient.value for r in own]
        told.append(
            f"{len(own)} of run {clean(run)} (CP {_ends(power)}, CT {_ends(thrust)}, tip-speed ratio "
            f"{_ends([r.tip_speed_ratio.value for r in own])})"
        )
    if len(runs) > 6:
        told.append(f"those of {len(runs) - 6} more runs")
    left = counted(len(rest), "reading")
    return f"Not in the table, {left}: {'; '.join(told)}. The file results.json holds every one."


def _ends(values: Sequence[float]) -> str:
    low, high = fmt.number(min(values), 3), fmt.number(max(values), 3)
    return low if low == high else f"{low} to {high}"
