"""What the nodes of a village's hourly year hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.supply.delivery import Delivered
from racewright.supply.options import SupplyOption
from racewright.supply.quantiles import Quantiles
from racewright.supply.stops_drawn import StopCause

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]


@dataclass(frozen=True)
class HourLoad:
    """The village's load and its sun, hour by hour of one year.

    Attributes
    ----------
    year : int
    start : int
        [s since 1970-01-01 UTC]
    load : ndarray, shape (n,)
        n is 8760, or 8784 in a leap year [W].
    sun : ndarray, shape (n,), or None
        Power of the panels as given [W].
    local : ndarray of int, shape (n,)
        What the village's clocks show at the middle of each hour [s since 1970-01-01 local].
    zone : str
        The village's clock.
    remarks : tuple of Remark
    """

    year: int
    start: int
    load: Floats
    sun: Floats | None
    local: Whole
    zone: str
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class HourMachine:
    """What all machines give at the village, cable and converter taken off.

    Attributes
    ----------
    water_year : int
        Year of the record that the one year's water is from.
    recorded : float
        Part of that year that was recorded [-].
    power : ndarray, shape (n,)
        In that year, with drawn stops and the season [W].
    years : ndarray of int, shape (k,)
        Recorded years that the drawn years choose from.
    never_stopped : ndarray, shape (k, n)
        Power in each of them of machines that never stop [W].
    greatest : float
        At rated power of all machines [W].
    stops : int
        Drawn in the one year, all machines.
    running : float
        Part of the one year in which a machine was able to run [-].
    causes : tuple of StopCause
        That stops are drawn from, by cause or by part.
    even_share : float
        Availability that is spread evenly because no stops are given [-].
    sent_energy, line_loss : float
        Electrical energy of all machines in the one year, and what converter and cable take of it [J].
    remarks : tuple of Remark
    """

    water_year: int
    recorded: float
    power: Floats
    years: Whole
    never_stopped: Floats
    greatest: float
    stops: int
    running: float
    causes: tuple[StopCause, ...]
    even_share: float
    sent_energy: float
    line_loss: float
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class HourDays:
    """Mean powers by month and hour of the village's clock in the fullest way of supply, shape (12, 24) each [W].

    Attributes
    ----------
    load, machine, sun, giving, taking, sets, unserved : ndarray
        Wanted; used of machine and sun (what is dumped or held back taken off); out of and into the battery; all
        sets; not served [W].
    unused : ndarray
        Dumped and held back [W].
    """

    load: Floats
    machine: Floats
    sun: Floats
    giving: Floats
    taking: Floats
    sets: Floats
    unserved: Floats
    unused: Floats


@dataclass(frozen=True)
class SupplyYear:
    """The year in every way of supply, the sets alone first.

    Attributes
    ----------
    year : int
    rows : tuple of SupplyOption
    fullest : int
        Place in `rows` of the way that the day, the calendar and the drawn years show: the one that saves most fuel.
    days : HourDays
        Of that way.
    first_day : int
        Day of `fuel_by_day`'s first, as the village's clock has it [d since 1970-01-01].
    fuel_by_day : ndarray, shape (2, days)
        Burned with the sets alone, and in the fullest way [m3].
    delivered : Delivered or None
        Fuel at the village by the parts of its way; None where the price of delivery is stated.
    fuel_price : float
        At the village [currency/m3].
    currency : str
    remarks : tuple of Remark
    """

    year: int
    rows: tuple[SupplyOption, ...]
    fullest: int
    days: HourDays
    first_day: int
    fuel_by_day: Floats
    delivered: Delivered | None
    fuel_price: float
    currency: str
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class SupplyBand:
    """Drawn years of the fullest way: load, power curve, water of the recorded years and stops differ.

    Attributes
    ----------
    sentence : str
        The way.
    years : int
        Drawn.
    water_years : int
        Recorded years that they choose from.
    fuel, fuel_saved : Quantiles
        [m3]
    unserved_time : Quantiles
        [s]
    unused_energy, used_energy : Quantiles
        Not used; served by machine, sun and battery [J].
    running : Quantiles
        Part of the time that a machine is able to run [-].
    fuel_deviation, energy_deviation : float
        Relative standard deviation of fuel saved and of used energy [-].
    together : float
        Correlation of the two [-].
    """

    sentence: str
    years: int
    water_years: int
    fuel: Quantiles
    fuel_saved: Quantiles
    unserved_time: Quantiles
    unused_energy: Quantiles
    used_energy: Quantiles
    running: Quantiles
    fuel_deviation: float
    energy_deviation: float
    together: float
