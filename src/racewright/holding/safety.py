"""What the reader of statics is told, and the factors that tensions are set against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.holding.checked import label
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis


@dataclass(frozen=True, slots=True)
class StrengthFactor:
    """A wanted ratio of breaking strength to slow tension.

    Attributes
    ----------
    name : str
        Of the limit state, e.g. 'intact, quasi-static'.
    factor : float
        1 to 20 [-].
    source, edition : str
        Of the factor; the edition belongs to the number, layouts of factors change between editions.
    case : {'intact', 'one line lost', 'both'}
        Which tensions it is set against.
    """

    name: str
    factor: float
    source: str
    edition: str
    case: Literal["intact", "one line lost", "both"] = "intact"

    def __post_init__(self) -> None:
        label("A strength factor's name", self.name)
        label("A strength factor's source", self.source)
        label("A strength factor's edition", self.edition)
        number("A strength factor", self.factor, 1.0, 20.0)
        if self.case not in ("intact", "one line lost", "both"):
            raise InputError(
                f"A strength factor's case is '{self.case}'; wanted 'intact', 'one line lost' or 'both'."
            )


TENSION_CAUTION = (
    "Slow tension in steady water. Waves, turbulence, snatching of slack lines, strumming and blows of debris come "
    "on top and are not in it. A line under tension can part and fly back: nobody stays in its reach. A competent "
    "engineer, the maker's certificates and the local code decide."
)
POSE_CAUTION = (
    "Steady pose in an even stream. Galloping, gusts and passing debris move the body further. Clearance to vessels "
    "and bed is agreed with the authority in charge of the water."
)
STABILITY_CAUTION = (
    "Small motions about one pose, quasi-steady water forces, no damping by the lines. Passing this is not enough: "
    "tethered bodies also gallop. Test a model."
)
EQUILIBRIUM_BASIS = "balance of forces on a rigid body and elastic lines in a steady stream, computed"
COMPUTED = "own computation"
"""Edition of what no standard or table stands behind."""


def computed(caution: str, basis: str = EQUILIBRIUM_BASIS) -> SafetyBasis:
    """A basis of numbers that were computed here, with no standard behind them."""
    return SafetyBasis(basis, COMPUTED, "computed", caution)
