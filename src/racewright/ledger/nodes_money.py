"""The money of every way of supply over its life."""

from __future__ import annotations

from typing import Any

from racewright.errors import InputError, NoAnswerError
from racewright.growth.doubt import plan_doubt, tornado
from racewright.growth.plan import Loan, Replacement, SupplyPlan
from racewright.growth.worth import break_even_travel_time, worth
from racewright.ledger.money_doubt import DIFFERENCES, chances_of, own_value
from racewright.ledger.money_things import Mover, PlanMoney, SupplyMoney
from racewright.ledger.node import Given, Node
from racewright.ledger.supply_inputs import legs_of
from racewright.ledger.supply_things import SupplyYear
from racewright.remark import Remark
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.money import Money, Rate, Terms, turned
from racewright.supply.options import SupplyOption
from racewright.tick import Tick

CAUTION = Remark(
    "caution",
    "Worth and payback follow from prices, load and stops as given: they are no offer and no advice on money.",
    "money",
)


def _money(given: Given, tick: Tick) -> SupplyMoney | None:
    """None without an hourly year."""
    keys, year = given.keys, given.nodes["supply_year"]
    if year is None:
        return None
    terms, rate = _terms(keys, year.currency)
    life = round(keys["machine.cost"]["life"] / SECONDS_PER_YEAR)
    if not 1 <= life <= 60:
        raise InputError(f"the life comes to {life} years; a plan wants 1 to 60", key="life")
    rows = []
    ways = [row for row in year.rows[1:] if _used(row) > 0.0]
    for i, row in enumerate(ways):
        tick(i / len(ways))
        rows.append(_row(given, row, year, terms, rate, life))
    years = f"{rate.value:.3g} a year, {rate.kind}"
    told = [CAUTION, Remark("note", f"All money is in {terms}; discounted at {years}.", "money")]
    if len(ways) < len(year.rows) - 1:
        told.append(Remark("warning", "A way of supply whose machine gives nothing has no worth.", "money"))
    return SupplyMoney(str(terms), terms.currency, rate.value, life, tuple(rows), tuple(told))


def _terms(keys: Any, currency: str) -> tuple[Terms, Rate]:
    """In what money is counted, and the interest, which the community states in real terms, in the same kind."""
    money, real = keys["community.money"], Rate(keys["community.interest"], "real")
    if money["prices"] == "real":
        return Terms(currency, "real", money["price_year"]), real
    if money["inflation"] is None:
        raise InputError(
            "missing; the interest is real and the prices are nominal: inflation joins them", key="inflation"
        )
    return Terms(currency, "nominal"), turned(real, money["inflation"])


def _used(row: SupplyOption) -> float:
    """Energy that machine, sun and battery serve in 8760 h [J]."""
    return max(0.0, (row.year.served_energy - row.year.sets_energy) * SECONDS_PER_YEAR / row.year.duration)


def _plan(given: Given, row: SupplyOption, year: SupplyYear, terms: Terms, rate: Rate, life: int) -> SupplyPlan:
    keys, cost, table = given.keys, given.keys["machine.cost"], given.keys["community.money"]
    count, parts = keys["case.count"], given.nodes["parts"]
    battery = keys["community.supply.battery"] if "battery" in row.sentence else None
    sun = keys["community.supply.sun"] if "sun" in row.sentence else None

    def money(value: Any) -> Money:
        return Money(0.0 if value is None else value["si"], terms)

    capital = count * money(cost["capital"])
    replacements = [
        Replacement(one["after"], money(one["cost"]))
        for _, one in sorted(table["replacement"].items())
        if one["after"] < life
    ]
    if battery is not None:
        capital = capital + money(battery["capital"])
        every = max(1, round(battery["life"] / SECONDS_PER_YEAR))
        replacements += [Replacement(after, money(battery["capital"])) for after in range(every, life, every)]
    if sun is not None:
        capital = capital + money(sun["capital"])
    yearly = count * money(cost["yearly"]) + Money(0.0 if parts is None else count * parts.parts_cost, terms)
    scale = SECONDS_PER_YEAR / row.year.duration
    fuel = scale * max(0.0, row.fuel_saved)
    loan = table["loan"]
    return SupplyPlan(
        name=row.sentence,
        capital=capital,
        yearly_cost=yearly,
        fuel_saved=fuel,
        fuel_price=Money(year.fuel_price, terms),
        other_saved=Money(scale * row.money_saved - fuel * year.fuel_price, terms),
        used_energy=_used(row),
        rate=rate,
        years=life,
        cost_growth=table["cost_growth"],
        fuel_growth=table["fuel_growth"],
        replacements=tuple(replacements),
        residual=None if table["residual"] is None else money(table["residual"]),
        loan=None
        if loan is None
        else Loan(loan["share"], Rate(loan["rate"], loan["kind"]), min(loan["years"], life)),
        inflation=table["inflation"],
    )


