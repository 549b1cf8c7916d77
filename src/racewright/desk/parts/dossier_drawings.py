"""The dossier's drawings, held for the last findings of a worker: each preview asks for a few of them."""

from __future__ import annotations

from racewright.dossier.drawings import Drawings, draw_all
from racewright.ledger.findings import Findings

_LAST: list[tuple[Findings, Drawings]] = []


def drawings_of(found: Findings) -> Drawings:
    """All drawings of some findings."""
    if not _LAST or _LAST[0][0] is not found:
        _LAST[:] = [(found, draw_all(found))]
    return _LAST[0][1]
