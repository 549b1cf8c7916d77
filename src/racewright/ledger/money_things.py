"""What the money node holds: each way of supply as a plan, its worth, its doubt and what moves it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.supply.quantiles import Quantiles

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Mover:
    """One number in doubt.

    Attributes
    ----------
    name : str
    low, high : float
        Ends as ratios of the number; of rates and growths as differences [-].
    cost_at_low, cost_at_high : float
        Levelised cost there, all else left [currency/J].
    value_at_low, value_at_high : float
        Net present value there [currency].
    cost_share, value_share : float
        Of the variance of the one and the other that would go if the number were known: measure the largest first
        [-].
    """

    name: str
    low: float
    high: float
    cost_at_low: float
    cost_at_high: float
    value_at_low: float
    value_at_high: float
    cost_share: float
    value_share: float


@dataclass(frozen=True)
class PlanMoney:
    """One way of supply over its life, beside the sets alone.

    Attributes
    ----------
    sentence : str
    capital : float
        Machines, battery and panels [currency].
    yearly_cost, other_saved : float
        Operation, upkeep and parts; upkeep of the sets that is saved [currency/yr].
    fuel_saved : float
        [m3]
    used_energy : float
        Of machine, sun and battery, in a year [J].
    levelised : float
        Without loan and savings [currency/J].
    net_present_value : float
        [currency]
    payback, discounted_payback : float or None
        None: not within the life [yr].
    break_even_fuel_price : float or None
        At the village, from which on it pays [currency/m3].
    break_even_travel_time : float or None
        There and back on the last part of the fuel's way, from which on it pays; None where no way is given or no
        time answers [s].
    cash : ndarray, shape (years + 1,)
        Net by year, from the start on [currency].
    cost_band : Quantiles
        Levelised cost over the draws [currency/J].
    value_band : Quantiles
        Net present value over the draws [currency].
    chance_of_gain : float
        [-]
    movers : tuple of Mover
        Widest for the net present value first.
    """

    sentence: str
    capital: float
    yearly_cost: float
    other_saved: float
    fuel_saved: float
    used_energy: float
    levelised: float
    net_present_value: float
    payback: float | None
    discounted_payback: float | None
    break_even_fuel_price: float | None
    break_even_travel_time: float | None
    cash: Floats
    cost_band: Quantiles
    value_band: Quantiles
    chance_of_gain: float
    movers: tuple[Mover, ...]


@dataclass(frozen=True)
class SupplyMoney:
    """The money of every way with a machine.

    Attributes
    ----------
    terms : str
        In what it is counted, such as 'EUR of 2025'.
    currency : str
    rate : float
        Of the kind of the money [1/yr].
    years : int
        Life [yr].
    rows : tuple of PlanMoney
    remarks : tuple of Remark
    """

    terms: str
    currency: str
    rate: float
    years: int
    rows: tuple[PlanMoney, ...]
    remarks: tuple[Remark, ...]
