"""What every number that safety hangs on carries with it."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.cautions import caution


@dataclass(frozen=True, slots=True)
class SafetyBasis:
    """Where a safety number comes from and what to think when reading it.

    Attributes
    ----------
    basis : str
        Form or standard, and what was put in.
    edition : str
        Edition of the standard, paper or table; 'closed form' for statics and elasticity.
    status : str
        'closed form', 'read', 'from memory, 85 %', 'common practice, no source', "user's own" and so on.
    caution : str
        Plain sentences, with whom to defer to.
    """

    basis: str
    edition: str
    status: str
    caution: str


def safety_basis(hazard: str, basis: str, edition: str, status: str) -> SafetyBasis:
    """A basis with the packaged caution of `hazard` (see `cautions.caution`)."""
    return SafetyBasis(basis, edition, status, caution(hazard).sentence)
