"""The programme: what the steps cost, what follows at each gate, cash by quarter, stopping early against the leap."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import facts, remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Table, Text
from racewright.dossier.text import clean
from racewright.growth.programme import DevelopmentStep
from racewright.growth.programme_cash import ProgrammeCash
from racewright.ledger.growth_findings import ProgrammeFound
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.money import Money

_YEAR = (fmt.Scale("days", 86400.0), fmt.Scale("years", SECONDS_PER_YEAR))


def write(found: ProgrammeFound, *, invented: bool) -> Chapter:
    """The chapter; its picture is 'programme_cash'.

    Parameters
    ----------
    found : ProgrammeFound
    invented : bool
        True where the scheme says that its figures are made up, which is then said first.
    """
    blocks: list[Block] = [Text(_answer(found, invented), "lead"), _steps(found), _worth(found)]
    blocks += [
        Heading("Cash by quarter"),
        Picture(
            "programme_cash",
            f"{fmt.number(found.cash.draws, 0)} draws of cost, time and gates; no prize in it.",
            "Cash goes out in every step; the sums stand in the next table.",
        ),
        _cash(found.cash),
    ]
    if found.costs:
        blocks += [Heading("Cost by size and learning"), _costs(found)]
    if found.value.remarks:
        blocks.append(remark_table(found.value.remarks, "Remarks on the programme"))
    blocks.append(Text("Chances are judgements, not frequencies; money is no forecast and no offer.", "safety"))
    return Chapter("programme", "Programme", tuple(blocks))


def _answer(found: ProgrammeFound, invented: bool) -> str:
    value = found.value
    made_up = "Invented figures. " if invented else ""
    leap = "" if value.leap is None else f" One big leap is worth {_money(value.leap)}."
    return (
        f"{made_up}Step by step, stopping where a gate fails, the programme is worth "
        f"{_money(value.with_stopping)} today; with every step paid for whatever the gates say, "
        f"{_money(value.without_stopping)}. The right to stop is worth the difference, "
        f"{_money(value.value_of_stopping)}.{leap}"
    )


def _steps(found: ProgrammeFound) -> Table:
    columns = (
        Column("step", share=1.5),
        Column("likeliest cost", "end", 1.5),
        Column("range", "end", 2.2),
        Column("time", "end", 1.1),
        Column("passes", "end", 0.8),
        Column("is reached", "end", 0.9),
        Column("worth on that day", "end", 1.6),
        Column("begin", share=0.7),
    )
    gates = {gate.name: gate for gate in found.value.gates}
    rows = [
        (
            *_row(step),
            fmt.quantity(gates[step.name].reached, fmt.SHARE, 2),
            _amount(gates[step.name].going_on, found.cash),
            "yes" if gates[step.name].begin else "no",
        )
        for step in found.programme.steps
    ]
    if found.leap is not None:
        rows.append((*_row(found.leap), "", "" if found.value.leap is None else _money(found.value.leap), ""))
    return Table(f"Steps and gates, {found.cash.terms}", columns, tuple(rows))


def _row(step: DevelopmentStep) -> tuple[str, str, str, str, str]:
    low, high = (_money(step.cost * end) for end in (step.cost_low, step.cost_high))
    return (
        clean(step.name),
        _money(step.cost),
        f"{low} to {high}",
        fmt.quantity(step.time, _YEAR, 2),
        fmt.quantity(step.chance, fmt.SHARE, 2),
    )


def _worth(found: ProgrammeFound) -> Table:
    value, cash = found.value, found.cash
    rate = fmt.quantity(found.programme.rate.value, fmt.SHARE, 2)
    rows = [
        ("prize", _money(found.programme.prize), "worth of the business when the last gate is passed"),
        ("chance", fmt.quantity(value.chance, fmt.SHARE, 2), "that every gate is passed"),
        ("with stopping", _money(value.with_stopping), f"today, at {rate} a year, {found.programme.rate.kind}"),
        ("without stopping", _money(value.without_stopping), "every step paid for, whatever the gates say"),
        ("value of stopping", _money(value.value_of_stopping), "the difference; never below 0"),
    ]
    if value.leap is not None and value.steps_over_leap is not None:
        rows += [
            ("one big leap", _money(value.leap), "to the same prize; not begun where it is below 0"),
            ("steps over leap", _money(value.steps_over_leap), "with stopping, less the leap or less 0"),
        ]
    deepest = cash.deepest
    low, high = (_amount(end, cash) for end in (deepest.p10, deepest.p90))
    rows.append(("to be raised", _amount(deepest.p50, cash), f"middle of the draws; {low} to {high} in eight of ten"))
    time = cash.time_to_prize
    if time is not None:
        ends = " to ".join(fmt.quantity(end, _YEAR, 2) for end in (time.p10, time.p90))
        rows.append(("time to the prize", fmt.quantity(time.p50, _YEAR, 2), f"where every gate is passed; {ends}"))
    return facts("What the programme is worth", rows)


def _cash(cash: ProgrammeCash) -> Table:
    columns = (
        Column("quarter", "end", 0.8),
        Column("mean", "end"),
        Column("mean if all pass", "end", 1.2),
        Column("sum, 10 % below", "end", 1.2),
        Column("sum, middle", "end"),
        Column("sum, 90 % below", "end", 1.2),
    )
    series = (cash.expected, cash.if_all_pass, cash.sum_low, cash.sum_middle, cash.sum_high)
    rows = tuple(
        (str(i + 1), *(fmt.number(float(row[i]) / 1e3, 0) for row in series)) for i in range(cash.expected.size)
    )
    return Table(f"Cash by quarter, thousands of {cash.terms}; money out is below 0", columns, rows)


def _costs(found: ProgrammeFound) -> Table:
    columns = (
        Column("step", share=1.5),
        Column("a unit, as stated", "end", 1.4),
        Column("a unit, by exponents", "end", 1.4),
        Column("stated over that", "end"),
        Column("by exponents, per kW", "end", 1.4),
    )
    rows = tuple(
        (
            clean(one.name),
            _money(one.stated),
            _money(one.scaled.unit_cost),
            fmt.number(one.over_scaled, 2),
            _money(one.scaled.cost_per_power * 1e3),
        )
        for one in found.costs
    )
    learning = fmt.quantity(found.learning_rate, fmt.SHARE, 2)
    caption = f"From the first unit by rated power^{found.size_exponent:g}, and {learning} saved at each doubling"
    return Table(caption, columns, rows)


def _money(money: Money) -> str:
    """Three digits, with the currency."""
    return fmt.quantity(float(f"{money.amount:.3g}"), fmt.money(money.terms.currency))


def _amount(amount: float, cash: ProgrammeCash) -> str:
    return _money(Money(amount, cash.terms))
