"""Exact values that move the supply most: fuel, its way, battery, machine's cost, interest, the programme."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from racewright.desk import look

if TYPE_CHECKING:
    from racewright.desk.screen import Screen
    from racewright.scheme.model import Scheme


def supply_fields(screen: Screen) -> None:
    """Fields for the keys that the draft's tables can take."""
    keys = keys_of(screen.desk.keeper.loaded.scheme, screen.case)
    if keys:
        with ui.element("div").classes("supply-values"), look.section("Exact values"), look.fields():
            for key, label in keys:
                look.field(screen, key, label)


def keys_of(scheme: Scheme, case_name: str) -> list[tuple[str, str]]:
    """Dotted keys and their labels; only of tables that are there, so that one key alone is a whole edit."""
    case = scheme.case.get(case_name)
    if case is None:
        return []
    found = []
    community = scheme.community.get(case.community or "")
    machine = scheme.machine.get(case.machine or "")
    growth = scheme.growth.get(case.growth or "")
    if community is not None:
        at = f"community.{case.community}"
        found.append((f"{at}.mean_load", "mean load"))
        found.append((f"{at}.diesel.fuel_price", "fuel price where it is bought"))
        supply = community.supply
        legs = {} if supply is None or supply.fuel is None else supply.fuel.leg
        if legs:
            last = max(legs, key=lambda name: legs[name].order)
            base = f"{at}.supply.fuel.leg.{last}"
            words = {"trip": "a trip's hire", "cargo": "fuel brought by one trip", "distance": "distance"}
            found += [(f"{base}.{key}", f"{legs[last].carrier}: {label}") for key, label in words.items()]
        else:
            found.append((f"{at}.diesel.delivery", "delivery to the village"))
        if supply is not None and supply.battery is not None:
            found.append((f"{at}.supply.battery.capacity", "battery size"))
        if supply is not None:
            found.append((f"{at}.supply.rules.keep_one_on", "one set always runs"))
    if machine is not None:
        found.append((f"case.{case_name}.count", "machines"))
        if machine.cost is not None:
            found.append((f"machine.{case.machine}.cost.capital", "capital of one machine"))
    if community is not None:
        found.append((f"{at}.interest", "real interest"))
        if community.money is not None:
            found.append((f"{at}.money.fuel_growth", "growth of the fuel's price"))
    if growth is not None and growth.programme is not None:
        found.append((f"growth.{case.growth}.programme.prize", "programme: prize at its end"))
    return found
