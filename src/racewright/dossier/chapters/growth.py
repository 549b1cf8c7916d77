"""Steps of growth, one page each: what the step is, what the one before says of it, what it weighs and costs."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters import claims
from racewright.dossier.chapters.words import DEFER, facts, remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Points, Table, Text
from racewright.dossier.figures.growth_factors import power_of
from racewright.dossier.text import clean
from racewright.growth.claims import ClaimSheet
from racewright.growth.grow import Growth, GrowthPage
from racewright.growth.similarity import SimilarityNumber
from racewright.growth.size_exponents import ScaledQuantity
from racewright.growth.step_comparison import StepComparison
from racewright.uncertainty import Band


def write(growth: Growth, sheet: ClaimSheet) -> Chapter:
    """The chapter: the sizes side by side, a page a step, the claims.

    Pictures: 'growth_ladder', 'growth_step_up', and 'growth_factors_2' on from the second step.
    """
    blocks: list[Block] = [
        Text(_answer(growth), "lead"),
        Picture(
            "growth_ladder",
            "Above all to one scale, below each as large as the page lets it be. Side views, flow from the left.",
            f"{len(growth.pages)} machines of growing size; their figures stand on their pages.",
        ),
        Picture(
            "growth_step_up",
            "Solved efficiency inside the stage, shaft power over the head taken, and three forms of step-up.",
            "Efficiency grows with Reynolds number; the figures stand on the pages of the steps.",
        ),
    ]
    for place, page in enumerate(growth.pages, 1):
        blocks += _page(page, place)
    blocks.append(Heading("Claims"))
    blocks += claims.write(sheet)
    return Chapter("growth", "Growth", tuple(blocks))


def _answer(growth: Growth) -> str:
    first, last = growth.pages[0].solved, growth.pages[-1].solved
    power = last.electrical_power / first.electrical_power
    return (
        f"From {clean(first.step.name)} to {clean(last.step.name)} the throat grows from "
        f"{fmt.quantity(first.step.throat_diameter, fmt.LENGTH)} to "
        f"{fmt.quantity(last.step.throat_diameter, fmt.LENGTH)}, and electrical power is {_times(power)} as much. "
        "Each size is solved for itself; formulas of step-up only check it."
    )


def _page(page: GrowthPage, place: int) -> list[Block]:
    name = clean(page.solved.step.name)
    found: list[Block] = [Heading(f"Step {place}: {name}"), _step(page)]
    before = page.before
    if before is None:
        return found
    earlier = clean(before.first.step.name)
    found += [
        Text(_power(before)),
        Text(_efficiency(before)),
        _similarity(before.numbers, earlier, name),
    ]
    asked = tuple(f"{n.name}: {clean(n.meaning)}" for n in before.numbers if n.verdict == "not known")
    if asked:
        found.append(Points(asked))
    if page.scaled:
        found += [
            Picture(
                f"growth_factors_{place}",
                f"Factors on what the {earlier} has; bars from the low to the high exponent.",
                "Factors of loads, masses and costs; the figures stand in the next table.",
            ),
            _factors(page.scaled, earlier),
            Text(f"Exponents serve a first estimate of loads and masses. {DEFER}", "safety"),
        ]
    if before.remarks:
        found.append(remark_table(before.remarks, f"Remarks on the step to {name}"))
    return found


def _step(page: GrowthPage) -> Table:
    solved, point = page.solved, page.solved.point
    band = Band(point.band.low, point.shaft_power, point.band.high, point.band.basis)
    rows = [
        ("throat diameter", fmt.quantity(solved.step.throat_diameter, fmt.LENGTH), "smallest inner diameter"),
        ("stream speed", fmt.quantity(point.stream_speed, fmt.SPEED), "of the design point"),
        ("shaft power", fmt.band(band, fmt.POWER).both, "with its prior band"),
        (
            "electrical power",
            fmt.quantity(solved.electrical_power, fmt.POWER),
            f"through a drive of {fmt.quantity(solved.step.drive_efficiency, fmt.SHARE, 2)}",
        ),
        ("rotor speed", fmt.quantity(point.rotor_speed, fmt.ROTATION), "at the design tip-speed ratio"),
        ("shaft torque", fmt.quantity(point.torque, fmt.TORQUE), "what shaft, gear and brake carry"),
        ("thrust", fmt.quantity(point.thrust, fmt.FORCE), "what the tethers hold"),
        ("hydraulic efficiency", fmt.quantity(point.hydraulic_efficiency, fmt.SHARE), "shaft power over the head"),
        ("specific speed", fmt.number(page.specific.specific_speed, 2), "ΩQ^0.5/dh^0.75"),
        ("specific diameter", fmt.number(page.specific.specific_diameter, 3), "D dh^0.25/Q^0.5"),
    ]
    rated = page.rated
    if rated is not None:
        asked = (
            f"found {fmt.quantity(rated.found, fmt.POWER)}; it asks for a stream of "
            f"{fmt.quantity(rated.speed_for_it, fmt.SPEED)}, or a throat of "
            f"{fmt.quantity(rated.diameter_for_it, fmt.LENGTH)} in this one"
        )
        rows.append(("rated power", fmt.quantity(rated.wanted, fmt.POWER), asked))
    return facts(f"The step: {clean(solved.step.name)}", rows)


def _power(before: StepComparison) -> str:
    parts = before.power
    return (
        f"Shaft power is {_times(parts.shaft_power)} that of the {clean(before.first.step.name)}: rotor area "
        f"{_times(parts.area)}, stream speed cubed {_times(parts.speed_cubed)}, density {parts.density:.3f} times, "
        f"share taken {parts.power_coefficient:.3f} times."
    )


def _efficiency(before: StepComparison) -> str:
    low, high = 100.0 * before.forms_low, 100.0 * before.forms_high
    agree = "agree" if before.agrees else "do not agree"
    return (
        f"Size alone changes hydraulic efficiency by {_points(before.size_gain)}, to "
        f"{100.0 * before.like.point.hydraulic_efficiency:.2f} %; gap, surface and shape by "
        f"{_points(before.shape_gain)}. Forms of step-up say {low:.2f} to {high:.2f} %: the two {agree}."
    )


def _points(gain: float) -> str:
    """A change of a share, in points with its sign."""
    sign = "+" if gain > 0.0 else ""
    return f"{sign}{fmt.number(100.0 * gain, 2)} points"


_COUNTS = ("vanes", "blades")
"""Numbers that are whole."""


def _similarity(numbers: tuple[SimilarityNumber, ...], first: str, second: str) -> Table:
    columns = (
        Column("number", share=2.2),
        Column(first, "end", 1.1),
        Column(second, "end", 1.1),
        Column("ratio", "end", 0.8),
        Column("what it means", share=3.8),
    )
    rows = tuple(
        (
            f"{n.name}, {n.unit}" if n.unit else n.name,
            _number(n.first, n.name in _COUNTS),
            _number(n.second, n.name in _COUNTS),
            "kept" if n.verdict == "kept" else _number(n.ratio),
            n.meaning,
        )
        for n in numbers
        if n.verdict != "not known"
    )
    return Table("What is kept and what is not; the test is that of the step before", columns, rows)


def _factors(scaled: tuple[ScaledQuantity, ...], first: str) -> Table:
    columns = (
        Column("quantity", share=1.6),
        Column(f"times that of {first}", "end", 1.5),
        Column("grows with", share=1.7),
        Column("status and source", share=3.4),
    )
    rows = tuple(
        (
            clean(one.exponent.name),
            _range(one),
            power_of(one),
            clean(": ".join(part for part in (one.exponent.status, one.exponent.source) if part.strip())),
        )
        for one in scaled
    )
    return Table("Loads, masses and costs by exponent", columns, rows)


def _range(one: ScaledQuantity) -> str:
    middle = fmt.number(one.factor, _places(one.factor))
    if one.high_factor <= one.low_factor * 1.0005:
        return middle
    low, high = (fmt.number(end, _places(end)) for end in (one.low_factor, one.high_factor))
    return f"{middle} ({low} to {high})"


def _times(ratio: float) -> str:
    return f"{fmt.number(ratio, _places(ratio))} times"


def _places(value: float) -> int:
    return fmt.decimals_for(value, 3)


def _number(value: float | None, whole: bool = False) -> str:
    """Three digits; large pure numbers as powers of ten."""
    if value is None:
        return "\u2013"
    if whole:
        return fmt.number(value, 0)
    if abs(value) >= 1e5:
        lead, _mark, power = f"{value:.2e}".partition("e")
        return f"{lead}·10^{int(power)}"
    return fmt.number(value, fmt.decimals_for(value, 3))
