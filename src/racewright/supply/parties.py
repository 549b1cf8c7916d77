"""Who takes part in a comparison: the village, its diesel set, the machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class CommunityNeeds:
    """What the village uses.

    Attributes
    ----------
    mean_load : float
        Mean electrical power over the year at the powerhouse, > 0 [W].
    """

    mean_load: float


@dataclass(frozen=True)
class DieselSet:
    """The set that the village runs now.

    Attributes
    ----------
    rated_power : float
        At least the mean load [W].
    slope, intercept : float
        Fuel curve: slope x power + intercept x rated power, >= 0 [m3/J].
    delivered_price : float
        Fuel at the village, >= 0 [currency/m3].
    running_cost : float
        Oil, filters, overhauls, attendance, per energy served, >= 0 [currency/J].
    currency : str
        Three-letter label.
    capital, rate, years : float
        Capital still to be paid for [currency], its discount rate [1/yr] and life [yr]; capital 0 for a set
        that is already there and stays.
    minimum_load_fraction : float
        Least load over rated power in long running; the default 0.30 is common practice [-].
    start_fuel : float
        Burned by one start beside the fuel curve; default 0, counted only in a balance by the interval [m3].
    start_wear : float
        Running time that wears the set as much as one start; default 0 [s].
    hourly_cost : float
        Oil, filters, spare parts and overhauls by running time and wear; default 0, for those who reckon them by
        energy in `running_cost` [currency/s].
    """

    rated_power: float
    slope: float
    intercept: float
    delivered_price: float
    running_cost: float
    currency: str
    capital: float = 0.0
    rate: float = 0.0
    years: float = 1.0
    minimum_load_fraction: float = 0.30
    start_fuel: float = 0.0
    start_wear: float = 0.0
    hourly_cost: float = 0.0


@dataclass(frozen=True)
class MachineCost:
    """What one machine costs.

    Attributes
    ----------
    capital : float
        Built, brought and held in place, >= 0 [currency].
    yearly_cost : float
        Upkeep, attendance, permits, >= 0 [currency/yr].
    rate, years : float
        Discount rate, >= 0 [1/yr], and life, > 0 [yr].
    currency : str
        Three-letter label.
    rated_power : float
        Electrical power of one machine that is not passed, > 0 [W].
    """

    capital: float
    yearly_cost: float
    rate: float
    years: float
    currency: str
    rated_power: float
