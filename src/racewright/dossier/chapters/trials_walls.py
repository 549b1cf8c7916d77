"""Walls and surface taken off one reading, by every method side by side."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_words import coefficient, counted, named, percent, section, with_half
from racewright.dossier.document import Block, Column, Heading, Points, Table, Text
from racewright.dossier.text import signs
from racewright.dossier.trials_view import Shown, coverage
from racewright.ledger.trials_findings import TrialsFindings
from racewright.trials.blockage_result import Estimate
from racewright.trials.unbounded_record import UnboundedRecord


def walls(trials: TrialsFindings, at: Shown) -> tuple[Block, ...]:
    """Every correction of the reading nearest the design, side by side."""
    one = at.corrected
    title = "Corrected for the channel"
    if one is None:
        return section(title, "This reading has no correction.")
    told = one.blockage
    rows = [_raw(at), *(_method(e, at, trials, preferred=told.preferred) for e in told.estimates)]
    record = told.record
    if record is not None:
        rows.append(_record_row(record, preferred=told.preferred == "record"))
    columns = (
        Column("method", share=3.0),
        Column("state", share=1.1),
        Column("speed ratio", "end", 0.9),
        Column("tip-speed ratio", "end", 0.9),
        Column("CP", "end", 0.8),
        Column("CT", "end", 0.8),
        Column("why not valid", share=2.2),
    )
    kind = (
        "the rotor's load is measured"
        if trials.thrust_on == "rotor"
        else "the rotor's load is predicted, as the balance carries the whole machine, and its band counts as doubt"
    )
    caption = (
        f"Reading {named(at)}, nearest the design's tip-speed ratio, by every method; {kind}. Speed ratio: open "
        "stream over the channel's at equal thrust and rotor speed; the record stands at the channel's own speed and "
        "knows none."
    )
    best = "No method answers" if told.preferred is None else f"Taken: {_short(told.preferred, told.estimates)}"
    blocks: list[Block] = [
        Heading(title),
        Table(caption, columns, tuple(rows)),
        Text(f"{best}, because {signs(told.why)}." if told.preferred else f"{best}: {signs(told.why)}."),
        *_spread(at),
    ]
    if record is not None:
        blocks.append(Text(_record_words(record, trials.confidence)))
    notes = tuple(dict.fromkeys(signs(r.text) for r in told.remarks))
    return (*blocks, *((Points(notes),) if notes else ()))


def _raw(at: Shown) -> tuple[str, ...]:
    one = at.reading
    values = (one.tip_speed_ratio.value, one.power_coefficient.value, one.thrust_coefficient.value)
    return ("in the channel, as measured", "\u2013", "1.0000", *(fmt.number(v, 3) for v in values), "")


def _method(one: Estimate, at: Shown, trials: TrialsFindings, *, preferred: str | None) -> tuple[str, ...]:
    title = signs(one.title)
    return (
        f"{title} (taken)" if one.method == preferred else title,
        one.state,
        coefficient(one.stream_ratio, 4),
        coefficient(one.tip_speed_ratio),
        coefficient(one.power_coefficient),
        coefficient(_thrust(one, at, trials)),
        signs("; ".join(one.reasons)),
    )


def _thrust(one: Estimate, at: Shown, trials: TrialsFindings) -> float | None:
    """CT of what the balance carries [-]."""
    if one.stream_ratio:
        return at.reading.thrust_coefficient.value / one.stream_ratio**2
    return one.thrust_coefficient if trials.thrust_on == "rotor" else None


def _record_row(record: UnboundedRecord, *, preferred: bool) -> tuple[str, ...]:
    return (
        "record: the same model at other blockages" + (" (taken)" if preferred else ""),
        "measured",
        "\u2013",
        fmt.number(record.tip_speed_ratio, 3),
        fmt.number(record.power_coefficient, 3),
        fmt.number(record.thrust_coefficient, 3),
        "" if record.complete else "no uncertainty",
    )


def _short(preferred: str, estimates: Sequence[Estimate]) -> str:
    if preferred == "record":
        return "the record of several blockages"
    return next((signs(e.title) for e in estimates if e.method == preferred), preferred)


def _spread(at: Shown) -> tuple[Block, ...]:
    spread = None if at.corrected is None else at.corrected.blockage.spread
    if spread is None:
        return (Text("No method is valid here, so there is no spread to tell."),)
    if len(spread.methods) == 1:
        return (Text("One method alone is valid here, so there is no spread to tell."),)
    thrust = at.reading.thrust_coefficient.value
    ct = sorted(thrust / ratio**2 for ratio in spread.stream_ratio)
    ends = [
        f"{name} {fmt.number(low, 3)} to {fmt.number(high, 3)}"
        for name, (low, high) in (
            ("CP", spread.power_coefficient), ("CT", (ct[0], ct[1])), ("tip-speed ratio", spread.tip_speed_ratio)
        )
    ]  # fmt: skip
    return (
        Text(f"The {len(spread.methods)} valid methods spread over {', '.join(ends)}. No mean of them is taken."),
    )


def _record_words(record: UnboundedRecord, confidence: float) -> str:
    blocked = sorted(record.blockages)
    half = [
        None if u is None else coverage(confidence) * u for u in (record.power_uncertainty, record.thrust_uncertainty)
    ]
    values = [
        fmt.number(v, 3) if h is None else with_half(v, h)
        for v, h in zip((record.power_coefficient, record.thrust_coefficient), half, strict=True)
    ]
    said = (
        f"The record holds {counted(len(blocked), 'blockage')} at the same tip-speed ratio, rotor annulus over "
        f"channel {fmt.quantity(blocked[0], fmt.SHARE)} to {fmt.quantity(blocked[-1], fmt.SHARE)}. Straight lines "
        f"over blockage times CT give CP {values[0]} and CT {values[1]} at no blockage ({percent(confidence)})."
    )
    if record.misfit is not None:
        said += f" CP lies {fmt.number(record.misfit, 2)} of its own uncertainty off the line on average."
    return said