def _row(given: Given, row: SupplyOption, year: SupplyYear, terms: Terms, rate: Rate, life: int) -> PlanMoney:
    plan = _plan(given, row, year, terms, rate, life)
    found = worth(plan)
    band = given.nodes["supply_band"]
    chances, pairs = chances_of(plan, given.keys["community.money"], band)
    doubt = plan_doubt(plan, chances, seed=given.seed, correlations=pairs)
    bars = {c.name: (c.low, c.high) for c in chances}
    cost, value = tornado(plan, bars), tornado(plan, bars, of="net present value")
    even = found.break_even_fuel_price
    return PlanMoney(
        sentence=row.sentence,
        capital=plan.capital.amount,
        yearly_cost=plan.yearly_cost.amount,
        other_saved=plan.other_saved.amount,
        fuel_saved=plan.fuel_saved,
        used_energy=plan.used_energy,
        levelised=found.levelised.cost,
        net_present_value=found.net_present_value.amount,
        payback=found.payback,
        discounted_payback=found.discounted_payback,
        break_even_fuel_price=None if even is None else even.amount,
        break_even_travel_time=_travel(given, plan),
        cash=found.cash.net[0],
        cost_band=doubt.levelised,
        value_band=doubt.net_present_value,
        chance_of_gain=doubt.chance_of_gain,
        movers=_movers(plan, bars, cost.rows, value.rows, doubt),
    )


def _movers(plan: SupplyPlan, bars: Any, cost: Any, value: Any, doubt: Any) -> tuple[Mover, ...]:
    by_cost = {one.name: one for one in cost}
    shares = [{s.name: s.share for s in row} for row in (doubt.measure_for_cost, doubt.measure_for_value)]
    found = []
    for one in value:
        own, other = own_value(plan, one.name), by_cost[one.name]
        low, high = bars[one.name]
        if one.name in DIFFERENCES:
            low, high = low - own, high - own
        elif own != 0.0:
            low, high = low / own, high / own
        found.append(
            Mover(
                one.name, low, high, other.at_low, other.at_high, one.at_low, one.at_high,
                shares[0].get(one.name, 0.0), shares[1].get(one.name, 0.0),
            )
        )  # fmt: skip
    return tuple(found)


def _travel(given: Given, plan: SupplyPlan) -> float | None:
    fuel = given.keys["community.supply.fuel"]
    if fuel is None:
        return None
    bought = Money(given.keys["community.diesel"]["fuel_price"]["si"], plan.terms)
    try:
        return break_even_travel_time(plan, bought, legs_of(fuel), fuel["spoilt"])
    except NoAnswerError:
        return None


MONEY_NODES = (
    Node(
        "money",
        1,
        _money,
        keys=(
            "community.money",
            "community.interest",
            "community.diesel",
            "community.supply.battery",
            "community.supply.sun",
            "community.supply.fuel",
            "machine.cost",
            "case.count",
        ),
        nodes=("supply_year", "supply_band", "parts"),
        needs=("place", "machine", "machine.cost", "community", "community.supply", "community.money"),
    ),
)
