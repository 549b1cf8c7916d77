"""The case that a command about growth speaks of, and its findings as they are printed."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.growth.claims import CheckedClaim
from racewright.growth.grow import GrowthPage, RatedPower
from racewright.growth.similarity import SimilarityNumber
from racewright.growth.size_exponents import ScaledQuantity
from racewright.growth.specific_numbers import SpecificNumbers
from racewright.growth.step_comparison import PowerParts, StepComparison
from racewright.growth.step_up_forms import FormResult
from racewright.ledger.growth_findings import GrowthFindings, ProgrammeFound
from racewright.ledger.inputs import case_of
from racewright.remark import Remark
from racewright.scheme import LoadedScheme
from racewright.scheme.model import CaseTable
from racewright.uncertainty import Band


@dataclass(frozen=True)
class FromBefore:
    """One size beside the one before.

    Attributes
    ----------
    name : str
        Of the size before.
    power : PowerParts
        Shaft power taken apart, this size over the one before.
    like_efficiency : float
        Hydraulic efficiency of the earlier shape solved at this size, stream and water [-].
    size_gain : float
        That less the earlier size's: Reynolds number alone [-].
    shape_gain : float
        This size's less that: shape, gap, roughness and state [-].
    step_ups : tuple of FormResult
        What the named forms of step-up say.
    forms_low, forms_high : float
        Ends of the forms that go by Reynolds number [-].
    agrees : bool
        True where the solved efficiency lies between those ends or close by.
    numbers : tuple of SimilarityNumber
        What is kept and what is not.
    scaled : tuple of ScaledQuantity
        Masses, loads and costs by exponent.
    """

    name: str
    power: PowerParts
    like_efficiency: float
    size_gain: float
    shape_gain: float
    step_ups: tuple[FormResult, ...]
    forms_low: float
    forms_high: float
    agrees: bool
    numbers: tuple[SimilarityNumber, ...]
    scaled: tuple[ScaledQuantity, ...]


@dataclass(frozen=True)
class SizeFigures:
    """One size of the growth, solved.

    Attributes
    ----------
    name : str
        With spaces for underscores (untrusted).
    throat_diameter : float
        [m]
    stream_speed : float
        Of its design point [m/s].
    shaft_power : Band
        With its prior band [W].
    electrical_power : float
        Through the machine's drive [W].
    rotor_speed : float
        [rad/s]
    torque : float
        At the rotor's shaft [N m].
    thrust : float
        On the whole machine [N].
    power_coefficient : float
        Shaft power over that of the stream through the annulus [-].
    hydraulic_efficiency : float
        Shaft power over the head taken [-].
    reynolds : float
        Throat diameter x tip speed over kinematic viscosity [-].
    specific : SpecificNumbers
        Of the stage.
    rated : RatedPower or None
        What the rated power asks of stream and size; null where the size gives no power.
    before : FromBefore or None
        The size before beside it; null for the first.
    """

    name: str
    throat_diameter: float
    stream_speed: float
    shaft_power: Band
    electrical_power: float
    rotor_speed: float
    torque: float
    thrust: float
    power_coefficient: float
    hydraulic_efficiency: float
    reynolds: float
    specific: SpecificNumbers
    rated: RatedPower | None
    before: FromBefore | None


@dataclass(frozen=True)
class GrowthFigures:
    """The growth as it is printed.

    Attributes
    ----------
    name : str
        Of the [growth.*] table.
    invented : bool
        True where the scheme says that it is made up.
    sizes : tuple of SizeFigures
        In order.
    claims : tuple of CheckedClaim
        Headline figures and what they lack.
    programme : ProgrammeFound or None
        Cost, time, chance and worth; null where the scheme has none.
    remarks : tuple of Remark
        On sizes and programme, worst first.
    """

    name: str
    invented: bool
    sizes: tuple[SizeFigures, ...]
    claims: tuple[CheckedClaim, ...]
    programme: ProgrammeFound | None
    remarks: tuple[Remark, ...]


def growth_case(loaded: LoadedScheme, case_name: str | None) -> tuple[str, CaseTable]:
    """Name and table of a case that has a growth.

    Raises
    ------
    InputError
        No growth in the case or the scheme.
    """
    name, case = case_of(loaded, case_name)
    if case.growth is None:
        message = "no growth; add a [growth.NAME] table and growth = 'NAME' to the case"
        raise loaded.error(message, "case", *([name] if name else []))
    return name, case


def growth_figures(found: GrowthFindings) -> GrowthFigures:
    """The findings without flows, rows and stations."""
    sizes = tuple(_size(page) for page in found.growth.pages)
    return GrowthFigures(found.name, found.invented, sizes, found.sheet.claims, found.programme, found.remarks)


def _size(page: GrowthPage) -> SizeFigures:
    solved, point = page.solved, page.solved.point
    return SizeFigures(
        name=solved.step.name,
        throat_diameter=solved.step.throat_diameter,
        stream_speed=point.stream_speed,
        shaft_power=Band(point.band.low, point.shaft_power, point.band.high, point.band.basis),
        electrical_power=solved.electrical_power,
        rotor_speed=point.rotor_speed,
        torque=point.torque,
        thrust=point.thrust,
        power_coefficient=point.power_coefficient,
        hydraulic_efficiency=point.hydraulic_efficiency,
        reynolds=solved.rotor_reynolds,
        specific=page.specific,
        rated=page.rated,
        before=None if page.before is None else _before(page.before, page.scaled),
    )


def _before(before: StepComparison, scaled: tuple[ScaledQuantity, ...]) -> FromBefore:
    return FromBefore(
        before.first.step.name,
        before.power,
        before.like.point.hydraulic_efficiency,
        before.size_gain,
        before.shape_gain,
        before.step_ups,
        before.forms_low,
        before.forms_high,
        before.agrees,
        before.numbers,
        scaled,
    )
