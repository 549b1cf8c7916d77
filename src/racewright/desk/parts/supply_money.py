"""Cost against diesel with its band, worth over the life, what moves it and what to measure first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.parts.supply_read import money, range_of, sum_of
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

_HOURS = (fmt.Scale("h", 3600.0),)


def against_diesel(screen: Screen, data: dict[str, Any]) -> None:
    """The yearly comparison by mean load; nothing without one."""
    found = data["comparison"]
    if found is None:
        return
    currency = found["currency"]
    per = fmt.per_energy(currency)
    diesel = found["diesel"]
    with look.section("A kilowatt-hour against diesel"), look.columns("wide first"):
        look.drawing(
            screen,
            "cost",
            "Three bars: a kilowatt-hour from the machine, the fuel it saves, and from the diesel set, by part.",
            "By part; the line above the machine's bar is its energy's band carried through.",
        )
        with look.words_of():
            with look.figures():
                _headline(data)
                ours = look.banded(money(found, "machine_cost", currency, "/J"), per)
                look.figure(
                    "Cost from the machine, by mean load",
                    ours.value,
                    ours.range,
                    say="the machine alone, over what the mean load can take of it; band of its energy",
                )
                look.figure(
                    "Worth of the fuel it saves, by mean load",
                    fmt.quantity(money(found, "fuel_worth_set_on", currency, "/J"), per, 2),
                    say="set stays on: the slope of its fuel curve at the delivered price",
                )
                look.figure(
                    "Diesel's whole cost, by mean load",
                    fmt.quantity(money(diesel, "cost", currency, "/J"), per, 2),
                    say="one set alone: fuel, running and capital; no band computed",
                )
            price = fmt.quantity(money(diesel, "delivered_price", currency, "/m3"), fmt.per_fuel(currency))
            look.note(
                f"Those by mean load count one set, a delivered price of {price} as stated and the real interest: a"
                " first look. Those by the hour count every hour of the year over the life, in the money's own terms"
                f"{_other_price(data, currency)}.",
                "soft",
            )


def _headline(data: dict[str, Any]) -> None:
    """The cost that the page begins with, where there is one, before those that are counted otherwise."""
    supply = data["supply"]
    told = None if supply is None else supply["money"]
    plan = None if supply is None else shown(told, supply["year"])
    if told is None or plan is None:
        return
    currency = told["currency"]
    per = fmt.per_energy(currency)
    look.figure(
        f"Cost of used energy, by the hour, {told['terms']}",
        fmt.quantity(money(plan, "levelised", currency, "/J"), per),
        range_of(money(plan, "cost_band", currency, "/J"), per),
        say=f"as at the top of the page: {plan['sentence']}",
    )


def shown(found: dict[str, Any] | None, year: dict[str, Any]) -> dict[str, Any] | None:
    """The money of the way that the headline shows, the one that saves most fuel; None where it is not known."""
    sentence = year["rows"][year["fullest"]]["sentence"]
    return None if found is None else next((row for row in found["rows"] if row["sentence"] == sentence), None)


def _other_price(data: dict[str, Any], currency: str) -> str:
    if data["supply"] is None:
        return ""
    price = money(data["supply"]["year"], "fuel_price", currency, "/m3")
    return f", with fuel at {fmt.quantity(price, fmt.per_fuel(currency))} at the village"


def worth(screen: Screen, found: dict[str, Any]) -> None:
    """Every way of supply over the life, all in the terms of the money table."""
    currency = found["currency"]
    with look.section("Worth over the life"):
        rows = [_plan(row, currency) for row in found["rows"]]
        rate = fmt.quantity(found["rate_1_per_yr"], fmt.SHARE)
        columns = [look.Column("way, beside the sets alone"), *(look.Column(n, number=True) for n in _NAMES)]
        look.table(
            f"{found['years_yr']} years in {found['terms']}, {rate} a year; P10 to P90 of the draws", columns, rows
        )
        best = max(found["rows"], key=lambda row: money(row, "net_present_value", currency), default=None)
        if best is None:
            look.note("No way of supply with a machine gives energy: none has a worth.")
            return
        look.note(f"{_gain(best, currency)} {_first(best)}", "lead")
    if best["movers"]:
        with look.section("What moves it, and what to measure first"), look.columns("wide first"):
            look.drawing(
                screen,
                "money_movers",
                "Bars of the net present value with each number in doubt at its ends, the widest on top.",
                f"All else left as it is. {best['sentence']}",
            )
            _measure(best)


_NAMES = (
    "capital",
    "cost of used energy, by the hour",
    "its range",
    "net present value",
    "its range",
    "paid back after",
    "pays from fuel at",
    "pays from a way of",
)


def _plan(row: dict[str, Any], currency: str) -> list[str]:
    per, unit = fmt.per_energy(currency), fmt.money(currency)
    payback, time = row["payback_yr"], row["break_even_travel_time_s"]
    price = money(row, "break_even_fuel_price", currency, "/m3")
    return [
        row["sentence"],
        sum_of(money(row, "capital", currency), currency),
        fmt.quantity(money(row, "levelised", currency, "/J"), per),
        range_of(money(row, "cost_band", currency, "/J"), per),
        sum_of(money(row, "net_present_value", currency), currency),
        range_of(money(row, "value_band", currency), unit),
        "not in the life" if payback is None else f"{fmt.number(payback, 1)}{fmt.THIN}years",
        "none" if price is None else fmt.quantity(price, fmt.per_fuel(currency)),
        "none" if time is None else fmt.quantity(time, _HOURS),
    ]


def _gain(best: dict[str, Any], currency: str) -> str:
    value = money(best, "net_present_value", currency)
    word = "gains" if value >= 0.0 else "loses"
    chance = fmt.number(100.0 * best["chance_of_gain"], 0)
    return f"The best way {word} {sum_of(abs(value), currency)} beside the sets alone; {chance} of 100 draws gain."


def _first(best: dict[str, Any]) -> str:
    found = max(best["movers"], key=lambda m: m["value_share"], default=None)
    if found is None or found["value_share"] <= 0.0:
        return ""
    share = fmt.quantity(found["value_share"], fmt.SHARE, 2)
    return f"Measure {named(found)} first: {share} of the doubt in its worth would go."


def named(mover: dict[str, Any]) -> str:
    """A number in doubt, in words."""
    from racewright.dossier.figures.money_movers import WORDS

    return WORDS.get(mover["name"], str(mover["name"]))


def _measure(best: dict[str, Any]) -> None:
    from racewright.ledger.money_doubt import DIFFERENCES

    def span(mover: dict[str, Any]) -> str:
        if mover["name"] in DIFFERENCES:
            ends = (fmt.number(100.0 * mover[end], 1) for end in ("low", "high"))
            return f"{' to '.join(ends)}{fmt.THIN}points"
        return f"{fmt.number(mover['low'], 2)} to {fmt.number(mover['high'], 2)} times"

    columns = [look.Column("number in doubt"), *(look.Column(n, number=True) for n in ("range", "of the doubt"))]
    ordered = sorted(best["movers"], key=lambda m: -m["value_share"])
    rows = [[named(m), span(m), fmt.fixed(m["value_share"], fmt.SHARE, 0)] for m in ordered]
    look.table("Part of the worth's variance that would go if the number were known", columns, rows)
