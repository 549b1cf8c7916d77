"""What must stand beside a number that safety hangs on: caution, basis, edition, and how it is known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from nicegui import ui

from racewright.desk import look
from racewright.dossier.text import signs

Basis = Mapping[str, str]


def beside(bases: Iterable[Basis | None]) -> None:
    """Each caution once, beneath it where the numbers come from.

    Parameters
    ----------
    bases : iterable of mapping
        Of `SafetyBasis`, decoded; equal ones are told once, None is passed over.
    """
    cautions, sources = told(bases)
    if not cautions:
        return
    with ui.element("div").classes("holding-notes"):
        for caution in cautions:
            look.note(signs(caution), "safety")
        for source in sources:
            look.note(signs(source), "soft")


def told(bases: Iterable[Basis | None]) -> tuple[list[str], list[str]]:
    """Sentences of caution, equal ones once; and a line for each source with its edition."""
    cautions: dict[str, None] = {}
    sources: dict[str, None] = {}
    for basis in bases:
        if basis is None:
            continue
        for sentence in sentences(basis["caution"]):
            cautions.setdefault(sentence)
        sources.setdefault(
            f"Basis: {_end(basis['basis'])}. Edition: {_end(basis['edition'])}. Known how: {_end(basis['status'])}."
        )
    return ([" ".join(cautions)] if cautions else []), list(sources)


def sentences(text: str) -> list[str]:
    """Sentences of a caution: several share some of them."""
    parts = text.strip().split(". ")
    return [p if p.endswith(".") else f"{p}." for p in parts if p]


def _end(text: str) -> str:
    return text.strip().rstrip(".")
