"""What anchors are asked and what they answer."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.anchor_door import not_negative, within
from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.safety_factors import LimitState
from racewright.uncertainty import Band

FURTHEST = 1e10
"""Loads beyond this are taken for a slip of units [N]."""
ALONG_THE_LINE = ("screw", "rock_bolt", "bank_tie")
"""Kinds whose holding is stated along the whole pull, wherever it points; that of the others is across the bed, with
what lifts."""


@dataclass(frozen=True, slots=True)
class AnchorLoad:
    """What the line does to its anchor in one load case, no factor on it.

    Attributes
    ----------
    case : str
        Name of the load case, such as 'flood, log on the lines'.
    limit_state : str
        'intact' or 'one line lost'; or 'any', 'ultimate', 'accidental' for tables made that way.
    horizontal : float
        >= 0 [N].
    vertical : float
        Upwards positive; negative presses down: no anchor is credited with it, and those that bear so much along the
        line must bear it too [N].
    """

    case: str
    limit_state: LimitState
    horizontal: float
    vertical: float

    def __post_init__(self) -> None:
        within(f"the horizontal load of '{self.case}'", self.horizontal, 0.0, FURTHEST, "N", 10e3)
        within(f"the vertical load of '{self.case}'", self.vertical, -FURTHEST, FURTHEST, "N", 0.0)
        if self.horizontal == 0.0 and self.vertical <= 0.0:
            raise InputError(
                f"the load case '{self.case}' does not pull on its anchor; wanted a horizontal load or lift"
            )

    @property
    def total(self) -> float:
        """Resultant of horizontal load and lift; what presses down is left out [N]."""
        return float((self.horizontal**2 + max(self.vertical, 0.0) ** 2) ** 0.5)

    def pull(self, kind: str) -> float:
        """What is set against the holding of a kind of anchor: the whole pull, or `total` [N]."""
        return math.hypot(self.horizontal, self.vertical) if kind in ALONG_THE_LINE else self.total


@dataclass(frozen=True, slots=True)
class AnchorLimit:
    """One way in which an anchor gives way, and the load in the direction of the line that does it [N]."""

    mode: str
    load: Band


@dataclass(frozen=True, slots=True)
class AnchorHolding:
    """What an anchor bears in the direction of one load, before any safety factor.

    Attributes
    ----------
    kind : {'deadweight', 'drag', 'screw', 'rock_bolt', 'bank_tie'}
    ultimate : Band or None
        Load along the line at which it gives way; None when refused [N].
    governs : str
        The way in which it gives way first, '' when refused.
    reason : str
        Why it was refused, '' when answered.
    limits : tuple of AnchorLimit
        Every way that was looked at.
    remarks : tuple of Remark
    safety : SafetyBasis
        Basis, edition, status and caution of `ultimate`.
    """

    kind: str
    ultimate: Band | None
    governs: str
    reason: str
    limits: tuple[AnchorLimit, ...]
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def answered(
    kind: str, limits: tuple[AnchorLimit, ...], remarks: tuple[Remark, ...], safety: SafetyBasis
) -> AnchorHolding:
    """The holding whose least limit governs; its low and high are the least low and high of all limits."""
    first = min(limits, key=lambda limit: limit.load.value)
    low = min(limit.load.low for limit in limits)
    high = min(limit.load.high for limit in limits)
    ultimate = Band(low, first.load.value, high, first.load.basis)
    return AnchorHolding(kind, ultimate, first.mode, "", limits, remarks, safety)


def refused(kind: str, reason: str, safety: SafetyBasis, remarks: tuple[Remark, ...] = ()) -> AnchorHolding:
    """No holding is stated, and why; the reason stands among the remarks as a warning."""
    return AnchorHolding(kind, None, "", reason, (), (*remarks, Remark("warning", reason, "anchor refused")), safety)


def scattered(value: float, scatter: tuple[float, float], basis: str) -> Band:
    """A band from a value and what it may be of itself, low and high."""
    not_negative("a holding force", value, "N", 10e3)
    return Band(value * scatter[0], value, value * scatter[1], basis)
