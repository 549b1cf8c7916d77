"""The dataclasses that values of the growth's nodes are made of."""

from __future__ import annotations

from racewright.growth.claims import Claim
from racewright.growth.grow import Growth, GrowthPage, RatedPower
from racewright.growth.programme import DevelopmentStep, Programme
from racewright.growth.programme_cash import ProgrammeCash
from racewright.growth.programme_scaled import ScaledCost
from racewright.growth.programme_value import GateValue, ProgrammeValue
from racewright.growth.similarity import SimilarityNumber
from racewright.growth.size_exponents import ScaledQuantity, SizeExponent
from racewright.growth.specific_numbers import SpecificNumbers
from racewright.growth.step import SolvedStep, Step, StepPlace
from racewright.growth.step_comparison import PowerParts, StepComparison
from racewright.growth.step_up_forms import FormResult
from racewright.ledger.growth_findings import ProgrammeFound, StepCost
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.supply.money import Money, Rate, Terms
from racewright.supply.quantiles import Quantiles

GROWTH_CLASSES: tuple[type, ...] = (
    Claim, DesignIntent, DevelopmentStep, Duct, FormResult, GateValue, Growth, GrowthPage, Hub, Money, PowerParts,
    Programme, ProgrammeCash, ProgrammeFound, ProgrammeValue, Quantiles, Rate, RatedPower, RowIntent, ScaledCost,
    ScaledQuantity, SimilarityNumber, SizeExponent, SolvedStep, SpecificNumbers, Step, StepComparison, StepCost,
    StepPlace, Terms, Unit,
)  # fmt: skip
