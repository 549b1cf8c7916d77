"""What must stand beside a number that safety hangs on: caution, basis, edition, and how it is known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from racewright.desk import look

Basis = Mapping[str, str]


def beside(bases: Iterable[Basis | None]) -> None:
    """Each caution once on the page, beneath it where the numbers come from.

    Parameters
    ----------
    bases : iterable of mapping
        Of `SafetyBasis`, decoded; equal ones are told once, None is passed over.
    """
    cautions, sources = told(bases)
    if cautions:
        look.cautions(cautions, sources)


def told(bases: Iterable[Basis | None]) -> tuple[list[str], list[str]]:
    """Sentences of caution, equal ones once; and a line for each source with its edition."""
    cautions: dict[str, None] = {}
    sources: dict[str, None] = {}
    for basis in bases:
        if basis is None:
            continue
        for sentence in look.sentences_of(basis["caution"]):
            cautions.setdefault(sentence)
        sources.setdefault(
            f"Basis: {_end(basis['basis'])}. Edition: {_end(basis['edition'])}. Known how: {_end(basis['status'])}."
        )
    return list(cautions), list(sources)


def _end(text: str) -> str:
    return text.strip().rstrip(".")
