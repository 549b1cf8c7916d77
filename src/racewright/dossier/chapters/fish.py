"""Chapter on fish: who is struck, what is known of the harm, beside bare fast rotors, down the river."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.cautions import caution
from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Points, Table, Text
from racewright.dossier.neighbours_view import FISH_ABOUT, Against, against, passages, point_name, source_line
from racewright.dossier.text import clean, signs
from racewright.ledger.neighbours_findings import FishAt, FishFound, NeighboursFindings
from racewright.ledger.neighbours_things import DESIGN
from racewright.passage.beside import Contender

_INVENTED = "The fish of this chapter are invented: nobody counted or watched them."
_PER_CENT = 100.0


def write(found: NeighboursFindings) -> Chapter:
    """All that is computed of the fish."""
    blocks: list[Block] = []
    if clean(found.description):
        blocks.append(Text(clean(found.description)))
    if found.invented and found.fish:
        blocks.append(Text(_INVENTED, "safety"))
    if not found.fish:
        needs = "Nothing computed. This chapter needs a [neighbours.NAME.fish.NAME] table."
        return Chapter("fish", "Fish", (*blocks, Text(needs, "lead")))
    blocks += [
        Text(" ".join(in_short(found)), "lead"),
        Text(caution("fish").sentence, "safety"),
        *_come_in(found.fish),
        *_felt(found),
        *_beside(found),
        *_river(found.fish),
    ]
    remarks = tuple(r for r in found.remarks if r.about in FISH_ABOUT)
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on the fish"))
    blocks.append(Points(tuple(_sources(found.fish))))
    return Chapter("fish", "Fish", tuple(blocks))


def in_short(found: NeighboursFindings) -> tuple[str, ...]:
    """Who is struck most and least at the design point, and how the machine stands beside bare rotors."""
    known = [(one, at) for one, at in passages(found.fish) if at.condition == DESIGN]
    if not known:
        return ("No fish has an answer at the design point.",)
    chances = [(float(at.passage.strike.chance[0]), one) for one, at in known if at.passage is not None]
    least, most = min(chances, key=lambda c: c[0]), max(chances, key=lambda c: c[0])
    said = f"Of {_fish(most[1])} that come in at the design point {_share(most[0])} are struck"
    if least[1] is not most[1]:
        said += f", of {_fish(least[1])} {_share(least[0])}"
    sentences = [f"{said}; a struck fish is not always a dead one."]
    worse = [row for row in against(found.beside) if row.struck_flow > 0.005]
    if worse:
        first = max(worse, key=lambda row: row.struck_flow)
        sentences.append(
            f"Not everything speaks for two rows: of {clean(first.fish)} in the stream "
            f"{_share(first.struck_flow)} more are struck than by the {first.against}."
        )
    return tuple(sentences)


def _fish(one: FishFound) -> str:
    return f"{clean(one.name)} ({fmt.quantity(one.length, fmt.LENGTH, 2)})"


def _share(value: float) -> str:
    return fmt.fixed(value, fmt.SHARE, 0)


def _come_in(fish: Sequence[FishFound]) -> tuple[Block, ...]:
    columns = (
        Column("fish", share=1.5),
        Column("operating point", share=2.2),
        Column("struck", "end", 0.8),
        Column("vanes", "end", 0.8),
        Column("rotor", "end", 0.8),
        Column("fastest edge, m/s", "end", 1.1),
        Column("dies, screening", "end", 1.0),
        Column("of it known", "end", 1.5),
        Column("left out", share=1.3),
    )
    rows = tuple(_row(one, at) for one in fish for at in one.at)
    caption = (
        "Chances of a fish that comes in. Struck: by vanes or rotor. Dies: of strike, pressure and shear, a "
        "screening "
        "figure between the ends that are known; what has no figure is left out of it and widens the ends."
    )
    names = "; ".join(
        f"{clean(one.name)}: {one.title.lower()} of {fmt.quantity(one.length, fmt.LENGTH, 2)}, "
        + ("lying the worse way" if one.heading == "worse" else f"lying {_lies(one.heading)}")
        for one in fish
    )
    alt = "Bars from the lowest to the highest chance of death, with the chance to be struck, for each kind."
    return (
        Heading("Fish that come in"),
        Text(f"{names}. Nobody knows how fish lie behind vanes; the worse way is the safe side."),
        Picture("fish_chance", "Chance to be struck and to die, by kind and operating point.", alt),
        Table(caption, columns, rows),
    )


def _lies(heading: str) -> str:
    return "along the axis" if heading == "axial" else heading


def _row(one: FishFound, at: FishAt) -> tuple[str, ...]:
    name, point, found = clean(one.name), point_name(at.condition, at.stream_speed), at.passage
    if found is None:
        return (name, point, *(["-"] * 6), f"no answer: {signs(at.reason)}")
    rows = {row.name: float(row.mean_chance[0]) for row in found.strike.rows}
    return (
        name,
        point,
        _share(float(found.strike.chance[0])),
        _share(rows["vanes"]),
        _share(rows["rotor"]),
        fmt.number(found.strike.fastest, 1),
        fmt.fixed(float(found.death[0]), fmt.SHARE, 1),
        f"{fmt.number(_PER_CENT * float(found.death_low[0]), 1)} to "
        f"{fmt.fixed(float(found.death_high[0]), fmt.SHARE, 0)}",
        ", ".join(found.left_out) or "nothing",
    )


def _felt(found: NeighboursFindings) -> tuple[Block, ...]:
    """Pressure and strain on the way through."""
    columns = (
        Column("fish", share=1.4),
        Column("operating point", share=2.2),
        Column("used to, kPa", "end", 1.0),
        Column("nadir, kPa", "end", 1.0),
        Column("ratio", "end", 0.8),
        Column("dies of pressure", share=1.9),
        Column("strain, 1/s", "end", 1.0),
        Column("dies of shear", share=1.9),
    )
    rows = []
    for one, at in passages(found.fish):
        told = at.passage
        if told is None:
            continue
        worst = told.decompression
        rows.append(
            (
                clean(one.name),
                point_name(at.condition, at.stream_speed),
                fmt.number(worst.acclimation_pressure / 1e3, 1),
                fmt.number(worst.nadir_pressure / 1e3, 1),
                fmt.number(worst.ratio, 2),
                _chance(told.pressure_death.low, told.pressure_death.value, told.pressure_death.high),
                fmt.number(told.exposure.strains.largest, 0),
                _chance(told.shear_death.low, told.shear_death.value, told.shear_death.high),
            )
        )
    if not rows:
        return ()
    depth = fmt.quantity(found.hub_depth, fmt.LENGTH, 2)
    caption = (
        "Lowest absolute pressure of the water on the way through, the sections' mean suction taken off, and the "
        "largest strain rate over 1.8 cm. Noses and tip vortices go deeper than told."
    )
    pictures = (
        Picture(
            "fish_lines",
            f"Absolute pressure along the streamlines through the rotor at the design point, axis {depth} deep.",
            "Pressure against distance along the machine; it falls through the vanes and further behind the rotor.",
        ),
    )
    return Heading("Pressure and shear on the way through"), *pictures, Table(caption, columns, tuple(rows))


def _chance(low: float, value: float | None, high: float) -> str:
    if value is None:
        return f"{fmt.number(_PER_CENT * low, 0)} to {fmt.fixed(high, fmt.SHARE, 0)}, no figure"
    return fmt.fixed(value, fmt.SHARE, 1)


def _beside(found: NeighboursFindings) -> tuple[Block, ...]:
    if not found.beside:
        return ()
    rows = against(found.beside)
    columns = (
        Column("fish", share=1.3),
        Column("against", share=2.4),
        Column("chance of a strike", "end", 1.1),
        Column("fastest edge", "end", 1.0),
        Column("struck of a stream", "end", 1.1),
        Column("killed of it", "end", 1.0),
        Column("struck for the energy", "end", 1.2),
        Column("killed for the energy", "end", 1.2),
    )
    caption = (
        "The two-row machine less the bare fast rotor, over the bare rotor; + speaks against the machine. Of a "
        "stream that carries fish evenly, and for each unit of energy made. Killed is a screening figure, of strikes "
        "alone."
    )
    contenders = found.beside[0].beside.contenders
    words = "; ".join(_contender(one) for one in contenders)
    alt = "Signed bars for each kind of fish: left of nought speaks for the two-row machine, right of it against."
    return (
        Heading("Beside bare fast rotors"),
        Text(
            "The same strike code on a bare rotor of three blades at tip-speed ratio 5, in the same stream: "
            f"{words}. A bare rotor's pressures and shear are not compared."
        ),
        Picture("fish_beside", "Differences at the design point, whichever way they go.", alt),
        Table(caption, columns, tuple(_difference(row) for row in rows)),
    )


def _contender(one: Contender) -> str:
    return (
        f"{one.name} {fmt.quantity(2.0 * one.outer_radius, fmt.LENGTH)} across, "
        f"{fmt.quantity(one.shaft_power, fmt.POWER)}, fastest edge {fmt.quantity(one.strike.fastest, fmt.SPEED)}"
    )


def _difference(row: Against) -> tuple[str, ...]:
    parts = (row.chance, row.fastest, row.struck_flow, row.deadly_flow, row.struck_per_energy, row.deaths_per_energy)
    return clean(row.fish), row.against, *(_signed(part) for part in parts)


def _signed(part: float) -> str:
    text = fmt.fixed(part, fmt.SHARE, 0)
    return f"+{text}" if round(_PER_CENT * part) > 0 else text


def _river(fish: Sequence[FishFound]) -> tuple[Block, ...]:
    rows = tuple(
        (
            clean(one.name),
            at.label,
            fmt.quantity(at.discharge, fmt.DISCHARGE),
            fmt.fixed(at.flow_share * (1.0 - one.avoidance), fmt.SHARE, 2),
            fmt.fixed(at.struck, fmt.SHARE, 2),
            fmt.fixed(at.dead, fmt.SHARE, 3),
            f"{fmt.number(_PER_CENT * at.dead_low, 3)} to {fmt.fixed(at.dead_high, fmt.SHARE, 3)}",
        )
        for one in fish
        for at in one.river
    )
    if not rows:
        return (Text("No discharge of the river is known, so no share of its fish."),)
    columns = (
        Column("fish", share=1.4),
        Column("standing", share=1.8),
        Column("discharge", "end", 1.2),
        Column("come in", "end", 1.0),
        Column("struck", "end", 1.0),
        Column("die, screening", "end", 1.2),
        Column("of it known", "end", 1.8),
    )
    kept = [f"{clean(one.name)} {_share(one.avoidance)}" for one in fish if one.avoidance > 0.0]
    avoid = f"Taken to keep out by the user's statement: {', '.join(kept)}." if kept else "None is taken to keep out."
    caption = (
        "Share of all fish that come down the river evenly with its water, past one machine, with the chances of the "
        "design point. In faster water edges are faster."
    )
    return Heading("Of the river's fish"), Text(avoid), Table(caption, columns, rows)


def _sources(fish: Sequence[FishFound]) -> list[str]:
    """Basis, edition and status of every figure, each once."""
    bases = dict.fromkeys(s for _one, at in passages(fish) if at.passage is not None for s in at.passage.safety)
    return [source_line(s) for s in bases]
