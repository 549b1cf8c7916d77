"""The programme as text for the terminal."""

from __future__ import annotations

import numpy as np

from racewright.cli.energy_table import printable
from racewright.cli.growth_table import name_of
from racewright.growth.programme import DevelopmentStep
from racewright.ledger.growth_findings import ProgrammeFound
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.money import Money


def programme_table(found: ProgrammeFound, *, invented: bool) -> str:
    """Steps, cash by year, worth with and without stopping, the leap, costs by exponent, remarks."""
    value, cash = found.value, found.cash
    lines = [f"Steps, money in thousands of {cash.terms}", *_steps(found), ""]
    lines += _cash(found)
    over = "" if value.steps_over_leap is None else f"; the steps over the leap {_money(value.steps_over_leap)}"
    leap = "none stated" if value.leap is None else f"{_money(value.leap)}{over}"
    time = cash.time_to_prize
    raised, low, high = (f"{part / 1e3:,.0f}" for part in (cash.deepest.p50, cash.deepest.p10, cash.deepest.p90))
    lines += [
        "",
        f"worth, stopping at a failed gate   {_money(value.with_stopping)}",
        f"worth, all steps paid for          {_money(value.without_stopping)}",
        f"value of stopping early            {_money(value.value_of_stopping)}",
        f"one big leap                       {leap}",
        f"chance that all gates are passed   {100.0 * value.chance:.1f} %",
        f"to be raised                       {raised} ({low} to {high})",
    ]
    if time is not None:
        years = [part / SECONDS_PER_YEAR for part in (time.p50, time.p10, time.p90)]
        lines.append(f"time to the prize                  {years[0]:.1f} yr ({years[1]:.1f} to {years[2]:.1f})")
    lines += _costs(found)
    lines += [f"{r.severity}: {printable(r.text)}" for r in value.remarks]
    if invented:
        lines += ["", "Costs, times, chances and prize are invented."]
    return "\n".join(lines)


def _money(money: Money) -> str:
    return f"{money.amount / 1e3:,.0f}"


def _steps(found: ProgrammeFound) -> list[str]:
    gates = {gate.name: gate for gate in found.value.gates}
    lines = [
        f"{'step':<16} {'cost':>10}  {'range':<20} {'yr':>5} {'passes %':>8} {'reached %':>9}"
        f" {'worth then':>11} begin"
    ]
    for step in found.programme.steps:
        gate = gates[step.name]
        begin = "yes" if gate.begin else "no"
        lines.append(f"{_step(step)} {100.0 * gate.reached:>9.0f} {gate.going_on / 1e3:>11,.0f} {begin}")
    return [*lines, *([_step(found.leap)] if found.leap is not None else [])]


def _step(step: DevelopmentStep) -> str:
    cost = step.cost.amount / 1e3
    ends = f"{step.cost_low * cost:,.0f} to {step.cost_high * cost:,.0f}"
    years = step.time / SECONDS_PER_YEAR
    return f"{name_of(step.name)} {cost:>10,.0f}  {ends:<20} {years:>5.2f} {100.0 * step.chance:>8.0f}"


def _cash(found: ProgrammeFound) -> list[str]:
    """By year; the CSV and the JSON have every quarter."""
    cash = found.cash
    lines = [f"{'year':>4} {'expected':>10} {'if all pass':>12} {'sum, 10 %':>10} {'50 %':>10} {'90 %':>10}"]
    for start in range(0, cash.expected.size, 4):
        part, last = slice(start, start + 4), min(start + 4, cash.expected.size) - 1
        figures = (
            float(np.sum(cash.expected[part])),
            float(np.sum(cash.if_all_pass[part])),
            float(cash.sum_low[last]),
            float(cash.sum_middle[last]),
            float(cash.sum_high[last]),
        )
        cells = " ".join(
            f"{figure / 1e3:>{width},.0f}" for figure, width in zip(figures, (10, 12, 10, 10, 10), strict=True)
        )
        lines.append(f"{start // 4 + 1:>4} {cells}")
    return lines


def _costs(found: ProgrammeFound) -> list[str]:
    if not found.costs:
        return []
    lines = [
        "",
        f"Cost of a unit as stated, and from the first by size^{found.size_exponent:g} and"
        f" {100.0 * found.learning_rate:g} % learning",
    ]
    for one in found.costs:
        lines.append(
            f"{name_of(one.name)} {_money(one.stated):>10} {_money(one.scaled.unit_cost):>10}"
            f"   stated over scaled {one.over_scaled:.2f}"
        )
    return lines
