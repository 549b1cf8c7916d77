"""What a diesel set burns, and what its energy costs."""

from __future__ import annotations

from racewright.errors import InputError
from racewright.supply.door import SECONDS_PER_YEAR, fraction, not_negative, positive
from racewright.supply.levelised import capital_recovery
from racewright.supply.result import DieselCost


def fuel_rate(
    power: float, rated_power: float, slope: float, intercept: float, minimum_load_fraction: float = 0.0
) -> float:
    """Fuel of a set that stays on: slope x power + intercept x rated power [m3/s].

    Below its minimum load the set runs at the minimum load, and the surplus is dumped.

    Parameters
    ----------
    power : float
        Power wanted from the set, 0 to `rated_power` [W].
    rated_power : float
        > 0 [W].
    slope : float
        Fuel per energy on top of running idle, >= 0 [m3/J].
    intercept : float
        Fuel running idle, per rated power, >= 0 [m3/J].
    minimum_load_fraction : float
        Least load over rated power, 0 to 1; 0 is no floor [-].

    Raises
    ------
    InputError
        A number out of its range or not finite; power above rated power.

    References
    ----------
    Straight-line fuel curve: Skarstein and Uhlen (1989), Wind Engineering 13(2), 72-87, from memory.
    """
    not_negative("power", power, "W", 10000.0)
    positive("rated power of the set", rated_power, "W", 20000.0)
    not_negative("slope of the fuel curve", slope, "m3/J", 6.83e-11)
    not_negative("intercept of the fuel curve", intercept, "m3/J", 2.26e-11)
    fraction("minimum load fraction", minimum_load_fraction, 0.3)
    if power > rated_power:
        raise InputError(
            f"load of {power:g} W is above the set's rated power of {rated_power:g} W; wanted a larger set"
        )
    return slope * max(power, minimum_load_fraction * rated_power) + intercept * rated_power


def road_transport(fuel_price: float, truck_fuel_rate: float, driving_time: float, cargo: float) -> float:
    """Cost of bringing fuel by road, 2 p c t / V [currency/m3].

    Parameters
    ----------
    fuel_price : float
        Price p where the truck is filled, >= 0 [currency/m3].
    truck_fuel_rate : float
        Fuel c that the truck burns while it drives, >= 0 [m3/s].
    driving_time : float
        Time t one way, >= 0 [s].
    cargo : float
        Fuel V delivered in one trip, > 0 [m3].

    References
    ----------
    Szabo, Bodis, Huld and Moner-Girona (2011), Environ. Res. Lett. 6, 034002.
    """
    not_negative("fuel price", fuel_price, "currency/m3", 1000.0)
    not_negative("truck fuel rate", truck_fuel_rate, "m3/s", 3.3e-6)
    not_negative("driving time", driving_time, "s", 18000.0)
    positive("cargo", cargo, "m3", 0.3)
    return 2.0 * fuel_price * truck_fuel_rate * driving_time / cargo


def delivered_price(fuel_price: float, transport: float) -> float:
    """Price of fuel at the village: price where it is bought + transport [currency/m3].

    Parameters
    ----------
    fuel_price : float
        >= 0 [currency/m3].
    transport : float
        Per volume brought, >= 0 [currency/m3]; `road_transport` gives it for a truck.
    """
    not_negative("fuel price", fuel_price, "currency/m3", 1000.0)
    not_negative("transport", transport, "currency/m3", 400.0)
    return fuel_price + transport


def diesel_cost(
    mean_load: float,
    rated_power: float,
    slope: float,
    intercept: float,
    delivered_price: float,
    running_cost: float,
    *,
    capital: float = 0.0,
    rate: float = 0.0,
    years: float = 1.0,
    minimum_load_fraction: float = 0.0,
) -> DieselCost:
    """Cost of energy from a set that runs all year at one mean load.

    The straight fuel curve makes the mean load as good as the hourly one, except for hours below the
    minimum load: a set that dips under it burns more than this.

    Parameters
    ----------
    mean_load : float
        Mean power served, above 0 and up to `rated_power` [W].
    rated_power, slope, intercept, minimum_load_fraction : float
        As in `fuel_rate`.
    delivered_price : float
        Fuel at the village, >= 0 [currency/m3].
    running_cost : float
        Oil, filters, overhauls, attendance, per energy served, >= 0 [currency/J].
    capital : float
        0 for a set that is already there and stays [currency].
    rate, years : float
        Discount rate and life of `capital`; they matter only with a capital [1/yr], [yr].

    Raises
    ------
    InputError
        A number out of its range or not finite; load above rated power.
    """
    positive("mean load", mean_load, "W", 8000.0)
    not_negative("delivered fuel price", delivered_price, "currency/m3", 1400.0)
    not_negative("running cost of the set", running_cost, "currency/J", 1e-8)
    not_negative("capital of the set", capital, "currency", 0.0)
    burn = fuel_rate(mean_load, rated_power, slope, intercept, minimum_load_fraction)
    use = burn / mean_load
    fuel_part = use * delivered_price
    capital_part = capital * capital_recovery(rate, years) / (mean_load * SECONDS_PER_YEAR)
    return DieselCost(
        mean_load=mean_load,
        load_fraction=mean_load / rated_power,
        fuel_use=use,
        delivered_price=delivered_price,
        fuel_part=fuel_part,
        running_part=running_cost,
        capital_part=capital_part,
        cost=fuel_part + running_cost + capital_part,
        fuel_yearly=burn * SECONDS_PER_YEAR,
    )
