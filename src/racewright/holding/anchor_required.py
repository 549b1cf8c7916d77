"""Holding that an anchor must have, from the worst of its load cases."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.anchor_result import AnchorLoad
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor


@dataclass(frozen=True, slots=True)
class FactoredLoad:
    """One load case with its safety factor on it.

    Attributes
    ----------
    load : AnchorLoad
        Without a factor.
    factor : SafetyFactor
    horizontal, vertical, total : float
        With the factor; a downward vertical part counts as 0 in `vertical`, and in `total` where the anchor's holding
        is not stated along the whole pull [N].
    """

    load: AnchorLoad
    factor: SafetyFactor
    horizontal: float
    vertical: float
    total: float

    @property
    def pull(self) -> float:
        """`total` without the factor [N]."""
        return self.total / _number(self.factor)


@dataclass(frozen=True, slots=True)
class RequiredHolding:
    """What the anchor must bear, factors on it.

    Attributes
    ----------
    horizontal, vertical, total : float
        Largest of each over the cases; they need not come from one case [N].
    horizontal_case, vertical_case, total_case : str
        The cases they come from; '' for a vertical part that is 0 in every case.
    cases : tuple of FactoredLoad
    safety : SafetyBasis
        Of the factor on `total`.
    """

    horizontal: float
    vertical: float
    total: float
    horizontal_case: str
    vertical_case: str
    total_case: str
    cases: tuple[FactoredLoad, ...]
    safety: SafetyBasis


def required_holding(
    loads: Sequence[AnchorLoad], factors: Mapping[str, SafetyFactor], *, kind: str = ""
) -> RequiredHolding:
    """Put the factor of its limit state on each case and take the largest.

    Parameters
    ----------
    loads : sequence of AnchorLoad
        One or more.
    factors : mapping of SafetyFactor by limit state
        'any' serves the limit states that are not named.
    kind : str
        Of anchor, as `AnchorLoad.pull`; '' leaves downward parts out.

    Raises
    ------
    InputError
        No load case, two of one name, or a limit state without a factor.
    NoAnswerError
        The standard gives no factor, or two.
    """
    if not loads:
        raise InputError("an anchor wants one load case or more")
    names = [load.case for load in loads]
    if len(set(names)) != len(names):
        raise InputError(f"two load cases of the anchor bear one name among {', '.join(names)}")
    cases = tuple(_factored(load, factors, kind) for load in loads)
    level = max(cases, key=lambda case: case.horizontal)
    lift = max(cases, key=lambda case: case.vertical)
    most = max(cases, key=lambda case: case.total)
    return RequiredHolding(
        level.horizontal,
        lift.vertical,
        most.total,
        level.load.case,
        lift.load.case if lift.vertical > 0.0 else "",
        most.load.case,
        cases,
        most.factor.safety,
    )


def factor_of(limit_state: str, factors: Mapping[str, SafetyFactor]) -> SafetyFactor:
    """The factor of a limit state, else that of 'any'; InputError when there is neither."""
    found = factors.get(limit_state) or factors.get("any")
    if found is None:
        raise InputError(f"no safety factor is given for the limit state '{limit_state}', nor one for 'any'")
    if found.group != "anchor":
        raise InputError(f"'{found.key}' is a factor for a {found.group}, not for an anchor")
    return found


def _factored(load: AnchorLoad, factors: Mapping[str, SafetyFactor], kind: str) -> FactoredLoad:
    factor = factor_of(load.limit_state, factors)
    number = _number(factor)
    return FactoredLoad(
        load, factor, number * load.horizontal, number * max(load.vertical, 0.0), number * load.pull(kind)
    )


def _number(factor: SafetyFactor) -> float:
    """Over the ultimate holding [-]."""
    return factor.single() / factor.share
