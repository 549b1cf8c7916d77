"""Drag anchors: power law in mass, for a flat pull only."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.holding.anchor_door import positive
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, answered, refused, scattered
from racewright.holding.anchor_tables import DragCoefficients, drag_coefficients
from racewright.remark import Remark
from racewright.safety import safety_basis

_ROUNDING = 1e-6
"""Lift over horizontal load that a solver of lines may leave where the line lies on the bed [-]."""


@dataclass(frozen=True, slots=True)
class DragAnchor:
    """An anchor that digs in when it is dragged.

    Attributes
    ----------
    form : str
        'stockless, fixed fluke' or 'light twin fluke'.
    bed : str
        'soft' (mud, clay) or 'hard' (sand); on any other bed nothing is published and the anchor is refused.
    mass : float
        In air, > 0 [kg].
    coefficients : DragCoefficients, optional
        The maker's or the user's, in place of the packaged row.
    """

    form: str
    bed: str
    mass: float
    coefficients: DragCoefficients | None = None

    def __post_init__(self) -> None:
        positive("the mass of the drag anchor", self.mass, "kg", 100.0)


def drag_law(reference_holding: float, mass: float, reference_mass: float, exponent: float) -> float:
    """Ultimate holding HR (W / WR)^b (UFC 4-159-03, equation 26) [N].

    Parameters
    ----------
    reference_holding : float
        > 0 [N].
    mass, reference_mass : float
        > 0 [kg].
    exponent : float
        > 0 [-].

    Examples
    --------
    >>> round(drag_law(126.0, 1000.0, 10000.0, 0.8), 4)
    19.9697
    """
    positive("the reference holding", reference_holding, "N", 560e3)
    positive("the mass", mass, "kg", 100.0)
    positive("the reference mass", reference_mass, "kg", 4536.0)
    positive("the exponent", exponent, "", 0.8)
    return reference_holding * math.pow(mass / reference_mass, exponent)


def drag_holding(anchor: DragAnchor, horizontal: float, vertical: float) -> AnchorHolding:
    """Horizontal load that the anchor holds after it was pulled in.

    Parameters
    ----------
    anchor : DragAnchor
    horizontal, vertical : float
        As `AnchorLoad`; a lift of more than a millionth of the horizontal load is refused [N].
    """
    row = anchor.coefficients or drag_coefficients(anchor.form, anchor.bed)
    if row is None:
        safety = safety_basis("anchors", "no published coefficients for this bed", "none", "no number")
        return refused(
            "drag",
            f"Nothing is published here for a drag anchor of form '{anchor.form}' on a bed of '{anchor.bed}'; soft "
            "(mud, clay) and hard (sand) beds are known. On rock and boulders a drag anchor does not hold.",
            safety,
        )
    safety = safety_basis("anchors", row.source, row.edition, row.status)
    if vertical > _ROUNDING * horizontal:
        return refused(
            "drag",
            f"The line lifts the drag anchor with {vertical:.0f} N. A drag anchor holds a flat pull only: keep "
            "chain on the bed in every case, or take a screw, a rock bolt or a weight.",
            safety,
        )
    value = drag_law(row.reference_holding, anchor.mass, row.reference_mass, row.exponent)
    limit = AnchorLimit("drags", scattered(value, row.scatter, row.status))
    return answered("drag", (limit,), _remarks(anchor, row), safety)


def _remarks(anchor: DragAnchor, row: DragCoefficients) -> tuple[Remark, ...]:
    found = [
        Remark(
            "caution",
            "The holding is that of an anchor pulled in by a flat pull in the direction of the load, in bed deep "
            "enough to bury it; a pull from elsewhere, as a tide's turn brings, may break it out.",
            "drag anchor",
        )
    ]
    if anchor.mass < row.smallest_mass:
        found.append(
            Remark(
                "caution",
                f"The law was made for anchors of tonnes; at {anchor.mass:.0f} kg it is stretched far. Pull-test.",
                "drag anchor",
            )
        )
    return tuple(found)
