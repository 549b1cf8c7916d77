"""Rules between the keys of a village's hourly supply and of its money."""

from __future__ import annotations

from collections.abc import Iterator

from racewright.quantity.units import UNITS
from racewright.scheme.community_tables import CommunityTable
from racewright.scheme.money_tables import DOUBTED, MoneyTable
from racewright.scheme.supply_tables import LoadTable, SupplyTable
from racewright.scheme.text_file_table import TextFile

Broken = tuple[str, tuple[str, ...]]
MOST_SETS = 6
"""Sets of one powerhouse."""


def supply_rules(community: CommunityTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one community's supply."""
    supply = community.supply
    if supply is not None:
        yield from _supply(supply, (*at, "supply"))
    if community.money is not None:
        yield from _money(community.money, (*at, "money"))
    for name, carrier in community.carrier.items():
        given = [key for key in ("length", "width", "height") if getattr(carrier, key) is not None]
        if given and len(given) < 3:
            missing = next(key for key in ("length", "width", "height") if key not in given)
            yield "missing; clear measures are three, or none at all", (*at, "carrier", name, missing)


def _supply(supply: SupplyTable, at: tuple[str, ...]) -> Iterator[Broken]:
    yield from _load(supply.load, (*at, "load"))
    if len(supply.set) > MOST_SETS:
        yield f"{len(supply.set)} sets; at most {MOST_SETS} are taken: put equal ones together", (*at, "set")
    battery = supply.battery
    if battery is not None and battery.least >= battery.most:
        yield f"must be above least, {battery.least:g}", (*at, "battery", "most")
    if supply.sun is not None:
        yield from _file(supply.sun, supply.sun.unit, (*at, "sun"))
    cable = supply.cable
    if cable is not None and cable.kind == "direct" and cable.power_factor != 1.0:
        yield "direct current has a power factor of 1; leave it away", (*at, "cable", "power_factor")
    if supply.fuel is not None:
        if not supply.fuel.leg:
            yield f"missing; add a part of the way like [{'.'.join(at)}.fuel.leg.boat]", (*at, "fuel", "leg")
        orders = [leg.order for leg in supply.fuel.leg.values()]
        for name, leg in supply.fuel.leg.items():
            if orders.count(leg.order) > 1:
                yield "is the order of another part too; number them from where the fuel is bought", (
                    *at, "fuel", "leg", name, "order",
                )  # fmt: skip


def _load(load: LoadTable, at: tuple[str, ...]) -> Iterator[Broken]:
    if (load.meter is None) == (not load.shape):
        yield "give a meter's file or shapes of days, one of the two", at
    if load.meter is not None:
        yield from _file(load.meter, load.meter.unit, (*at, "meter"))
    months: dict[int, str] = {}
    for name, shape in load.shape.items():
        here = (*at, "shape", name)
        for key, need in (("months", True), ("hours", True), ("rest_hours", False)):
            values = getattr(shape, key)
            if values is None:
                if need:
                    yield "missing; it is needed", (*here, key)
            elif key != "months" and (len(values) != 24 or min(values) < 0.0):
                yield "wants 24 numbers of 0 or more, one for each hour from midnight", (*here, key)
        for month in shape.months or ():
            if month not in range(1, 13):
                yield f"{month:g} is no month; write 1 to 12", (*here, "months")
            elif int(month) in months:
                yield f"month {month:g} stands in '{months[int(month)]}' too", (*here, "months")
            months[int(month)] = name
    missing = [str(m) for m in range(1, 13) if m not in months]
    if load.shape and missing:
        yield f"no shape has the months {', '.join(missing)}; a year has twelve", (*at, "shape")
    for day in load.rest_days or ():
        if day not in range(1, 8):
            yield f"{day:g} is no day; write 1 Monday to 7 Sunday", (*at, "rest_days")


def _file(table: TextFile, unit: str, at: tuple[str, ...]) -> Iterator[Broken]:
    if getattr(UNITS.get(unit), "dimension", "") != "power":
        yield f"{unit!r} is not a unit of power; write one like 'kW'", (*at, "unit")
    if table.decimal == "comma" and table.delimiter == ",":
        yield "decimal commas need another mark between cells; write delimiter = ';' or 'tab'", (*at, "delimiter")


def _money(money: MoneyTable, at: tuple[str, ...]) -> Iterator[Broken]:
    if money.loan is not None and money.loan.kind != money.prices and money.inflation is None:
        message = f"missing; the loan is {money.loan.kind} and the prices are {money.prices}"
        yield f"{message}: inflation turns one into the other", (*at, "inflation")
    for name, doubt in money.doubt.items():
        here = (*at, "doubt", name)
        if name not in DOUBTED:
            yield f"no number of the plan is called {name!r}; there are {', '.join(DOUBTED)}", here
        neutral = 0.0 if name in ("rate", "cost_growth", "fuel_growth") else 1.0
        if not doubt.low <= neutral <= doubt.high:
            yield f"the range must hold {neutral:g}, which stands for the value itself", (*here, "low")
    for name, pair in money.together.items():
        if pair.first == pair.second:
            yield "must be another number than first", (*at, "together", name, "second")
        for key in ("first", "second"):
            if getattr(pair, key) not in money.doubt:
                yield f"{getattr(pair, key)!r} is not in doubt; give it a range first", (*at, "together", name, key)
