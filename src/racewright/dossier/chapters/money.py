"""Chapter on the money of each way of supply over its life: worth, band, what moves it, what to measure first."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Picture, Table, Text
from racewright.dossier.figures.money_movers import WORDS
from racewright.ledger.money_things import PlanMoney, SupplyMoney
from racewright.supply.quantiles import Quantiles

_TIME = (fmt.Scale("h", 3600.0),)


def best(money: SupplyMoney) -> PlanMoney | None:
    """The way with the greatest net present value; None without any."""
    return max(money.rows, key=lambda row: row.net_present_value, default=None)


def write(money: SupplyMoney) -> Chapter:
    """What each way is worth beside the sets alone."""
    title = "Money over the life"
    plan = best(money)
    if plan is None:
        return Chapter(
            "money", title, (Text("No way of supply with a machine gives energy: none has a worth.", "lead"),)
        )
    unit = fmt.money(money.currency)
    worth = fmt.quantity(abs(plan.net_present_value), unit)
    chance = fmt.number(100.0 * plan.chance_of_gain, 0)
    word = "gains" if plan.net_present_value >= 0.0 else "loses"
    blocks: list[Block] = [
        Text(
            f"The best way {word} {worth} over {money.years} years beside the sets alone "
            f"({_range(plan.value_band, unit)}); it gains in {chance} of 100 draws.",
            "lead",
        ),
        Text(
            f"Best: {plan.sentence} All money is in {money.terms}; interest "
            f"{fmt.quantity(money.rate, fmt.SHARE)} a year."
        ),
        _ways(money),
    ]
    if plan.movers:
        blocks += [
            Picture(
                "money_movers",
                "The net present value of the best way with each number in doubt at its ends, all else left.",
                f"Bars from low to high end; the widest is {WORDS.get(plan.movers[0].name, plan.movers[0].name)}.",
            ),
            _measure(plan),
        ]
    blocks.append(remark_table(money.remarks, "Remarks on the money"))
    return Chapter("money", title, tuple(blocks))


def _range(band: Quantiles, scales: tuple[fmt.Scale, ...]) -> str:
    return f"{fmt.quantity(band.p10, scales)} to {fmt.quantity(band.p90, scales)}"


def _ways(money: SupplyMoney) -> Table:
    unit, per = fmt.money(money.currency), fmt.per_energy(money.currency)
    columns = (
        Column("figure", share=2.0),
        *(Column(f"way {i}", "end", 1.6) for i in range(1, len(money.rows) + 1)),
    )

    def row(name: str, cells: list[str]) -> tuple[str, ...]:
        return (name, *cells)

    def years(value: float | None) -> str:
        return "not within the life" if value is None else f"{fmt.number(value, 1)} years"

    fuel = fmt.per_fuel(money.currency)
    rows = (
        row("way of supply", [p.sentence for p in money.rows]),
        row("capital", [fmt.quantity(p.capital, unit) for p in money.rows]),
        row("cost of used energy", [fmt.quantity(p.levelised, per) for p in money.rows]),
        row("its P10 to P90", [_range(p.cost_band, per) for p in money.rows]),
        row("net present value", [fmt.quantity(p.net_present_value, unit) for p in money.rows]),
        row("its P10 to P90", [_range(p.value_band, unit) for p in money.rows]),
        row("paid back after", [years(p.payback) for p in money.rows]),
        row("with interest", [years(p.discounted_payback) for p in money.rows]),
        row(
            "pays from a fuel price of",
            [
                "none" if p.break_even_fuel_price is None else fmt.quantity(p.break_even_fuel_price, fuel)
                for p in money.rows
            ],
        ),
        row(
            "pays from a way of",
            [
                "none" if p.break_even_travel_time is None else fmt.quantity(p.break_even_travel_time, _TIME)
                for p in money.rows
            ],
        ),
    )
    caption = "Each way beside the sets alone; the way is time there and back on the fuel's last part."
    return Table(caption, columns, rows)


def _measure(plan: PlanMoney) -> Table:
    columns = (
        Column("number in doubt", share=1.8),
        Column("from, times", "end", 1.0),
        Column("to, times", "end", 1.0),
        Column("share of the worth's doubt", "end", 1.6),
        Column("share of the cost's doubt", "end", 1.6),
    )
    order = sorted(plan.movers, key=lambda m: -m.value_share)
    rows = tuple(
        (
            WORDS.get(m.name, m.name),
            fmt.number(m.low, 2),
            fmt.number(m.high, 2),
            fmt.quantity(m.value_share, fmt.SHARE, 2),
            fmt.quantity(m.cost_share, fmt.SHARE, 2),
        )
        for m in order
    )
    caption = (
        "What to measure first: the part of the variance that would go if the number were known. Numbers that err "
        "together share it. Interest and growths are differences. Fuel saved and energy used, without a range given, "
        "differ as single drawn years do, which is on the wide side for a whole life."
    )
    return Table(caption, columns, rows)
