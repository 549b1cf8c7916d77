"""Notes that carry basis, edition, status and caution beside the numbers of a table."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from racewright.dossier.document import Points
from racewright.dossier.text import clean, signs
from racewright.safety import SafetyBasis


class SafetyNotes:
    """Numbers the bases of one chapter in the order in which they are met, equal ones once."""

    def __init__(self) -> None:
        self._met: dict[SafetyBasis, int] = {}

    def mark(self, safety: SafetyBasis | tuple[SafetyBasis, ...]) -> str:
        """What stands in the row: 'note 1' or 'notes 1, 2'."""
        several = (safety,) if isinstance(safety, SafetyBasis) else tuple(dict.fromkeys(safety))
        told = ", ".join(str(self._met.setdefault(one, len(self._met) + 1)) for one in several)
        return f"{'note' if len(several) == 1 else 'notes'} {told}"

    def points(self) -> Points:
        """One sentence group a note: caution (told once, then pointed to), basis, edition and status."""
        first: dict[str, int] = {}
        for safety, place in self._met.items():
            first.setdefault(safety.caution, place)
        return Points(tuple(_told(place, safety, first[safety.caution]) for safety, place in self._met.items()))

    def apart(self, said: Mapping[str, str]) -> tuple[str, Points]:
        """Which caution goes with which notes, each once, and the notes with basis, edition and status alone.

        Parameters
        ----------
        said : mapping of str
            Cautions that the chapter has told in full, with the place where: 'at the head of this chapter'. Others
            are told here.
        """
        carried: dict[str, list[int]] = {}
        for safety, place in self._met.items():
            carried.setdefault(safety.caution, []).append(place)
        cautions = " ".join(
            f"With {_places(places)} goes the caution {said[caution]}."
            if caution in said
            else f"With {_places(places)}: {clean(caution)}"
            for caution, places in carried.items()
        )
        notes = (f"Note {place}. {_source(safety)}" for safety, place in self._met.items())
        return signs(cautions), Points(tuple(signs(clean(note)) for note in notes))


def _told(place: int, safety: SafetyBasis, first: int) -> str:
    caution = safety.caution.strip().rstrip(".") if first == place else f"Caution as in note {first}"
    return signs(clean(f"Note {place}. {caution}. {_source(safety)}"))


def _source(safety: SafetyBasis) -> str:
    parts = (
        f"Basis: {safety.basis.strip().rstrip('.')}.",
        f"Edition: {safety.edition.strip()}.",
        f"Known how: {safety.status.strip()}.",
    )
    return " ".join(parts)


def _places(places: list[int]) -> str:
    """'note 4', 'notes 1 to 3, 5' for rising numbers."""
    runs = [[p for _, p in run] for _, run in groupby(enumerate(places), lambda pair: pair[1] - pair[0])]
    told = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return f"{'note' if len(places) == 1 else 'notes'} {', '.join(told)}"
