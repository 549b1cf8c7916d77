"""From one step to the next: power taken apart, efficiency solved at each size, step-up as a cross-check."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.door import within
from racewright.errors import NoAnswerError
from racewright.growth.similarity import KEPT_WITHIN, SimilarityNumber, similarity
from racewright.growth.step import SolvedStep, like_step, solve_step
from racewright.growth.step_up import step_up
from racewright.growth.step_up_forms import FormResult, SizePair, step_up_forms
from racewright.remark import Remark
from racewright.stage.thin_row import LOW_REYNOLDS
from racewright.tick import Tick, silent

AGREES_WITHIN = 0.01
"""Solved efficiency and the forms of step-up agree when it lies between them or this far outside. Own choice: about
half of what the forms differ by over a decade and more [-]."""


@dataclass(frozen=True, slots=True)
class PowerParts:
    """Second over first, factor by factor; the first four multiply to the last, exactly.

    Attributes
    ----------
    density, area, speed_cubed, power_coefficient : float
        Water, rotor annulus, stream speed cubed, share of the stream's power taken on that annulus [-].
    shaft_power : float
        [-]
    """

    density: float
    area: float
    speed_cubed: float
    power_coefficient: float
    shaft_power: float


@dataclass(frozen=True, slots=True)
class StepComparison:
    """Two steps beside each other.

    Attributes
    ----------
    first, second : SolvedStep
    like : SolvedStep
        The first one's shape solved at the second one's size, stream and water, gap and roughness in proportion: what
        size alone does.
    numbers : tuple of SimilarityNumber
        First and second.
    power : PowerParts
    size_gain : float
        Hydraulic efficiency of `like` less the first's: Reynolds number alone [-].
    shape_gain : float
        The second's less that of `like`: shape, gap, roughness and state [-].
    step_ups : tuple of FormResult
        From the first to `like`.
    forms_low, forms_high : float
        Ends of the forms that go by Reynolds number, as efficiency of `like` [-].
    outside : float
        How far the solved efficiency of `like` lies above (+) or below (-) those ends, 0 between them [-].
    agrees : bool
    remarks : tuple of Remark
    """

    first: SolvedStep
    second: SolvedStep
    like: SolvedStep
    numbers: tuple[SimilarityNumber, ...]
    power: PowerParts
    size_gain: float
    shape_gain: float
    step_ups: tuple[FormResult, ...]
    forms_low: float
    forms_high: float
    outside: float
    agrees: bool
    remarks: tuple[Remark, ...]


def step_comparison(
    first: SolvedStep,
    second: SolvedStep,
    *,
    kept_within: float = KEPT_WITHIN,
    agrees_within: float = AGREES_WITHIN,
    tick: Tick = silent,
) -> StepComparison:
    """Set the second step beside the first.

    Parameters
    ----------
    first, second : SolvedStep
        The one that comes before, and the one that follows; each with its own shape.
    kept_within : float
        As in `similarity` [-].
    agrees_within : float
        0 to 0.2; see `AGREES_WITHIN` [-].
    tick : callable

    Raises
    ------
    InputError
        A value out of range.
    NoAnswerError
        A step that gives no power: it has no efficiency to carry over; or the first one's shape has no operating
        point at the second one's size.
    """
    slack = within("agrees_within", agrees_within, 0.0, 0.2, "", AGREES_WITHIN)
    for one in (first, second):
        if one.point.shaft_power <= 0.0:
            raise NoAnswerError(f"the step {one.step.name} gives no power at its design point: nothing to carry over")
    grown = like_step(
        first.step,
        second.step.throat_diameter,
        second.point.stream_speed,
        second.step.water,
        f"{first.step.name}, at the size of {second.step.name}",
    )
    like = solve_step(grown, tick=tick)
    known = first.point.hydraulic_efficiency
    forms = step_up_forms(
        SizePair(
            known,
            first.rotor_reynolds,
            like.rotor_reynolds,
            second.step.throat_diameter / first.step.throat_diameter,
        )
    )
    by_reynolds = [form.hydraulic_efficiency for form in forms if form.by == "Reynolds number"]
    low, high = min(by_reynolds), max(by_reynolds)
    solved = like.point.hydraulic_efficiency
    outside = solved - min(max(solved, low), high)
    agrees = abs(outside) <= slack
    numbers = similarity(first, second, kept_within=kept_within)
    remarks = (
        *step_up(known, first.rotor_reynolds, like.rotor_reynolds).remarks,
        *_cross_check(solved, low, high, agrees),
        *_shapes(numbers),
        *_rough_start(first, second),
    )
    return StepComparison(
        first=first,
        second=second,
        like=like,
        numbers=numbers,
        power=power_parts(first, second),
        size_gain=solved - known,
        shape_gain=second.point.hydraulic_efficiency - solved,
        step_ups=forms,
        forms_low=low,
        forms_high=high,
        outside=outside,
        agrees=agrees,
        remarks=remarks,
    )


def power_parts(first: SolvedStep, second: SolvedStep) -> PowerParts:
    """Shaft power of the second over the first, factor by factor; the first must give power."""
    a, b = first.point, second.point
    return PowerParts(
        density=second.step.water.density / first.step.water.density,
        area=second.step.flow.annulus_area / first.step.flow.annulus_area,
        speed_cubed=(b.stream_speed / a.stream_speed) ** 3,
        power_coefficient=b.power_coefficient / a.power_coefficient,
        shaft_power=b.shaft_power / a.shaft_power,
    )


def _cross_check(solved: float, low: float, high: float, agrees: bool) -> tuple[Remark, ...]:
    if agrees:
        return ()
    text = (
        f"Solved at the larger size the efficiency inside the stage is {solved:.3f}; the forms of step-up say "
        f"{low:.3f} to {high:.3f}. Take the lower for plans until a test at that size decides."
    )
    return (Remark("caution", text, "step-up"),)


def _shapes(numbers: tuple[SimilarityNumber, ...]) -> tuple[Remark, ...]:
    apart = [n.name for n in numbers if n.group in ("shape", "running") and n.verdict in ("grows", "falls")]
    apart = [name for name in apart if name != "power coefficient"]
    if not apart:
        return ()
    text = (
        f"The two are not one shape in one state: {', '.join(apart)} differ. What was measured on the first holds "
        "for the second through the computation only."
    )
    return (Remark("caution", text, "similarity"),)


def _rough_start(first: SolvedStep, second: SolvedStep) -> tuple[Remark, ...]:
    least = float(min(first.point.blade_reynolds.min(), second.point.blade_reynolds.min()))
    if least >= LOW_REYNOLDS:
        return ()
    text = (
        f"Blade chords work down to a Reynolds number of {least:.2g}, below {LOW_REYNOLDS:.0e}: sections may "
        "stall or stay laminar where larger ones do not, so the step from here is no matter of friction alone."
    )
    return (Remark("caution", text, "Reynolds number"),)
