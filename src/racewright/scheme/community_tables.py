"""Scheme tables of the community and its diesel."""

from __future__ import annotations

from pydantic import Field

from racewright.quantity.grammar import Quantity
from racewright.scheme.money_tables import MoneyTable
from racewright.scheme.supply_tables import SupplyTable
from racewright.scheme.types import Table, flag, money, quantity, ratio, text
from racewright.scheme.upkeep_tables import CarrierTable


class DieselTable(Table):
    """The diesel set that supplies the community now."""

    rated_power: float = quantity("power", "500 W", "50 MW", "rated electrical power of the set")
    fuel_slope: float = quantity(
        "fuel use",
        "0.15 L/kWh",
        "0.5 L/kWh",
        "fuel per kWh made, above the standing use",
        default="0.246 L/kWh",
        because="Skarstein & Uhlen 1989, from memory",
    )
    fuel_standing: float = quantity(
        "fuel use",
        "0 L/kWh",
        "0.2 L/kWh",
        "standing fuel use per hour and kW of rated power",
        default="0.08145 L/kWh",
        because="Skarstein & Uhlen 1989, from memory (also printed 0.08415)",
    )
    minimum_load: float = ratio(
        0.0, 0.8, "least load for long running, over rated power", default=0.3, because="common practice"
    )
    fuel_price: Quantity = money("money per volume", "fuel where it is bought")
    delivery: Quantity = money("money per volume", "boat, truck and handling to the village")
    running: Quantity = money("money per energy", "oil, filters, overhaul, attendance")
    source: str = text("where the figures come from")


class CommunityTable(Table):
    """Who uses the energy, and what it costs them now."""

    description: str = text("the community in a sentence")
    invented: bool = flag(
        "true for a made-up community; page one then says so", default=False, because="taken as real"
    )
    mean_load: float = quantity("power", "10 W", "50 MW", "mean electrical load over the year")
    interest: float = ratio(0.0, 0.5, "real interest rate for levelised cost, per year")
    diesel: DieselTable = Field(description="the diesel set that supplies it now")
    supply: SupplyTable | None = Field(None, description="the hourly year; needed for the supply chapter")
    money: MoneyTable | None = Field(None, description="prices, growth and finance; needed for the money chapter")
    carrier: dict[str, CarrierTable] = Field(
        default_factory=dict, description="means of transport and lifting by name"
    )
