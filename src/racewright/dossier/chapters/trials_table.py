"""The table of readings, kept to a page."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_words import coefficient, counted, measured, named, percent, with_half
from racewright.dossier.document import Block, Column, Table, Text
from racewright.dossier.text import clean
from racewright.dossier.trials_view import Shown
from racewright.ledger.trials_findings import TrialsFindings
from racewright.uncertainty import coverage_factor

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
        Column("reading", share=1.7),
        Column("speed, m/s", "end", 1.1),
        Column("tip-speed ratio", "end", 1.1),
        Column("CP", "end", 2.1),
        Column("CP as defined", "end", 1.4),
        Column("CP in the open", "end", 2.1),
        Column("CP frontal", "end", 1.3),
        Column("CT", "end", 2.0),
    )
    caption = (
        "Readings as measured in the channel, on the rotor annulus (hub to throat wall), \u00b1 at "
        f"{percent(trials.confidence)}. Speed: cube mean over time and probes. As defined: without the correction of "
        "the cube mean for turbulence that the machine does not follow. In the open: corrected for the channel; "
        "frontal: the same on the circle that the duct blocks."
    )
    numbers = Table(_numbers_caption(trials), _number_columns(trials), tuple(_numbers(s, trials) for s in kept))
    table = Table(caption, columns, tuple(_row(s, trials) for s in kept))
    rest = [s for s in shown if s not in kept]
    return (table, numbers, *((Text(_rest(rest)),) if rest else ()))


def _number_columns(trials: TrialsFindings) -> tuple[Column, ...]:
    columns = (
        Column("in the channel", share=1.9),
        Column("begin, s", "end", 1.0),
        Column("turbulence, %", "end", 1.3),
        Column("Reynolds, thousands", "end", 1.3),
    )
    if trials.surface == "lid":
        return columns
    return (*columns, Column("Froude", "end", 0.9), Column("cavitation", "end", 1.0))


def _numbers_caption(trials: TrialsFindings) -> str:
    said = "Reynolds number of the blade chord at 0.7 of the tip radius, in the undisturbed stream"
    if trials.surface == "lid":
        return f"{said}. Under a lid there is no Froude number, and the static pressure for cavitation is not known."
    return f"{said}; Froude number of the depth; cavitation number of the stream at the rotor's top."


def _numbers(one: Shown, trials: TrialsFindings) -> tuple[str, ...]:
    numbers = one.reading.numbers
    told = (
        named(one),
        fmt.number(one.reading.start, 0),
        fmt.number(100.0 * one.reading.turbulence_intensity, 1),
        fmt.number(numbers.chord_reynolds / 1e3, 0),
    )
    if trials.surface == "lid":
        return told
    return (*told, coefficient(numbers.froude_number), coefficient(numbers.cavitation_number, 1))


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


def _row(one: Shown, trials: TrialsFindings) -> tuple[str, ...]:
    reading = one.reading
    open_stream = None if one.corrected is None or one.fouled else one.corrected.power_coefficient
    return (
        named(one) + (", fouled" if one.fouled else ""),
        fmt.number(reading.stream_speed, 3),
        fmt.number(reading.tip_speed_ratio.value, 3),
        measured(reading.power_coefficient, trials.confidence),
        fmt.number(reading.power_coefficient.as_defined, 3),
        _in_the_open(one, trials, open_stream),
        coefficient(None if open_stream is None else open_stream * trials.frontal_share),
        measured(reading.thrust_coefficient, trials.confidence),
    )


def _in_the_open(one: Shown, trials: TrialsFindings, value: float | None) -> str:
    """With half of its interval, where that is known."""
    if value is None or one.corrected is None or one.corrected.power_uncertainty is None:
        return coefficient(value)
    own = one.reading.power_coefficient
    freedom = max(own.degrees_of_freedom, 1.0)
    return with_half(value, one.corrected.power_uncertainty * coverage_factor(trials.confidence, freedom))


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
