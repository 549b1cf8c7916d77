"""Ripple, fouling, and what of the records was not used."""

from __future__ import annotations

import math
from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_words import TIME, counted, named, percent, section, without_figures
from racewright.dossier.document import Block, Column, Heading, Picture, Table, Text
from racewright.dossier.text import clean, sentence, signs
from racewright.dossier.trials_figures import MOST_DRAWN, has_ripple, traces
from racewright.dossier.trials_view import Shown
from racewright.ledger.trials_findings import RunFouling, RunReduced, TrialsFindings
from racewright.trials.flags import FlagCount
from racewright.trials.ripple_noise import FALSE_ALARMS
from racewright.trials.zeros import Zero

_SURE = percent(0.95)
"""Confidence of what is said of fouling."""
_ZERO_UNITS = {"torque": fmt.TORQUE, "thrust": fmt.FORCE, "speed": fmt.SPEED, "level": fmt.LENGTH}
_MOST_REASONS = 14


def ripple(at: Shown) -> tuple[Block, ...]:
    """Order spectrum of the reading nearest the design."""
    one, rig = at.reading, at.rig
    title = "Torque ripple"
    if not has_ripple(one):
        return section(
            title, f"Reading {named(at)} has no order spectrum: the torque has no mean or too few readings a turn."
        )
    last = float(one.ripple.order[-1])
    beyond = [
        f"{word} passing (order {count})"
        for word, count in (("blade", rig.blades), ("vane", rig.vanes))
        if count > last
    ]
    limit = ""
    if beyond:
        turns = one.rotor_speed / (2.0 * math.pi)
        limit = (
            f"The torque was logged too slowly to see {' and '.join(beyond)}: at {fmt.number(abs(turns), 1)} turns a "
            f"second that wants over {fmt.number(abs(turns) * max(rig.blades, rig.vanes) / 0.45, 0)}{fmt.THIN}Hz."
        )
    blocks: list[Block] = [Heading(title)]
    if limit:
        blocks.append(Text(limit))
    named_peaks = "; ".join(f"order {p.order} {fmt.fixed(p.share, fmt.SHARE, 2)}" for p in one.ripple.peaks)
    blocks.append(
        Picture(
            "trial_ripple",
            f"Reading {named(at)}: half of peak to peak over the mean torque, by multiples and half-multiples of the "
            "rotor's frequency. A multiple stands out of the frequencies beside it on both sides; where there is no "
            f"ripple, noise makes some multiple do so in {fmt.fixed(FALSE_ALARMS, fmt.SHARE, 0)} of readings.",
            f"Orders up to {fmt.number(last, 0)}; standing out: {named_peaks or 'none'}.",
        )
    )
    if one.ripple.peaks:
        columns = (
            Column("order", share=0.8),
            Column("what passes", share=2.4),
            *(Column(n, "end", 1.2) for n in ("frequency", "amplitude", "over the mean", "floor")),
        )
        rows = tuple(
            (
                str(p.order),
                p.name,
                fmt.join(fmt.number(p.frequency, 2), fmt.Scale("Hz", 1.0)),
                fmt.quantity(p.amplitude, fmt.TORQUE),
                fmt.fixed(p.share, fmt.SHARE, 2),
                fmt.quantity(p.floor, fmt.TORQUE),
            )
            for p in one.ripple.peaks
        )
        blocks.append(Table("Orders that stand out; floor: median of the frequencies beside them.", columns, rows))
    return tuple(blocks)


def fouling(trials: TrialsFindings) -> tuple[Block, ...]:
    """One table for all runs at one load, a trace for each of the first few."""
    title = "Fouling"
    if not trials.foulings:
        return section(title, "No run was made at one load, so fouling was not looked for.")
    columns = (
        Column("run", share=1.4),
        *(
            Column(n, "end", 1.1)
            for n in ("loss", f"loss, {_SURE}", "onset", "alarm", "given back", f"given back, {_SURE}")
        ),
    )
    blocks: list[Block] = [Heading(title)]
    for k, (run, _trace) in enumerate(traces(trials)[:MOST_DRAWN], start=1):
        blocks.append(_trace_picture(k, run))
    told = [f for f in trials.foulings if f.found is not None]
    if told:
        caption = (
            "Share of the torque lost at the end of the run or just before cleaning, and what cleaning gave back."
        )
        blocks.append(Table(caption, columns, tuple(_fouled(f) for f in told)))
        first = told[0].found
        alarm = "" if first is None else f"An alarm wants a {signs(first.threshold)}."
        blocks.append(Text(sentence(alarm, _CANNOT)))
    for one in trials.foulings:
        if one.found is None:
            blocks.append(Text(f"Run {clean(one.run)}: fouling was not looked for, {clean(one.reason)}."))
    return tuple(blocks)


_CANNOT = (
    "A probe of speed that fouls by itself, a torque calibration that changes by more than its zero, and a real "
    "change of the machine look alike here. Readings from the onset on are left out of the comparison, but for "
    "those after a cleaning that gave all of the loss back."
)


def _trace_picture(k: int, run: RunFouling) -> Picture:
    found = run.found
    caption = (
        f"Run {clean(run.run)}: block means (dots) and their mean (line) of the torque over what stream and rotor "
        "speed explain."
    )
    if found is not None and found.found:
        caption += f" Dashed: the loss as fitted; the bar at its end is its {_SURE} interval."
    loss = "" if found is None else f" Loss {fmt.fixed(found.loss, fmt.SHARE, 1)} at the end."
    return Picture(
        f"trial_fouling_{k}",
        caption,
        f"Torque over what the flow explains in run {clean(run.run)}.{loss}",
    )


