"""Debris let go upstream: what became of it, with exact limits."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_words import TIME, counted, section
from racewright.dossier.document import Block, Column, Heading, Points, Table, Text
from racewright.dossier.text import clean, signs
from racewright.trials.doses import DoseRow
from racewright.uncertainty import binomial_limits


def write(doses: Sequence[DoseRow]) -> tuple[Block, ...]:
    """Table, where pieces lodged and how they came out."""
    title = "Debris let go upstream"
    if not doses:
        return section(title, "No debris was let go.")
    columns = (
        Column("dose", share=2.0),
        *(Column(n, "end", 0.9) for n in ("let go", "unseen", "missed", "passed", "struck", "lodged")),
        Column("chance of lodging", share=3.4),
    )
    caption = (
        "Pieces by outcome; missed: went past the duct; struck: touched and passed. The chance is of pieces that "
        "entered the duct."
    )
    return (
        Heading(title),
        Table(caption, columns, tuple(_row(d) for d in doses)),
        Points(tuple(_story(d) for d in doses)),
        Text("The limits hold for such pieces let go there, each by itself; a mat of weed or a flood is not one."),
    )


def limits(row: DoseRow) -> str:
    """The exact limits with their own label; never the number without it."""
    if not row.entered:
        return "none entered the duct"
    sides = "two-sided" if row.lodged else "upper"
    return signs(binomial_limits(row.lodged, row.entered, sides=sides).label)  # type: ignore[arg-type]


def _row(row: DoseRow) -> tuple[str, ...]:
    counts = (row.card.count, row.unseen, row.missed, row.passed, row.struck, row.lodged)
    return (clean(row.card.name), *(str(c) for c in counts), limits(row))


def _story(row: DoseRow) -> str:
    card = row.card
    sizes = " \u00d7 ".join(fmt.quantity(s, fmt.SMALL_LENGTH, 2) for s in (card.length, card.width, card.thickness))
    said = [
        f"{clean(card.name)}: {clean(card.kind)}, {sizes}, {fmt.quantity(card.wet_density, fmt.DENSITY)} wet, let go "
        f"{fmt.quantity(card.upstream, fmt.LENGTH)} upstream."
    ]
    if row.struck:
        elsewhere = row.struck - row.struck_vanes - row.struck_rotor
        struck = _listed(
            (row.struck_vanes, "by the vanes"), (row.struck_rotor, "by the rotor"), (elsewhere, "elsewhere")
        )
        said.append(f"Struck: {struck}.")
    if row.lodged:
        where = _listed(
            (row.lodged_vanes, "in the vanes"),
            (row.lodged_rotor, "in the rotor"),
            (row.lodged_elsewhere, "elsewhere"),
        )
        how = _listed(
            (row.by_itself, "by itself"),
            (row.by_stopping, "when the rotor was stopped"),
            (row.by_reversing, "when it was reversed"),
            (row.by_hand, "by hand"),
            (row.not_cleared, "not at all"),
        )
        said.append(f"Lodged: {where}; came out: {how}; held {fmt.quantity(row.longest_held, TIME, 2)} at most.")
    if row.unseen:
        most = binomial_limits(row.lodged + row.unseen, row.entered + row.unseen)
        said.append(
            f"{counted(row.unseen, 'piece')} unseen: had all of them lodged, it would be {signs(most.label)}."
        )
    return " ".join(said)


def _listed(*parts: tuple[int, str]) -> str:
    return ", ".join(f"{count} {word}" for count, word in parts if count)
