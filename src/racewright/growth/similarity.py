"""What two sizes of a machine have in common and what they have not, number by number, in plain words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from racewright.door import within
from racewright.growth.similarity_table import NUMBERS, Group, Number
from racewright.growth.step import SolvedStep

KEPT_WITHIN = 0.02
"""A number counts as kept when both values are within this share of each other. Own choice [-]."""

Verdict = Literal["kept", "grows", "falls", "not known"]


@dataclass(frozen=True, slots=True)
class SimilarityNumber:
    """One number at both sizes.

    Attributes
    ----------
    name : str
    group : {'shape', 'running', 'water', 'surface', 'life', 'drive'}
    unit : str
        Of both values; empty for a pure number.
    first, second : float or None
        At either size; None where it is not known.
    ratio : float or None
        Second over first; None where one is not known or the first is 0 [-].
    verdict : {'kept', 'grows', 'falls', 'not known'}
    meaning : str
        What follows, one plain sentence.
    """

    name: str
    group: Group
    unit: str
    first: float | None
    second: float | None
    ratio: float | None
    verdict: Verdict
    meaning: str


def similarity(
    first: SolvedStep, second: SolvedStep, *, kept_within: float = KEPT_WITHIN
) -> tuple[SimilarityNumber, ...]:
    """Every number of `similarity_table.NUMBERS` at two sizes, in its order.

    Parameters
    ----------
    first, second : SolvedStep
        The one that was built and tested, and the one that is to follow.
    kept_within : float
        0 to 0.5; see `KEPT_WITHIN` [-].

    Raises
    ------
    InputError
        `kept_within` out of range, or a step whose cavitation number does not exist.
    """
    share = within("kept_within", kept_within, 0.0, 0.5, "", KEPT_WITHIN)
    return tuple(_beside(number, first, second, share) for number in NUMBERS)


def _beside(number: Number, first: SolvedStep, second: SolvedStep, share: float) -> SimilarityNumber:
    a, b = number.of(first), number.of(second)
    verdict = _verdict(a, b, share)
    told: dict[Verdict, Callable[[], str]] = {
        "kept": lambda: number.kept,
        "grows": lambda: number.more,
        "falls": lambda: number.less,
        "not known": lambda: f"Not known at {_where(first, second, a, b)}: give {number.wants}.",
    }
    ratio = None if a is None or b is None or a == 0.0 else b / a
    return SimilarityNumber(number.name, number.group, number.unit, a, b, ratio, verdict, told[verdict]())


def _verdict(a: float | None, b: float | None, share: float) -> Verdict:
    if a is None or b is None:
        return "not known"
    if abs(b - a) <= share * max(abs(a), abs(b)):
        return "kept"
    return "grows" if b > a else "falls"


def _where(first: SolvedStep, second: SolvedStep, a: float | None, b: float | None) -> str:
    missing = [one.step.name for one, value in ((first, a), (second, b)) if value is None]
    return " and ".join(missing)