def _fouled(run: RunFouling) -> tuple[str, ...]:
    f = run.found
    assert f is not None  # the caller's choice
    back = "\u2013" if f.recovered is None else fmt.fixed(f.recovered, fmt.SHARE, 1)
    span = "\u2013"
    if f.recovered_low is not None and f.recovered_high is not None:
        span = f"{fmt.number(100.0 * f.recovered_low, 1)} to {fmt.fixed(f.recovered_high, fmt.SHARE, 1)}"
    return (
        clean(run.run),
        fmt.fixed(f.loss, fmt.SHARE, 1),
        f"{fmt.number(100.0 * f.loss_low, 1)} to {fmt.fixed(f.loss_high, fmt.SHARE, 1)}",
        _minutes(f.onset) if f.found else "\u2013",
        "none" if f.alarm_time is None else _minutes(f.alarm_time),
        back,
        span,
    )


def _minutes(seconds: float) -> str:
    return f"{fmt.number(seconds / 60.0, 0)}{fmt.THIN}min"


def not_used(trials: TrialsFindings) -> tuple[Block, ...]:
    """Refused stretches, flagged readings, tares."""
    runs = trials.campaign.runs
    tables = (_refused(runs), _flagged(runs), _tares(trials))
    found = [t for t in tables if t is not None]
    if not found:
        return section("What was not used", "Nothing was refused and nothing flagged.")
    return Heading("What was not used"), *found


def _refused(runs: Sequence[RunReduced]) -> Table | None:
    groups: dict[str, list[float]] = {}
    whole = sum(r.reduction.duration for r in runs)
    for run in runs:
        for one in run.reduction.refusals:
            for reason in dict.fromkeys(without_figures(r) for r in one.reasons):
                groups.setdefault(reason, []).append(one.end - one.start)
    if not groups:
        return None
    columns = (Column("reason", share=3.4), *(Column(n, "end", 1.1) for n in ("stretches", "time", "of the records")))
    ranked = sorted(groups.items(), key=lambda g: -sum(g[1]))
    rows = [
        (
            clean(reason),
            str(len(times)),
            fmt.quantity(sum(times), TIME),
            fmt.fixed(sum(times) / whole, fmt.SHARE, 1) if whole > 0.0 else "\u2013",
        )
        for reason, times in ranked[:_MOST_REASONS]
    ]
    caption = (
        f"Stretches that gave no reading, of {fmt.quantity(whole, TIME)} in all. A stretch with several reasons "
        "counts for each."
    )
    if len(ranked) > _MOST_REASONS:
        caption += f" {counted(len(ranked) - _MOST_REASONS, 'rarer reason')} left out."
    return Table(caption, columns, tuple(rows))


def _flagged(runs: Sequence[RunReduced]) -> Table | None:
    totals: dict[str, list[int]] = {}
    for run in runs:
        for one in run.reduction.flags:
            total = totals.setdefault(one.channel, [0] * 6)
            for k, count in enumerate(_counts(one)):
                total[k] += count
    if not totals:
        return None
    names = ("blank", "gap", "out of range", "stuck", "spike")
    columns = (
        Column("channel", share=2.0),
        Column("readings", "end", 1.3),
        Column("flagged", "end", 1.2),
        *(Column(n, "end", 0.9) for n in names),
    )
    rows = tuple(
        (
            clean(channel),
            fmt.number(total[0], 0),
            fmt.fixed(sum(total[1:]) / total[0], fmt.SHARE, 3) if total[0] else "\u2013",
            *(str(c) if c else "\u2013" for c in total[1:]),
        )
        for channel, total in totals.items()
    )
    return Table("Readings that are not believed, all runs together; none is removed in silence.", columns, rows)


def _counts(one: FlagCount) -> tuple[int, ...]:
    return one.readings, one.blank, one.gap, one.out_of_range, one.stuck, one.spike


def _tares(trials: TrialsFindings) -> Table | None:
    role = {s.name: s.measures for s in trials.sensors}
    rows = []
    for run in trials.campaign.runs:
        for channel in dict.fromkeys(z.channel for z in run.reduction.zeros):
            own = [z for z in run.reduction.zeros if z.channel == channel]
            means = [c.mean for r in run.reduction.readings for c in r.channels if c.name == channel]
            rows.append(_tare(run.run, own, _ZERO_UNITS.get(role.get(channel, ""), fmt.NONE), means))
    if not rows:
        return None
    columns = (
        Column("run and channel", share=2.4),
        *(Column(n, "end", 1.2) for n in ("tares", "first zero", "drift", "in", "of the mean")),
    )
    caption = (
        "Tares: zero of the first, how far it went to the last, and that over the channel's mean in the readings."
    )
    return Table(caption, columns, tuple(rows))


def _tare(run: str, own: Sequence[Zero], scales: tuple[fmt.Scale, ...], means: Sequence[float]) -> tuple[str, ...]:
    first, last = own[0], own[-1]
    drift = last.value - first.value
    mean = sum(means) / len(means) if means else 0.0
    alone = len(own) < 2
    return (
        f"{clean(run)}, {clean(first.channel)}",
        str(len(own)),
        fmt.quantity(first.value, scales, 2),
        "\u2013" if alone else fmt.quantity(drift, scales, 2),
        "\u2013" if alone else _minutes(last.time - first.time),
        "\u2013" if alone or mean == 0.0 else fmt.fixed(abs(drift / mean), fmt.SHARE, 1),
    )
