"""Notes that carry basis, edition, status and caution beside the numbers of a table."""

from __future__ import annotations

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
        """One sentence group a note: caution first, then basis, edition and status."""
        return Points(tuple(_told(place, safety) for safety, place in self._met.items()))


def _told(place: int, safety: SafetyBasis) -> str:
    parts = (
        f"Note {place}. {safety.caution.strip().rstrip('.')}.",
        f"Basis: {safety.basis.strip().rstrip('.')}.",
        f"Edition: {safety.edition.strip()}.",
        f"Known how: {safety.status.strip()}.",
    )
    return signs(clean(" ".join(parts)))
