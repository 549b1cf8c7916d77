"""Chapter on sound under water: bands beside the ambient, ranges to thresholds, one uncertainty."""

from __future__ import annotations

from racewright.cautions import caution
from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Points, Table, Text
from racewright.dossier.neighbours_view import SOUND_ABOUT, point_name, source_line
from racewright.dossier.text import signs
from racewright.ledger.neighbours_findings import NeighboursFindings, SoundAt
from racewright.sound.level_result import SoundLevel
from racewright.sound.propagation import FARTHEST
from racewright.sound.source import Tone

_DISTANCE = (fmt.Scale("m", 1.0), fmt.Scale("km", 1e3))


def write(found: NeighboursFindings) -> Chapter:
    """Levels, thresholds, what others found; `found.sound` is not empty."""
    known = tuple((at, at.level) for at in found.sound if at.level is not None)
    blocks: list[Block] = [Text(in_short(found.sound), "lead"), Text(caution("sound").sentence, "safety")]
    for number, (at, one) in enumerate(known, start=1):
        blocks += _level(number, at, one)
    if known:
        blocks += _thresholds(*known[-1])
        blocks += _uncertainty(known[-1][1])
        blocks += _published(known[-1][1])
    remarks = tuple(r for r in found.remarks if r.about in SOUND_ABOUT)
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on the sound"))
    bases = dict.fromkeys(s for _at, one in known for s in one.safety)
    blocks.append(Points(tuple(source_line(s) for s in bases)))
    return Chapter("sound", "Sound under water", tuple(blocks))


def in_short(sound: tuple[SoundAt, ...]) -> str:
    """The source's level at each point, its uncertainty, and how far it stands out."""
    said = []
    for at in sound:
        name = point_name(at.condition, at.stream_speed)
        if at.level is None:
            said.append(f"No answer at the {name}: {signs(at.reason)}")
            continue
        one = at.level
        said.append(
            f"At the {name}, the machine makes {_decibels(one.broadband_source)} re 1 {_UPA}{fmt.THIN}m "
            f"\u00b1 {fmt.number(one.uncertainty, 0)}{fmt.THIN}dB and stands out of the ambient to "
            f"{far(one.audible_distance)}."
        )
    return " ".join(said)


_UPA = "\u00b5Pa"


def _decibels(value: float) -> str:
    return f"{fmt.number(value, 0)}{fmt.THIN}dB"


def far(distance: float) -> str:
    """A distance, or that it lies at an end of what is computed."""
    if distance <= 1.0:
        return "nowhere beyond 1\u202fm"
    return (
        f"beyond {fmt.quantity(FARTHEST, _DISTANCE)}"
        if distance >= FARTHEST
        else fmt.quantity(distance, _DISTANCE, 2)
    )


def _level(number: int, at: SoundAt, one: SoundLevel) -> tuple[Block, ...]:
    name = point_name(at.condition, at.stream_speed)
    columns = (
        Column("distance", "end", 1.0),
        Column(f"level, dB re 1 {_UPA}", "end", 1.4),
        Column("band most above ambient", "end", 1.6),
        Column("by, dB", "end", 1.0),
    )
    rows = []
    for i, distance in enumerate(one.distance):
        k = int(one.excess[i].argmax())
        excess = float(one.excess[i, k])
        rows.append(
            (
                fmt.quantity(float(distance), _DISTANCE, 2),
                fmt.number(float(one.broadband[i]), 0),
                f"{fmt.number(float(one.frequency[k]), 0)}{fmt.THIN}Hz",
                ("+" if excess > 0.0 else "") + fmt.number(excess, 0),
            )
        )
    alt = "Third-octave levels against frequency at the nearest and farthest distance, with the ambient level."
    caption = (
        f"Third-octave levels at the {name}. Band: uncertainty, about 95 %. Source: {one.source}. "
        f"Ambient: {signs(one.ambient_basis)}."
    )
    table = f"All bands and tones, {one.spreading} spreading, \u00b1 {fmt.number(one.uncertainty, 0)} dB."
    return (
        (
            Heading(f"At the {name}"),
            Picture(f"sound_bands_{number}", caption, alt),
            Table(table, columns, tuple(rows)),
            Points(tuple(_tone(tone) for tone in one.tones)),
        )
        if one.tones
        else (
            Heading(f"At the {name}"),
            Picture(f"sound_bands_{number}", caption, alt),
            Table(table, columns, tuple(rows)),
        )
    )


def _tone(tone: Tone) -> str:
    level = "no level" if tone.level is None else f"at most {_decibels(tone.level)} re 1 {_UPA}{fmt.THIN}m"
    return f"Tone at {fmt.number(tone.frequency, 1)}{fmt.THIN}Hz, {tone.name}: {level}; {signs(tone.words)}."


def _thresholds(at: SoundAt, one: SoundLevel) -> tuple[Block, ...]:
    columns = (
        Column("whom, from what", share=4.0),
        Column("edition", share=1.1),
        Column("threshold, dB", "end", 1.0),
        Column("re", share=1.7),
        Column("reaches", "end", 1.5),
        Column("at most", "end", 1.5),
    )
    rows = tuple(
        (
            f"{row.title}" + (f" ({row.group})" if row.group else ""),
            row.edition,
            fmt.number(row.threshold, 0),
            row.reference.removeprefix("dB re ").replace("uPa2", f"{_UPA}\u00b2").replace("uPa", _UPA),
            far(row.distance),
            far(row.distance_high),
        )
        for row in one.thresholds
    )
    caption = (
        f"How far thresholds reach at the {point_name(at.condition, at.stream_speed)}, for an animal that stays "
        ""
        f"{fmt.number(one.duration / 3600.0, 0)}{fmt.THIN}h where it is; at most: at the upper end of the "
        "uncertainty. The same letters mean other animals in another edition."
    )
    return Heading("Thresholds of hearing and behaviour"), Table(caption, columns, rows)


def _uncertainty(one: SoundLevel) -> tuple[Block, ...]:
    columns = (Column("part", share=0.8), Column("half width, dB", "end", 1.0), Column("from", share=5.0))
    rows = [(p.name, fmt.number(p.half_width, 1), signs(p.basis)) for p in one.uncertainty_parts]
    rows.append(("together", fmt.number(one.uncertainty, 1), "root of the sum of squares; for the farthest distance"))
    return Heading("One uncertainty"), Table("Half widths of every level here, about 95 %.", columns, tuple(rows))


def _published(one: SoundLevel) -> tuple[Block, ...]:
    columns = (
        Column("what", share=3.6),
        Column("level", "end", 1.2),
        Column("in", share=1.6),
        Column("source", share=3.6),
    )
    rows = tuple(
        (
            row.title,
            fmt.number(row.low, 0)
            if row.low == row.high
            else f"{fmt.number(row.low, 0)} to {fmt.number(row.high, 0)}",
            row.reference.replace("uPa", _UPA),
            f"{signs(row.source)}; {signs(row.status)}",
        )
        for row in one.published
    )
    caption = "What others found at machines of other kinds and sizes, to set these figures beside."
    return Heading("What others found"), Table(caption, columns, rows)
