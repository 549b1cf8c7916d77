"""An anchor beside what it must hold: use, flags, verdict."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from racewright.holding.anchor_door import positive
from racewright.holding.anchor_drag import DragAnchor
from racewright.holding.anchor_kinds import Anchor, anchor_holding, kind_of
from racewright.holding.anchor_required import FactoredLoad, RequiredHolding, required_holding
from racewright.holding.anchor_result import AnchorHolding, AnchorLoad
from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor

_HEAVY = 0.5
"""Cases whose use comes to this share of the worst one's say their remarks too. Own choice [-]."""


@dataclass(frozen=True, slots=True)
class AnchorCase:
    """One load case of the check.

    Attributes
    ----------
    case : FactoredLoad
    holding : AnchorHolding
        In the direction of that load.
    use : float or None
        Factored load over ultimate holding, both along the whole pull or both across the bed with what lifts; passes
        up to 1; None when the anchor was refused [-].
    use_low : float or None
        The same at the low end of the holding's range [-].
    """

    case: FactoredLoad
    holding: AnchorHolding
    use: float | None
    use_low: float | None


@dataclass(frozen=True, slots=True)
class AnchorCheck:
    """Verdict on one anchor.

    Attributes
    ----------
    passes : bool
        True when no case was refused and every use is at most 1.
    worst_case : str
        The refused case, else the one with the largest use.
    use : float or None
        Largest use, None when a case was refused [-].
    required : RequiredHolding
    cases : tuple of AnchorCase
    remarks : tuple of Remark
    safety : SafetyBasis
        Of the holding in the worst case.
    """

    passes: bool
    worst_case: str
    use: float | None
    required: RequiredHolding
    cases: tuple[AnchorCase, ...]
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def check_anchor(
    anchor: Anchor,
    loads: Sequence[AnchorLoad],
    factors: Mapping[str, SafetyFactor],
    *,
    chain_strength: float | None = None,
) -> AnchorCheck:
    """Set an anchor against its load cases.

    Parameters
    ----------
    anchor : Anchor
    loads, factors
        As `required_holding`.
    chain_strength : float, optional
        Break strength of the chain or line at the anchor, > 0; a drag anchor should drag before it parts [N].
    """
    required = required_holding(loads, factors, kind=kind_of(anchor))
    cases = tuple(_case(anchor, case) for case in required.cases)
    worst = max(cases, key=lambda row: math.inf if row.use is None else row.use)
    remarks = list(worst.holding.remarks)
    for case in cases:  # what another heavy case alone says, such as a pull farther off the bars
        if case.use is None or worst.use is None or case.use < _HEAVY * worst.use:
            continue
        remarks += [one for one in case.holding.remarks if one.about not in {kept.about for kept in remarks}]
    if worst.use is not None:
        remarks += _use_remarks(worst, cases)
    if chain_strength is not None and worst.holding.ultimate is not None:
        remarks += _weak_link(anchor, worst.holding, positive("the chain's strength", chain_strength, "N", 500e3))
    return AnchorCheck(
        worst.use is not None and worst.use <= 1.0,
        worst.case.load.case,
        worst.use,
        required,
        cases,
        tuple(remarks),
        worst.holding.safety,
    )


def _case(anchor: Anchor, case: FactoredLoad) -> AnchorCase:
    holding = anchor_holding(anchor, case.load)
    if holding.ultimate is None:
        return AnchorCase(case, holding, None, None)
    low = holding.ultimate.low
    return AnchorCase(case, holding, case.total / holding.ultimate.value, case.total / low if low > 0.0 else None)


def _use_remarks(worst: AnchorCase, cases: Sequence[AnchorCase]) -> list[Remark]:
    """What the worst case says, and how many others say the same."""
    name = worst.case.load.case
    if worst.use is not None and worst.use > 1.0:
        others = sum(row.use is not None and row.use > 1.0 for row in cases) - 1
        more = f" So it is, by less, in {others} more load cases." if others else ""
        return [
            Remark(
                "warning",
                f"In '{name}' the anchor is asked for {worst.use:.2f} times what it holds with factor "
                f"{worst.case.factor.single():g} ({worst.case.factor.standard}).{more}",
                "anchor too weak",
            )
        ]
    if any(row.use_low is None or row.use_low > 1.0 for row in cases):
        return [
            Remark(
                "caution",
                f"In '{name}' the anchor holds with its factor at its middle value, not at the low end of its "
                "scatter.",
                "anchor scatter",
            )
        ]
    return []


def _weak_link(anchor: Anchor, holding: AnchorHolding, chain_strength: float) -> list[Remark]:
    if not isinstance(anchor, DragAnchor) or holding.ultimate is None or holding.ultimate.high < chain_strength:
        return []
    sure = holding.ultimate.value >= chain_strength
    return [
        Remark(
            "warning" if sure else "caution",
            f"The drag anchor holds {holding.ultimate.value / 1e3:.0f} kN (up to {holding.ultimate.high / 1e3:.0f} "
            f"kN), the chain breaks at {chain_strength / 1e3:.0f} kN. The anchor should be weaker than the chain, "
            "so that it drags before anything parts.",
            "anchor stronger than chain",
        )
    ]
