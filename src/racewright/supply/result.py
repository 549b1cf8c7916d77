"""What energy and cost return."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.uncertainty import Band

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class YearlyEnergy:
    """Energy of one machine in a year of 8760 h.

    Attributes
    ----------
    speed, share, power, energy : ndarray, shape (b,)
        Bin mid speed [m/s], fraction of time [-], mean electrical power in the bin [W], energy in the bin
        after availability [J].
    total : Band
        Delivered at the machine's terminals in a year, with its band; `basis` says of what [J].
    mean_power : float
        [W]
    capacity_factor : float
        Mean power / rated power [-].
    share_below_cut_in, share_rated : float
        Fractions of the year [-].
    remarks : tuple of Remark
    """

    speed: Floats
    share: Floats
    power: Floats
    energy: Floats
    total: Band
    mean_power: float
    capacity_factor: float
    share_below_cut_in: float
    share_rated: float
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class LevelisedCost:
    """Levelised cost of energy.

    Attributes
    ----------
    capital_recovery : float
        Capital recovery factor [1/yr].
    cost : float
        Levelised cost [currency/J].
    capital_part, running_part : float
        Its parts: capital, yearly and variable running cost [currency/J].
    """

    capital_recovery: float
    cost: float
    capital_part: float
    running_part: float


@dataclass(frozen=True)
class DieselCost:
    """A diesel set's cost of energy at its mean load.

    Attributes
    ----------
    mean_load, load_fraction : float
        Mean power [W] and share of rated power [-].
    fuel_use : float
        Fuel per energy at that load [m3/J].
    delivered_price : float
        Fuel price at the village [currency/m3].
    fuel_part, running_part, capital_part, cost : float
        [currency/J]
    fuel_yearly : float
        [m3/yr]
    """

    mean_load: float
    load_fraction: float
    fuel_use: float
    delivered_price: float
    fuel_part: float
    running_part: float
    capital_part: float
    cost: float
    fuel_yearly: float


@dataclass(frozen=True)
class Comparison:
    """The machine beside the diesel.

    Attributes
    ----------
    machine : LevelisedCost
        At the energy used by the village.
    machine_cost : Band
        Levelised cost with the energy band through it [currency/J].
    diesel : DieselCost
    used_energy : Band
        Machine energy that the village can take in a year [J].
    saving_set_on, saving_set_off : Band
        Money kept in a year when the diesel set stays on (only the slope of the fuel curve is saved), and
        when its share of fuel and upkeep falls with its hours; fuel and running cost saved less the
        machine's yearly cost, capital recovery included [currency/yr].
    fuel_saved_set_on, fuel_saved_set_off : Band
        [m3/yr]
    currency : str
        Three-letter label.
    remarks : tuple of Remark
    fuel_worth_set_on : float
        What a unit of machine energy saves in fuel while the set stays on: slope x delivered price [currency/J].
    set_can_stop : bool
        False when the machines' rated power is below the community's mean load: the set can hardly ever stop.
    used_energy_set_on : Band
        The part of `used_energy` that leaves the diesel set its minimum load [J].
    """

    machine: LevelisedCost
    machine_cost: Band
    diesel: DieselCost
    used_energy: Band
    saving_set_on: Band
    saving_set_off: Band
    fuel_saved_set_on: Band
    fuel_saved_set_off: Band
    currency: str
    remarks: tuple[Remark, ...]
    used_energy_set_on: Band
    fuel_worth_set_on: float
    set_can_stop: bool
