"""The outside book: where the power that the stream loses to the machine goes."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Picture, Text
from racewright.dossier.figures.budget import Part
from racewright.stage.result import OperatingPoint

_FAR = 0.01
"""Mismatch of the book from which the reader is told [-]."""


def parts(point: OperatingPoint) -> tuple[Part, ...]:
    """Entries of the book, in the order of the water."""
    book = point.book
    found = (
        Part("shaft", book.shaft, useful=True),
        Part("sections of both rows", book.profile_loss),
        Part("end walls", book.end_wall_loss),
        Part("tip clearance", book.tip_loss),
        Part("walls of duct and hub", book.wall_friction),
        Part("outside of the duct", book.outer_friction),
        Part("debris", book.debris_loss),
        Part("swirl that leaves", book.residual_swirl + book.core_loss),
        Part("wake mixing", book.wake_mixing),
    )
    return tuple(p for p in found if p.power != 0.0 or p.name != "debris")


def write(point: OperatingPoint) -> tuple[Block, ...]:
    """The picture, and how well the book closes."""
    book = point.book
    if book.drag_power <= 0.0:
        return ()
    off = fmt.fixed(abs(book.mismatch), fmt.SHARE, 2)
    closes = f"Drag and entries are found by separate ways; their sum is off by {off}."
    if abs(book.mismatch) > _FAR:
        closes += " That is more than it should be: take the entries with doubt."
    if point.flow_state == "closure":
        closes = "The load lies above what the flow was solved at; the book rests on a stated closure there."
    return (
        Picture(
            "budget",
            "Total drag times stream speed, and who takes it. Swirl and mixing are paid by the stream, not by the "
            "head drop.",
            _alt(point),
        ),
        Text(closes),
    )


def _alt(point: OperatingPoint) -> str:
    whole = point.book.drag_power
    said = ", ".join(f"{p.name} {fmt.fixed(p.power / whole, fmt.SHARE, 1)}" for p in parts(point))
    return f"Of {fmt.quantity(whole, fmt.POWER)} drag power: {said}."
