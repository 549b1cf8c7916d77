"""Chapter on the channel trials: the rig, what was read, what it is worth, what came of it."""

from __future__ import annotations

from dataclasses import replace

from racewright.dossier import format as fmt
from racewright.dossier.chapters import trials_data, trials_debris, trials_readings, trials_walls
from racewright.dossier.chapters.trials_words import FAST_WATER, HANDS, counted
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Table, Text
from racewright.dossier.text import clean, sentence
from racewright.dossier.trials_figures import MOST_DRAWN
from racewright.dossier.trials_view import ChannelShape, channel_shapes, every_reading, nearest
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.findings import MachineFindings
from racewright.ledger.trials_check import band_words
from racewright.ledger.trials_findings import Region, TrialsFindings

_INVENTED = "Everything in this chapter is invented: no model was built and nothing was measured."
_HERTZ = fmt.Scale("Hz", 1.0)
_REGIONS = {
    "below": "below the design's tip-speed ratio",
    "near": "near the design's tip-speed ratio",
    "above": "above the design's tip-speed ratio",
}


def write(trials: TrialsFindings, machine: MachineFindings) -> Chapter:
    """All that the campaign shows of the machine.

    Parameters
    ----------
    trials : TrialsFindings
    machine : MachineFindings
        The machine tested, as built.
    """
    shown = every_reading(trials)
    at = nearest(shown, machine.unit.design.tip_speed_ratio)
    blocks: list[Block] = []
    words = clean(trials.description)
    if words:
        blocks.append(Text(words))
    if trials.invented:
        blocks.append(Text(_INVENTED, "safety"))
    blocks += [Text(" ".join(in_short(trials)), "lead"), Heading("Model and channel"), *_rig(trials, machine)]
    blocks += trials_readings.readings(trials, shown)
    if at is not None:
        blocks += trials_walls.walls(trials, at)
        blocks += trials_readings.doubt(at)
    blocks += trials_readings.against_prediction(trials)
    if at is not None:
        blocks += trials_data.ripple(at)
    blocks += trials_data.fouling(trials)
    blocks += trials_debris.write(trials.doses)
    blocks += [Text(HANDS, "safety"), *trials_data.not_used(trials)]
    if trials.remarks:
        ranked = tuple(sorted(trials.remarks, key=lambda r: WORST_FIRST[r.severity]))
        blocks.append(remark_table(ranked, "Remarks on the trials"))
    if trials.invented:
        blocks = [replace(b, caption=f"{b.caption} Invented data.") if isinstance(b, Picture) else b for b in blocks]
    return Chapter("trials", "Trials", tuple(blocks))


def in_short(trials: TrialsFindings) -> tuple[str, ...]:
    """What was tested, and how it stands to the prediction: two sentences."""
    runs = trials.campaign.runs
    count = sum(len(r.reduction.readings) for r in runs)
    channels = " and ".join(_size(s) for s in channel_shapes(trials)[:2])
    more = len(channel_shapes(trials)) - 2
    if more > 0:
        channels += f" and {counted(more, 'other channel')}"
    where = f" in water of {channels} (width \u00d7 depth)" if channels else ""
    tested = f"The model gave {counted(count, 'steady reading')} in {counted(len(runs), 'run')}{where}."
    if not count:
        why = "No steady reading came of it: there is nothing to correct and nothing to set against the prediction."
        return (f"{counted(len(runs), 'run')} of the model{where}.", why)
    return tested, against(trials)


def against(trials: TrialsFindings) -> str:
    """How the readings stand to the prediction's band, and the region that stands worst."""
    said = band_words(trials.check.rows).capitalize()
    if not said or not trials.check.regions:
        return "None of them could be set against the prediction."
    one = worst(trials.check.regions)
    off = fmt.fixed(abs(one.power_residual), fmt.SHARE, 1)
    word = "below" if one.power_residual < 0.0 else "above"
    return f"{said}; {_REGIONS[one.region]} CP is {off} {word} prediction on average, the worst of the regions."


def worst(regions: tuple[Region, ...]) -> Region:
    """The region whose CP is furthest from prediction."""
    return max(regions, key=lambda r: abs(r.power_residual))


def _size(shape: ChannelShape) -> str:
    return f"{fmt.quantity(shape.width, fmt.LENGTH)} \u00d7 {fmt.quantity(shape.depth, fmt.LENGTH)}"


def _rig(trials: TrialsFindings, machine: MachineFindings) -> tuple[Block, ...]:
    shapes = channel_shapes(trials)
    pictures = tuple(
        Picture(f"trial_rig_{k}", _caption(shape, trials, machine), _alt(shape, machine))
        for k, shape in enumerate(shapes[:MOST_DRAWN], start=1)
    )
    rest = shapes[MOST_DRAWN:]
    more = (Text(f"Not drawn: {'; '.join(_size(s) for s in rest)}."),) if rest else ()
    carried = {
        "rotor": "The balance carries the rotor alone: CT is the rotor's.",
        "whole machine": "The balance carries the whole machine: CT counts rotor, vanes, hub and duct together.",
    }[trials.thrust_on]
    return *pictures, *more, Text(carried), _sensors(trials), Text(FAST_WATER, "safety")


def _caption(shape: ChannelShape, trials: TrialsFindings, machine: MachineFindings) -> str:
    runs = [clean(r) for r in shape.runs]
    named = ", ".join(runs[:6]) + (f" and {len(runs) - 6} more" if len(runs) > 6 else "")
    area = shape.width * shape.depth
    blocked = (
        f"Blockage: duct's circle {fmt.quantity(shape.blockage, fmt.SHARE)}, rotor annulus "
        f"{fmt.quantity(machine.flow.annulus_area / area, fmt.SHARE)} of the channel's area."
    )
    if trials.surface != "free":
        surface = "The water stands under a lid."
    elif shape.froude is None:
        surface = ""
    else:
        low, high = (fmt.number(v, 3) for v in shape.froude)
        surface = (
            f"Froude number of the depth {low}." if low == high else f"Froude number of the depth {low} to {high}."
        )
    return sentence(
        f"To scale; run{'s' if len(runs) > 1 else ''} {named}.",
        blocked,
        surface,
    )


def _alt(shape: ChannelShape, machine: MachineFindings) -> str:
    duct = fmt.quantity(2.0 * shape.duct_radius, fmt.LENGTH)
    return (
        f"A duct of {duct} outer diameter with {machine.blades.count} blades in water of {_size(shape)}, "
        "width \u00d7 depth, its axis "
        f"{fmt.quantity(shape.axis_height, fmt.LENGTH)} above the floor."
    )


def _sensors(trials: TrialsFindings) -> Block:
    if not trials.sensors:
        return Text("The scheme names no channels.")
    columns = (
        Column("channel", share=1.6),
        Column("measures", share=1.3),
        Column("logged in", share=0.9),
        Column("rate", "end", 0.8),
        Column("part", share=1.6),
        Column("calibration", share=1.6),
    )
    rows = tuple(
        (
            clean(s.name) if s.column == s.name else f"{clean(s.name)} (column {clean(s.column)})",
            clean(s.measures).replace("_", " "),
            clean(s.unit),
            fmt.join(f"{s.rate:g}", _HERTZ),
            clean(s.part) or "not told",
            clean(s.source) or "not told",
        )
        for s in trials.sensors
    )
    return Table("Channels as the logger wrote them.", columns, rows)
