"""What is found of a machine's growth: sizes, claims, programme."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.growth.claims import ClaimSheet
from racewright.growth.grow import Growth
from racewright.growth.programme import DevelopmentStep, Programme
from racewright.growth.programme_cash import ProgrammeCash
from racewright.growth.programme_scaled import ScaledCost
from racewright.growth.programme_value import ProgrammeValue
from racewright.remark import Remark
from racewright.supply.money import Money


@dataclass(frozen=True)
class StepCost:
    """What one unit of a step costs as stated, beside what size and learning make of the first step's.

    Attributes
    ----------
    name : str
        Of the step.
    stated : Money
        Likeliest cost of the step over its units.
    built_before : int
        Units of the steps before, which count for learning.
    scaled : ScaledCost
        By the programme's exponents, from the first step that builds a unit.
    over_scaled : float
        Stated over scaled; above 1 the step is dearer than the exponents say [-].
    """

    name: str
    stated: Money
    built_before: int
    scaled: ScaledCost
    over_scaled: float


@dataclass(frozen=True)
class ProgrammeFound:
    """The programme computed.

    Attributes
    ----------
    programme : Programme
    leap : DevelopmentStep or None
        The one big leap; None where none is stated.
    cash : ProgrammeCash
    value : ProgrammeValue
    size_exponent : float
        Cost of a unit goes as rated power to this [-].
    learning_rate : float
        Share of cost saved by each doubling of units built [-].
    costs : tuple of StepCost
        For each step that builds units; empty where the first costs nothing.
    """

    programme: Programme
    leap: DevelopmentStep | None
    cash: ProgrammeCash
    value: ProgrammeValue
    size_exponent: float
    learning_rate: float
    costs: tuple[StepCost, ...]


@dataclass(frozen=True)
class GrowthFindings:
    """The machine's growth computed.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    invented : bool
        True where the scheme says that it is made up.
    growth : Growth
        Its own exponents carry the scheme's sources.
    sheet : ClaimSheet
        Empty where nothing is claimed.
    programme : ProgrammeFound or None
        None where the scheme has none.
    remarks : tuple of Remark
        Each once, worst first; those of the claims are in `sheet`.
    """

    name: str
    description: str
    invented: bool
    growth: Growth
    sheet: ClaimSheet
    programme: ProgrammeFound | None
    remarks: tuple[Remark, ...]
