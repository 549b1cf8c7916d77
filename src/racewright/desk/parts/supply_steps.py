"""The programme: its steps with cost, time and chance, what stopping early is worth, and cash by quarter."""

from __future__ import annotations

from typing import Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.parts.supply_read import money, range_of, sum_of
from racewright.dossier import format as fmt
from racewright.supply.door import SECONDS_PER_YEAR

_TIME = (fmt.Scale("days", 86400.0), fmt.Scale("years", SECONDS_PER_YEAR))

NONE = "\u2013"
"""Stands where a step has no such figure."""


def programme(found: dict[str, Any], *, invented: bool) -> None:
    """Steps and worth beside each other, then two charts of cash; all in the programme's own terms."""
    cash, value = found["cash"], found["value"]
    currency = cash["terms"]["currency"]
    with look.section("Steps of the programme"):
        if invented:
            look.cautions(["Costs, times, chances and prize are invented."])
        with ui.element("div").classes("supply-steps"):
            _figures(found, currency)
        gates = {gate["name"]: gate for gate in value["gates"]}
        rows = [_step(step, gates[step["name"]], currency) for step in found["programme"]["steps"]]
        if found["leap"] is not None:
            rows.append(_step(found["leap"], None, currency))
        names = ("cost", "its ends", "time", "its ends", "passes", "is reached", "worth on that day")
        columns = [look.Column("step"), *(look.Column(name, number=True) for name in names), look.Column("begin")]
        rate = found["programme"]["rate"]
        caption = (
            f"In {terms(cash['terms'])}; {fmt.quantity(rate['value_1_per_yr'], fmt.SHARE)} a year, {rate['kind']}"
        )
        look.table(caption, columns, rows)
        look.cautions(["Chances are judgements, not frequencies; money is no forecast and no offer."])
    with look.section("Cash by quarter"), look.columns():
        _cash(cash, currency)


def terms(found: dict[str, Any]) -> str:
    """In what money is counted, such as 'EUR of 2025'."""
    if found["kind"] == "real":
        return f"{found['currency']} of {found['price_year_yr']}"
    return f"{found['currency']}, nominal"


def _amount(told: dict[str, Any] | None, currency: str) -> str:
    return "none stated" if told is None else sum_of(money(told, "amount", currency), currency)


def _figures(found: dict[str, Any], currency: str) -> None:
    value, cash = found["value"], found["cash"]
    deepest, time = money(cash, "deepest", currency), cash["time_to_prize_s"]
    with look.figures():
        look.figure(
            "Worth, stopping at a failed gate",
            _amount(value["with_stopping"], currency),
            say=f"all steps paid for: {_amount(value['without_stopping'], currency)}",
        )
        look.figure("Value of stopping early", _amount(value["value_of_stopping"], currency), say="the difference")
        if value["leap"] is not None:
            look.figure("One big leap", _amount(value["leap"], currency), say="to the same prize")
        look.figure("Chance that every gate is passed", fmt.quantity(value["chance"], fmt.SHARE, 2))
        look.figure(
            "To be raised",
            sum_of(deepest["p50"], currency),
            range_of(deepest, fmt.money(currency)),
            say="middle draw",
        )
        if time is not None:
            look.figure("Time to the prize", fmt.quantity(time["p50"], _TIME, 2), range_of(time, _TIME, 2))


def _step(step: dict[str, Any], gate: dict[str, Any] | None, currency: str) -> list[str]:
    cost, time = money(step["cost"], "amount", currency), step["time_s"]

    def ends(value: float, what: str, scales: tuple[fmt.Scale, ...], digits: int) -> str:
        band = {"p10": value * step[f"{what}_low"], "p90": value * step[f"{what}_high"]}
        return range_of(band, scales, digits)

    return [
        str(step["name"]),
        sum_of(cost, currency),
        ends(cost, "cost", fmt.money(currency), 3),
        fmt.quantity(time, _TIME, 2),
        ends(time, "time", _TIME, 2),
        fmt.quantity(step["chance"], fmt.SHARE, 2),
        NONE if gate is None else fmt.quantity(gate["reached"], fmt.SHARE, 2),
        NONE if gate is None else sum_of(money(gate, "going_on", currency), currency),
        NONE if gate is None else ("yes" if gate["begin"] else "no"),
    ]


def _cash(cash: dict[str, Any], currency: str) -> None:
    rows = {key: money(cash, key, currency) for key in _ROWS}
    factor, word = scale_of([*rows["sum_low"], *rows["sum_high"], *rows["if_all_pass"]])
    shown = {key: [value / factor for value in row] for key, row in rows.items()}
    quarter = list(range(1, len(rows["expected"]) + 1))
    unit = f"{word}{terms(cash['terms'])}"
    look.chart(
        "What a quarter brings: bars the mean of all draws, the line where every gate is passed",
        [
            look.Line(quarter, shown["expected"], "", "accent", "bars"),
            look.Line(quarter, shown["if_all_pass"], "", "ink", dash="dot"),
        ],
        x="quarter from the start",
        y=f"cash, {unit}",
        name="programme_quarters",
        height=300,
        more={"margin": {"l": 64}},
    )
    look.chart(
        "The sum so far: line the middle of the draws, eight of ten inside the band",
        [look.Line(quarter, shown["sum_middle"], "", "accent", low=shown["sum_low"], high=shown["sum_high"])],
        x="quarter from the start",
        y=f"sum, {unit}",
        name="programme_sum",
        height=300,
        more={"margin": {"l": 64}},
    )


_ROWS = ("expected", "if_all_pass", "sum_low", "sum_middle", "sum_high")


def scale_of(values: list[float]) -> tuple[float, str]:
    """What a unit of an axis holds, and its word."""
    most = max((abs(value) for value in values), default=0.0)
    return (1e6, "million ") if most >= 1e6 else (1e3, "thousand ") if most >= 1e4 else (1.0, "")
