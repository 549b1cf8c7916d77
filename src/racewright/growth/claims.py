"""Headline figures as claims: each with its band, what it rests on, its last test and its next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from racewright.errors import InputError
from racewright.growth.claim_rules import Facts, lacks_of
from racewright.remark import Remark
from racewright.uncertainty import Band

Basis = Literal["measured by us", "published", "computed", "memory"]
"""What a figure rests on, firmest first."""


@dataclass(frozen=True, slots=True)
class Claim:
    """One headline figure.

    Attributes
    ----------
    name : str
        E.g. 'shaft power at design'.
    basis : {'measured by us', 'published', 'computed', 'memory'}
    value : float or None
        None where there is no figure yet, which is a lack [`unit`].
    unit : str
        Empty or '1' for a pure number.
    step : str
        Step of growth that it is claimed for; empty for the machine as it stands.
    source : str
        Citation of a published figure, what computes a computed one, whose memory; empty is a lack.
    band : Band or None
        Holds the value [`unit`].
    why_no_band : str
        The reason, where there is none.
    last_test : str
        The last test that it was put to, with its date; empty where there was none.
    tested_step : str
        Step on which that test was made; empty for `step` itself.
    next_test : str
        What the next will be, and when; empty where none is planned.
    """

    name: str
    basis: Basis
    value: float | None
    unit: str = ""
    step: str = ""
    source: str = ""
    band: Band | None = None
    why_no_band: str = ""
    last_test: str = ""
    tested_step: str = ""
    next_test: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError("a claim has no name; give one, e.g. 'shaft power at design'", key="name")
        if self.basis not in get_args(Basis):
            raise InputError(f"{self.name}: {self.basis!r} must be one of {', '.join(get_args(Basis))}", key="basis")
        if self.value is not None and (isinstance(self.value, bool) or not math.isfinite(self.value)):
            raise InputError(f"the claim {self.name} is {self.value!r}; wanted a finite number", key="value")
        if self.tested_step.strip() and not self.last_test.strip():
            raise InputError(f"{self.name}: a step was tested and the test is not named", key="last_test")
        if self.band is not None:
            self._check_band(self.band)

    def _check_band(self, band: Band) -> None:
        if self.value is None:
            raise InputError(f"the claim {self.name} has a band and no value", key="value")
        if not (math.isfinite(band.low) and math.isfinite(band.high) and band.low <= self.value <= band.high):
            raise InputError(
                f"the claim {self.name} is {self.value:g}, outside its band of {band.low:g} to {band.high:g}",
                key="band",
            )
        if self.why_no_band.strip():
            raise InputError(f"the claim {self.name} has a band and a reason for having none", key="why_no_band")

    @property
    def width(self) -> float:
        """Half of the band over the value; infinite without a band or at a value of 0 [-]."""
        if self.band is None or not self.value:
            return math.inf
        return 0.5 * (self.band.high - self.band.low) / abs(self.value)


@dataclass(frozen=True, slots=True)
class CheckedClaim:
    """A claim and what it lacks.

    Attributes
    ----------
    claim : Claim
    lacks : tuple of Remark
        Gravest first; empty where nothing is missing.
    """

    claim: Claim
    lacks: tuple[Remark, ...]

    @property
    def stands(self) -> bool:
        """True where nothing graver than a note is lacking."""
        return all(one.severity == "note" for one in self.lacks)

    @property
    def verdict(self) -> str:
        """'yes', 'yes, untested' where it stands and was never put to a test, or 'not yet'."""
        if not self.stands:
            return "not yet"
        return "yes" if self.claim.last_test.strip() else "yes, untested"


@dataclass(frozen=True, slots=True)
class ClaimSheet:
    """Claims in order: by step as the steps come, then firmest basis first, then narrowest band, then name.

    Attributes
    ----------
    claims : tuple of CheckedClaim
    remarks : tuple of Remark
        Of all claims, gravest first.
    """

    claims: tuple[CheckedClaim, ...]
    remarks: tuple[Remark, ...]


def claim_sheet(claims: Sequence[Claim], *, steps: Sequence[str] = ()) -> ClaimSheet:
    """Put claims in order and say what each lacks.

    Parameters
    ----------
    claims : sequence of Claim
        No two of one name for one step.
    steps : sequence of str, optional
        Names of the steps in their order. Claims without a step come first, those for other steps last.

    Raises
    ------
    InputError
        Two claims of one name for one step.
    """
    seen: set[tuple[str, str]] = set()
    for claim in claims:
        key = (claim.name, claim.step)
        if key in seen:
            told = f" for {claim.step}" if claim.step else ""
            raise InputError(f"{claim.name!r} is claimed twice{told}; once is wanted", key=claim.name)
        seen.add(key)
    places = {name: i for i, name in enumerate(("", *steps))}
    firmness = {basis: i for i, basis in enumerate(get_args(Basis))}

    def order(claim: Claim) -> tuple[int, str, int, float, str]:
        place = places.get(claim.step, len(places))
        return place, claim.step, firmness[claim.basis], claim.width, claim.name

    checked = tuple(CheckedClaim(one, _lacks(one)) for one in sorted(claims, key=order))
    remarks = sorted((lack for one in checked for lack in one.lacks), key=lambda lack: _GRAVITY[lack.severity])
    return ClaimSheet(checked, tuple(remarks))


_GRAVITY = {"warning": 0, "caution": 1, "note": 2}


def _lacks(claim: Claim) -> tuple[Remark, ...]:
    tested = bool(claim.last_test.strip())
    facts = Facts(
        basis=claim.basis,
        figure=claim.value is not None,
        band=claim.band is not None,
        reason=bool(claim.why_no_band.strip()),
        source=bool(claim.source.strip()),
        last_test=claim.last_test,
        tested_here=tested and claim.tested_step.strip() in ("", claim.step),
        next_test=bool(claim.next_test.strip()),
    )
    about = f"{claim.name}, {claim.step}" if claim.step else claim.name
    found = [Remark(severity, text, about) for severity, text in lacks_of(facts)]
    return tuple(sorted(found, key=lambda lack: _GRAVITY[lack.severity]))
