"""Powerhouse and rules as the compiled year wants them, made once for many years."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply import dispatch_kernel as kernel
from racewright.supply.powerhouse import DispatchRules, Powerhouse

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]

SMALL = 1e-9
"""Powers and stored energies closer than this, over the greatest, count as equal [-]."""


@dataclass(frozen=True, slots=True)
class Sums:
    """What one year adds up to, in the kernel's own places.

    Attributes
    ----------
    totals : ndarray, shape (11,)
    by_set : ndarray, shape (5, sets)
    series : ndarray, shape (9, n) or (9, 0)
    set_power : ndarray, shape (sets, n) or (sets, 0)
    greatest : float
        Power that differences were measured against [W].
    """

    totals: Floats
    by_set: Floats
    series: Floats
    set_power: Floats
    greatest: float


@dataclass(frozen=True, slots=True)
class Ready:
    """Arrays of a powerhouse.

    Attributes
    ----------
    interval : float
        [s]
    sets, battery : ndarray
        In the kernel's places.
    order : ndarray of int
        Combinations of sets, least total rated power first.
    dump_power : float
        [W]
    rules : DispatchRules
    """

    interval: float
    sets: Floats
    battery: Floats
    order: Whole
    dump_power: float
    rules: DispatchRules

    def year(self, load: Floats, machine: Floats, sun: Floats, ready: Whole, keep: bool) -> Sums:
        """One year; rows of one length, checked by the caller."""
        greatest = float(load.max())
        if greatest == 0.0:
            greatest = float((machine + sun).max())
        count = self.sets.shape[1]
        columns = load.size if keep else 0
        sums = Sums(np.zeros(11), np.zeros((5, count)), np.zeros((9, columns)), np.zeros((count, columns)), greatest)
        kernel.run_year(
            self.interval,
            load,
            machine,
            sun,
            ready,
            self.order,
            self.sets,
            self.battery,
            self.dump_power,
            self.rules.keep_one_on,
            self.rules.reserve,
            SMALL * greatest,
            SMALL * float(self.battery[kernel.CAPACITY]),
            sums.totals,
            sums.by_set,
            sums.series,
            sums.set_power,
        )
        return sums


def make_ready(house: Powerhouse, rules: DispatchRules, interval: float) -> Ready:
    """The arrays of a powerhouse for intervals of so many seconds.

    Raises
    ------
    InputError
        Sets that would fill a battery that is not there or takes no charge, or above its window.
    """
    sets = np.zeros((5, len(house.sets)))
    for j, one in enumerate(house.sets):
        idle = one.intercept * one.rated_power
        sets[:, j] = one.rated_power, one.minimum_load_fraction, idle, one.slope, one.start_fuel
    bank = house.battery
    battery = np.zeros(9)
    if bank is None:
        if rules.fill_to > 0.0:
            raise InputError(f"sets fill to {rules.fill_to:g}, but there is no battery; wanted fill_to = 0")
    else:
        if rules.fill_to > bank.most:
            raise InputError(
                f"sets fill to {rules.fill_to:g}, above the battery's greatest state of charge {bank.most:g}: they "
                "would never stop"
            )
        if rules.fill_to > 0.0 and bank.charge_power == 0.0:
            raise InputError(
                f"sets fill to {rules.fill_to:g}, but the battery takes no charge: they would never stop"
            )
        size = bank.capacity
        battery[:] = (
            size,
            bank.charge_power,
            bank.discharge_power,
            bank.charge_efficiency,
            bank.discharge_efficiency,
            bank.least * size,
            bank.most * size,
            bank.first * size,
            rules.fill_to * size,
        )
    return Ready(float(interval), sets, battery, _order(sets[0]), house.dump_power, rules)


def _order(rated: Floats) -> Whole:
    """Combinations by total rated power, then number of sets, then place of the sets in the list."""

    def key(mask: int) -> tuple[float, int, list[int]]:
        members = [j for j in range(rated.size) if mask >> j & 1]
        return sum(float(rated[j]) for j in members), len(members), members

    return np.array(sorted(range(1 << rated.size), key=key), dtype=np.int64)


def bits(ready: NDArray[np.bool_] | None, sets: int, count: int) -> Whole:
    """One bit a set for each interval; a single element when every set is always ready.

    Raises
    ------
    InputError
        Not truth values of shape (sets, count).
    """
    if ready is None:
        return np.array([(1 << sets) - 1], dtype=np.int64)
    given = np.asarray(ready)
    if given.dtype != np.bool_ or given.shape != (sets, count):
        raise InputError(
            f"ready is {given.dtype} of shape {given.shape}; wanted truth values of shape {(sets, count)}"
        )
    found: Whole = (given.astype(np.int64) << np.arange(sets)[:, None]).sum(axis=0)
    return found
