"""Steps of growth in order, each beside the one before, with what masses, loads and costs become."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.growth.size_exponents import ScaledQuantity, SizeExponent, scaled, size_exponents
from racewright.growth.specific_numbers import SpecificNumbers, diameter_for_power, speed_for_power
from racewright.growth.step import SolvedStep
from racewright.growth.step_comparison import StepComparison, step_comparison
from racewright.growth.step_measures import measures_of
from racewright.growth.step_numbers import step_specific_numbers
from racewright.tick import Tick, silent


@dataclass(frozen=True, slots=True)
class RatedPower:
    """What a step's rated power asks of stream and size, at the power coefficient that was solved.

    Attributes
    ----------
    wanted, found : float
        Electrical power wanted, and found at the design point [W].
    speed_for_it : float
        Stream speed that would give it at this size [m/s].
    diameter_for_it : float
        Throat diameter that would give it in this stream [m].
    """

    wanted: float
    found: float
    speed_for_it: float
    diameter_for_it: float


@dataclass(frozen=True, slots=True)
class GrowthPage:
    """One step's page.

    Attributes
    ----------
    solved : SolvedStep
    specific : SpecificNumbers
    rated : RatedPower or None
        Where a power is wanted.
    before : StepComparison or None
        The step before beside this one; None for the first.
    scaled : tuple of ScaledQuantity
        Masses, loads and costs from the step before to this one; empty for the first.
    """

    solved: SolvedStep
    specific: SpecificNumbers
    rated: RatedPower | None
    before: StepComparison | None
    scaled: tuple[ScaledQuantity, ...]


@dataclass(frozen=True, slots=True)
class Growth:
    """A machine's way from size to size.

    Attributes
    ----------
    pages : tuple of GrowthPage
        One for each step, in order.
    """

    pages: tuple[GrowthPage, ...]


def grow(steps: Sequence[SolvedStep], *, own: Iterable[SizeExponent] = (), tick: Tick = silent) -> Growth:
    """Set steps beside each other, in their order.

    Parameters
    ----------
    steps : sequence of SolvedStep
        Two or more, of different names; usually from small to large.
    own : iterable of SizeExponent
        The user's exponents, in place of the packaged ones of their names.
    tick : callable
        Progress and cancel, called between steps.

    Raises
    ------
    InputError
        Fewer than two steps, two of one name, exponents out of range.
    NoAnswerError
        As `step_comparison`.
    """
    names = [one.step.name for one in steps]
    if len(names) < 2:
        raise InputError(f"growth wants two steps or more; there are {len(names)}", key="steps")
    if len(set(names)) < len(names):
        raise InputError(f"two steps have one name among {', '.join(names)}; name each its own", key="steps")
    exponents = size_exponents(own)
    pages = []
    for i, solved in enumerate(steps):
        tick(i / len(names))
        before = step_comparison(steps[i - 1], solved) if i else None
        grown = _scaled(exponents, before) if before else ()
        pages.append(GrowthPage(solved, step_specific_numbers(solved), rated_power(solved), before, grown))
    tick(1.0)
    return Growth(tuple(pages))


def rated_power(solved: SolvedStep) -> RatedPower | None:
    """What the rated power asks of stream and size; None where none is wanted or the step gives no power.

    The power coefficient is held: Reynolds number and drive change it a little, cut-outs more.
    """
    step, point = solved.step, solved.point
    wanted = step.rated_power
    if wanted is None or point.shaft_power <= 0.0:
        return None
    area, density = step.flow.annulus_area, step.water.density
    circle = 0.25 * math.pi * step.throat_diameter**2
    coefficient = point.power_coefficient * step.drive_efficiency
    return RatedPower(
        wanted=wanted,
        found=solved.electrical_power,
        speed_for_it=speed_for_power(wanted, area, coefficient, density),
        diameter_for_it=diameter_for_power(wanted, point.stream_speed, coefficient * area / circle, density),
    )


def _scaled(exponents: tuple[SizeExponent, ...], before: StepComparison) -> tuple[ScaledQuantity, ...]:
    """All but those whose measure one of the two does not have."""
    small, large = measures_of(before.first), measures_of(before.second)
    return tuple(scaled(one, small, large) for one in exponents if one.over in small and one.over in large)
