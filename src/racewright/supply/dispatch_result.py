"""What a year of a village's supply returns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SetYear:
    """One diesel set over the intervals.

    Attributes
    ----------
    energy : float
        Made [J].
    fuel : float
        Burned, starts included [m3].
    running_time : float
        [s]
    starts : int
    wear : float
        Running time + starts x wear of a start [s].
    low_time : float
        Running below its minimum load [s].
    """

    energy: float
    fuel: float
    running_time: float
    starts: int
    wear: float
    low_time: float


@dataclass(frozen=True, slots=True)
class DispatchSeries:
    """Interval by interval, shape (n,) each but `set_power`.

    Attributes
    ----------
    sets, taking, giving : ndarray
        Power of all sets, into the battery, out of the battery, at the line [W].
    stored : ndarray
        Energy in the battery at the interval's end [J].
    unserved, dumped, machine_held_back, sun_held_back : ndarray
        [W]
    running : ndarray of int
        Sets that run, as bits: the first set counts 1, the second 2, the third 4.
    set_power : ndarray, shape (sets, n)
        [W]
    """

    sets: Floats
    taking: Floats
    giving: Floats
    stored: Floats
    unserved: Floats
    dumped: Floats
    machine_held_back: Floats
    sun_held_back: Floats
    running: NDArray[np.int64]
    set_power: Floats


@dataclass(frozen=True, slots=True)
class Dispatch:
    """A year of a village's supply.

    Attributes
    ----------
    duration : float
        Of all intervals [s].
    load_energy, served_energy, unserved_energy : float
        Wanted, given, and not given [J].
    unserved_time : float
        Intervals with load unserved [s].
    machine_energy, sun_energy : float
        What machines and panels could give [J].
    machine_held_back, sun_held_back, dumped_energy : float
        [J]
    unused_energy : float
        Dumped and held back from machine and sun [J].
    battery_taken, battery_given, battery_loss : float
        At the line, and lost on the way through [J].
    stored_start, stored_end : float
        In the battery before and after [J].
    full_cycles : float
        Energy drawn from the store over its window [-].
    sets_energy, fuel : float
        Of all sets [J], [m3].
    no_set_time : float
        Without a running set [s].
    sets : tuple of SetYear
    fuel_cost, set_cost : float
        Fuel at the delivered price; running cost by energy and hourly cost by wear [currency].
    imbalance : float
        Largest miss of the line's balance in any interval over the greatest power, or of the battery's over the year
        over what went through it, whichever is greater [-].
    series : DispatchSeries or None
    remarks : tuple of Remark
    """

    duration: float
    load_energy: float
    served_energy: float
    unserved_energy: float
    unserved_time: float
    machine_energy: float
    sun_energy: float
    machine_held_back: float
    sun_held_back: float
    dumped_energy: float
    unused_energy: float
    battery_taken: float
    battery_given: float
    battery_loss: float
    stored_start: float
    stored_end: float
    full_cycles: float
    sets_energy: float
    fuel: float
    no_set_time: float
    sets: tuple[SetYear, ...]
    fuel_cost: float
    set_cost: float
    imbalance: float
    series: DispatchSeries | None
    remarks: tuple[Remark, ...]
