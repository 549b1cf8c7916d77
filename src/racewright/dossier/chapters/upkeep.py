"""Chapter on upkeep: parts and spares, pieces against carriers, the pull to draw the machine out."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import DEFER, facts, remark_table
from racewright.dossier.document import Block, Chapter, Column, Table, Text
from racewright.dossier.text import clean
from racewright.ledger.supply_findings import UpkeepFindings
from racewright.ledger.upkeep_things import Recovery
from racewright.upkeep.carrying import Carried
from racewright.upkeep.parts_availability import PartsAvailability
from racewright.upkeep.spares import Spares

_DAYS = (fmt.Scale("h", 3600.0), fmt.Scale("d", 86400.0))
_MASS = (fmt.Scale("kg", 1.0),)
_FORCE = (fmt.Scale("N", 1.0), fmt.Scale("kN", 1e3))


def write(upkeep: UpkeepFindings, currency: str) -> Chapter:
    """What keeps the machine running, how its pieces travel, what draws it out."""
    blocks: list[Block] = [Text(_lead(upkeep), "lead"), Text(DEFER, "safety")]
    if upkeep.parts is not None:
        blocks.append(_parts(upkeep.parts))
    if upkeep.spares is not None:
        blocks.append(_spares(upkeep.spares, currency))
    if upkeep.carrying is not None:
        blocks += [_weights(upkeep.carrying), _carriers(upkeep.carrying)]
    if upkeep.recovery is not None:
        blocks.append(_recovery(upkeep.recovery))
    rooms = (upkeep.parts, upkeep.carrying, upkeep.recovery)
    remarks = tuple(dict.fromkeys(r for room in rooms if room is not None for r in room.remarks))
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on upkeep"))
    return Chapter("upkeep", "Upkeep", tuple(blocks))


def _lead(upkeep: UpkeepFindings) -> str:
    said = []
    if upkeep.parts is not None:
        share = fmt.band(upkeep.parts.share, fmt.SHARE)
        said.append(f"By its parts the machine is able to run {share.value} of the time ({share.range}).")
    if upkeep.carrying is not None:
        heaviest = max(upkeep.carrying.weights, key=lambda w: w.mud_filled)
        said.append(
            f"The heaviest piece, {clean(heaviest.name)}, weighs {fmt.quantity(heaviest.dry, _MASS)} dry and "
            f"{fmt.quantity(heaviest.mud_filled, _MASS)} full of mud."
        )
    if upkeep.recovery is not None:
        worst = upkeep.recovery.cases[-1]
        pull, speed = fmt.quantity(worst.pull.pull, _FORCE), fmt.quantity(worst.stream_speed, fmt.SPEED)
        said.append(f"To draw it out of the {worst.water} ({speed}) takes a steady {pull}.")
    return " ".join(said)


def _parts(parts: PartsAvailability) -> Table:
    columns = (
        Column("part", share=2.0),
        Column("failures a year", "end"),
        Column("replaced by plan", "end"),
        Column("standstill each", "end"),
        Column("time lost", "end"),
        Column("able to run, by its range", "end", 1.6),
    )
    rows = tuple(
        (
            clean(row.name),
            fmt.number(row.failures, 2),
            fmt.number(row.planned, 2),
            fmt.quantity(row.mean_stop, _DAYS),
            fmt.quantity(row.lost_share, fmt.SHARE),
            f"{fmt.quantity(row.low, fmt.SHARE)} to {fmt.quantity(row.high, fmt.SHARE)}",
        )
        for row in parts.rows
    )
    return Table("Parts, most lost time first.", columns, rows)


def _spares(spares: Spares, currency: str) -> Table:
    columns = (
        Column("part", share=2.0),
        Column("spares to hold", "end"),
        Column("tied up", "end"),
        Column("energy kept a year", "end", 1.3),
        Column("kept a year", "end", 1.3),
    )
    unit = fmt.money(currency)
    rows = tuple(
        (
            clean(row.name),
            str(row.held),
            fmt.quantity(row.tied_up, unit),
            fmt.quantity(row.energy_kept, fmt.ENERGY),
            fmt.quantity(row.money_kept, unit),
        )
        for row in spares.rows
    )
    before, after = (fmt.quantity(p.share.value, fmt.SHARE) for p in (spares.without, spares.with_spares))
    caption = f"Spares by the cost of lost energy: able to run {before} without any, {after} with these."
    return Table(caption, columns, rows)


def _weights(found: Carried) -> Table:
    columns = (
        Column("piece", share=2.0),
        Column("dry", "end"),
        Column("drained", "end"),
        Column("full of water", "end"),
        Column("full of mud", "end"),
        Column("under water", "end"),
        Column("longest side", "end"),
    )
    rows = tuple(
        (
            clean(w.name),
            *(fmt.quantity(m, _MASS) for m in (w.dry, w.drained, w.wet, w.mud_filled)),
            fmt.quantity(w.in_water, _FORCE),
            fmt.quantity(w.longest, fmt.LENGTH),
        )
        for w in found.weights
    )
    return Table("Weights of the pieces, for planning.", columns, rows)


def _carriers(found: Carried) -> Table:
    columns = (
        Column("carried by", share=1.4),
        Column("tried most by", share=1.8),
        Column("its mass", "end"),
        Column("left", "end"),
        Column("does not take", share=2.4),
    )
    rows = tuple(
        (
            clean(row.name),
            clean(row.heaviest),
            fmt.quantity(row.heaviest_mass, _MASS),
            fmt.quantity(row.mass_left, _MASS),
            clean("; ".join(row.refused)) or "takes all",
        )
        for row in found.rows
    )
    return Table("Pieces against the means of transport and lifting.", columns, rows)


def _recovery(found: Recovery) -> Table:
    rows = [
        (
            case.water,
            fmt.quantity(case.pull.pull, _FORCE),
            f"at {fmt.quantity(case.stream_speed, fmt.SPEED)}: machine {fmt.quantity(case.pull.drag, _FORCE)}, wood "
            f"{fmt.quantity(case.pull.debris_drag, _FORCE)}, slope and rubbing "
            f"{fmt.quantity(case.pull.weight_part + case.pull.friction_part, _FORCE)}",
        )
        for case in found.cases
    ]
    limit = found.cases[-1].pull.greatest_speed
    if limit is not None:
        rows.append(
            ("winch holds up to", fmt.quantity(limit, fmt.SPEED), "fastest water that its steady pull masters")
        )
    area = fmt.quantity(found.drag_area, fmt.AREA)
    rows.append(("drag area", area, "drag coefficient x area with the rotor parked, from its thrust"))
    return facts("Steady pull to draw the machine out against the stream", rows)
