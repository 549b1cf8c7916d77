"""Headline figures as claims: each with its band, what it rests on, its last test and its next."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from racewright.errors import InputError
from racewright.growth.claim_rules import lacks_of
from racewright.remark import Remark
from racewright.uncertainty import Band

Basis = Literal["measured by us", "published", "computed", "memory"]
"""What a figure rests on, firmest first."""


@dataclass(frozen=True, slots=True)
class ClaimTest:
    """A test that a claim's figure was put to.

    Attributes
    ----------
    name : str
        As the record of the test is called.
    on : datetime.date
        Day on which it ended.
    step : str
        Step of growth that was tested.
    """

    name: str
    on: dt.date
    step: str

    def __post_init__(self) -> None:
        for key in ("name", "step"):
            if not getattr(self, key).strip():
                raise InputError(f"a test has no {key}; give one", key=key)


@dataclass(frozen=True, slots=True)
class Claim:
    """One headline figure.

    Attributes
    ----------
    name : str
        E.g. 'shaft power at 2.4 m/s'.
    step : str
        Step of growth that it is claimed for.
    value : float
        [`unit`]
    unit : str
        SI, empty for a pure number.
    basis : {'measured by us', 'published', 'computed', 'memory'}
    source : str
        Citation of a published figure, what computes a computed one, whose memory; may be empty, which is a lack.
    band : Band or None
        Holds the value [`unit`].
    why_no_band : str
        The reason, where there is none.
    last_test, next_test : ClaimTest or None, str
        The last test that it was put to; what the next will be, empty where none is planned.
    """

    name: str
    step: str
    value: float
    unit: str
    basis: Basis
    source: str = ""
    band: Band | None = None
    why_no_band: str = ""
    last_test: ClaimTest | None = None
    next_test: str = ""

    def __post_init__(self) -> None:
        for key in ("name", "step"):
            if not getattr(self, key).strip():
                raise InputError(f"a claim has no {key}; give one", key=key)
        if self.basis not in get_args(Basis):
            raise InputError(f"{self.name}: {self.basis!r} must be one of {', '.join(get_args(Basis))}", key="basis")
        if isinstance(self.value, bool) or not math.isfinite(self.value):
            raise InputError(f"the claim {self.name} is {self.value!r}; wanted a finite number", key="value")
        if self.band is not None:
            ends = (self.band.low, self.value, self.band.high)
            if not (all(math.isfinite(end) for end in ends) and ends[0] <= ends[1] <= ends[2]):
                raise InputError(
                    f"the claim {self.name} is {self.value:g}, outside its band of {self.band.low:g} to "
                    f"{self.band.high:g}",
                    key="band",
                )
            if self.why_no_band.strip():
                raise InputError(f"the claim {self.name} has a band and a reason for having none", key="why_no_band")

    @property
    def width(self) -> float:
        """Half of the band over the value; infinite without a band or at a value of 0 [-]."""
        if self.band is None or self.value == 0.0:
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
    def holds_up(self) -> bool:
        """True where nothing graver than a note is lacking."""
        return all(one.severity == "note" for one in self.lacks)


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
        No two of one name at one step.
    steps : sequence of str, optional
        Names of the steps in their order; claims for other steps come after them, by name.

    Raises
    ------
    InputError
        Two claims of one name at one step.
    """
    seen: set[tuple[str, str]] = set()
    for claim in claims:
        key = (claim.name, claim.step)
        if key in seen:
            raise InputError(f"{claim.name!r} is claimed twice for {claim.step}; once is wanted", key=claim.name)
        seen.add(key)
    places = {name: i for i, name in enumerate(steps)}
    firmness = {basis: i for i, basis in enumerate(get_args(Basis))}

    def order(claim: Claim) -> tuple[int, str, int, float, str]:
        place = places.get(claim.step, len(places))
        return place, "" if claim.step in places else claim.step, firmness[claim.basis], claim.width, claim.name

    checked = tuple(CheckedClaim(one, _lacks(one)) for one in sorted(claims, key=order))
    remarks = sorted((lack for one in checked for lack in one.lacks), key=lambda lack: _GRAVITY[lack.severity])
    return ClaimSheet(checked, tuple(remarks))


_GRAVITY = {"warning": 0, "caution": 1, "note": 2}


def _lacks(claim: Claim) -> tuple[Remark, ...]:
    test = claim.last_test
    found = lacks_of(
        claim.basis,
        has_band=claim.band is not None,
        has_reason=bool(claim.why_no_band.strip()),
        has_source=bool(claim.source.strip()),
        tested=test is not None,
        tested_here=test is not None and test.step == claim.step,
        has_next=bool(claim.next_test.strip()),
    )
    about = f"{claim.name}, {claim.step}"
    return tuple(sorted((Remark(s, text, about) for s, text in found), key=lambda lack: _GRAVITY[lack.severity]))
