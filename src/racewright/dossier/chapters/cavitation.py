"""Cavitation number at the highest blade tip."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Column, Table
from racewright.ledger.findings import TipCavitation


def write(found: tuple[TipCavitation, ...]) -> tuple[Block, ...]:
    """A table; empty where no cover is known."""
    if not found:
        return ()
    columns = (
        Column("state", share=1.6),
        *(Column(n, "end", 1.2) for n in ("stream speed", "tip below surface", "relative speed", "throat pressure")),
        Column("cavitation number", "end", 1.4),
    )
    rows = tuple(
        (
            f.state,
            fmt.fixed(f.stream_speed, fmt.SPEED, 2),
            fmt.fixed(f.depth, fmt.LENGTH, 2),
            fmt.fixed(f.relative_speed, fmt.SPEED, 2),
            fmt.quantity(f.throat_pressure, fmt.PRESSURE),
            fmt.number(f.number, 2),
        )
        for f in found
    )
    said = (
        "Cavitation number at the highest blade tip, least cover of the place, with the throat's own pressure. A "
        "section cavitates where its lowest pressure coefficient lies below the number with a minus; sections are "
        "not computed yet."
    )
    return (Table(said, columns, rows),)
