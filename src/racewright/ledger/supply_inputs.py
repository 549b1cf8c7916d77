"""From plain scheme values and data files to the things that a village's hourly year knows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, cast

import numpy as np

from racewright.errors import InputError
from racewright.ledger.convert import Keys
from racewright.ledger.place_inputs import form_of
from racewright.records.meter_file import read_meter
from racewright.records.zone import clock_of
from racewright.supply.cable import Cable, cable_from_sender
from racewright.supply.civil_time import even_series
from racewright.supply.converter import Converter
from racewright.supply.delivery import Delivered, Leg, delivered
from racewright.supply.diesel import delivered_price
from racewright.supply.even_series import EvenSeries
from racewright.supply.load_profile import DayShape
from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import BatteryBank, Powerhouse

Floats = np.ndarray[Any, np.dtype[np.float64]]


def metered(table: Keys, path: Path, stamps_at: str) -> EvenSeries:
    """A file of powers on even intervals in UTC; faults name the file."""
    zone = clock_of(table["zone"])
    stamps, power = read_meter(
        path, table["time_column"], table["value_column"], table["unit"], str(path), form_of(table)
    )
    with in_file(path):
        return even_series(stamps, power, zone, stamps_at=cast(Any, stamps_at))


@contextmanager
def in_file(path: Path) -> Iterator[None]:
    """An input fault of the data names the file that holds them."""
    try:
        yield
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def shapes_of(tables: Keys) -> tuple[DayShape, ...]:
    """Shapes of days, by name."""
    found = []
    for name, table in sorted(tables.items()):
        rest = table["rest_hours"]
        months = tuple(int(month) for month in table["months"])
        found.append(DayShape(name, months, np.array(table["hours"]), None if rest is None else np.array(rest)))
    return tuple(found)


def house_of(community: Keys, price: float) -> Powerhouse:
    """Sets, battery and dump load of a community with fuel at this price [currency/m3]."""
    supply, diesel = community["supply"], community["diesel"]
    tables = supply["set"] or {"": {}}
    sets = tuple(_set(diesel, table, name, price) for name, table in sorted(tables.items()))
    bank = supply["battery"]
    battery = None
    if bank is not None:
        battery = BatteryBank(
            bank["capacity"],
            bank["charge_power"],
            bank["discharge_power"],
            bank["charge_efficiency"],
            bank["discharge_efficiency"],
            bank["least"],
            bank["most"],
        )
    return Powerhouse(sets, battery, supply["rules"]["dump_power"])


def _set(diesel: Keys, table: Keys, name: str, price: float) -> DieselSet:
    """One set; what it does not say is the community's diesel's."""

    def own(key: str, other: str) -> float:
        value = table.get(key)
        return float(diesel[other] if value is None else value)

    hourly = 0.0 if table.get("hourly") is None else table["hourly"]["si"]
    wear = 0.0 if table.get("start_wear") is None else table["start_wear"]["si"]
    if wear > 0.0 and hourly == 0.0:
        message = f"set {name}: wear of a start is counted in hours of running; give hourly, their cost, too"
        raise InputError(message, key="start_wear")
    return DieselSet(
        rated_power=own("rated_power", "rated_power"),
        slope=own("fuel_slope", "fuel_slope"),
        intercept=own("fuel_standing", "fuel_standing"),
        delivered_price=price,
        running_cost=diesel["running"]["si"],
        currency=diesel["fuel_price"]["currency"],
        minimum_load_fraction=own("minimum_load", "minimum_load"),
        start_fuel=table.get("start_fuel", 0.0),
        start_wear=wear / hourly if hourly > 0.0 else 0.0,
        hourly_cost=hourly,
    )


def legs_of(fuel: Keys | None) -> tuple[Leg, ...]:
    """Parts of the fuel's way in their order."""
    if fuel is None:
        return ()

    def money(value: Any) -> float:
        return 0.0 if value is None else float(value["si"])

    return tuple(
        Leg(
            table["carrier"],
            table["distance"],
            table["speed_there"],
            table["speed_back"],
            table["fuel_rate"],
            table["cargo"],
            money(table["crew"]),
            table["port_time"],
            money(table["trip"]),
        )
        for table in sorted(fuel["leg"].values(), key=lambda leg: leg["order"])
    )


def priced(diesel: Keys, fuel: Keys | None) -> tuple[float, Delivered | None]:
    """Fuel at the village [currency/m3], by the parts of its way where they are given."""
    bought = diesel["fuel_price"]["si"]
    if fuel is None:
        return delivered_price(bought, diesel["delivery"]["si"]), None
    found = delivered(bought, legs_of(fuel), fuel["spoilt"])
    return found.price, found


def through_line(supply: Keys, power: Floats) -> Floats:
    """What arrives of power that the machines send, behind converter and cable [W]."""
    converter, cable = supply["converter"], supply["cable"]
    if converter is not None:
        limits = (converter[key] for key in ("rated_power", "fixed", "proportional", "quadratic"))
        power = Converter(*limits).output(power)
    if cable is not None:
        power = cable_from_sender(cable_of(cable), power).received
    return power


def cable_of(table: Keys) -> Cable:
    """The cable to the village."""
    return Cable(
        table["length"],
        table["conductor_area"],
        table["voltage"],
        table["kind"],
        table["power_factor"],
        table["temperature"],
    )
