"""A year of a village's supply: load, machine, sun, battery and diesel, interval by interval."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.remark import Remark
from racewright.supply import dispatch_kernel as kernel
from racewright.supply.dispatch_ready import Ready, Sums, bits, make_ready
from racewright.supply.dispatch_result import Dispatch, DispatchSeries, SetYear
from racewright.supply.door import positive, power_row
from racewright.supply.powerhouse import DispatchRules, Powerhouse, supply_cautions

Floats = NDArray[np.float64]


def dispatch(
    load: ArrayLike,
    machine: ArrayLike | None,
    house: Powerhouse,
    rules: DispatchRules,
    *,
    interval: float = 3600.0,
    sun: ArrayLike | None = None,
    ready: NDArray[np.bool_] | None = None,
    keep_series: bool = True,
) -> Dispatch:
    """Run a village's supply over a year by the rules of docs/dispatch_rules.md.

    Parameters
    ----------
    load : array_like, shape (n,)
        Mean power wanted in each interval, >= 0 [W].
    machine, sun : array_like, shape (n,), or None
        Power that machines and solar panels could give at the line, cable and converter taken off, >= 0 [W].
    house : Powerhouse
    rules : DispatchRules
    interval : float
        Length of an interval, > 0; default one hour [s].
    ready : ndarray of bool, shape (sets, n), optional
        Whether each set may run; default always.
    keep_series : bool
        Keep what happens in each interval.

    Returns
    -------
    Dispatch
        Sums over the n intervals, however many they are: a year of 8760 h, a leap year of 8784 h, or less.

    Raises
    ------
    InputError
        Rows of unlike length, negative powers, gaps, rules that the powerhouse cannot follow.

    Examples
    --------
    One diesel set of 20 kW alone for a day at 8 kW, fuel curve as common for such sets:

    >>> from racewright.supply.parties import DieselSet
    >>> one = DieselSet(20e3, 6.83e-11, 2.26e-11, 1400.0, 0.0, "USD")
    >>> day = dispatch([8e3] * 24, None, Powerhouse((one,)), DispatchRules(keep_one_on=True))
    >>> round(1000.0 * day.fuel, 2)
    86.26
    """
    positive("length of an interval", interval, "s", 3600.0)
    wanted = power_row("load", load, None)
    from_machine, from_sun = (
        np.zeros(wanted.size) if row is None else power_row(name, row, wanted.size)
        for name, row in (("power of the machine", machine), ("power of the sun", sun))
    )
    plant = make_ready(house, rules, interval)
    sums = plant.year(wanted, from_machine, from_sun, bits(ready, len(house.sets), wanted.size), keep_series)
    return told(plant, house, sums, wanted, from_machine, from_sun)


def told(plant: Ready, house: Powerhouse, sums: Sums, load: Floats, machine: Floats, sun: Floats) -> Dispatch:
    """The kernel's sums as a result."""
    total, step = sums.totals, plant.interval
    sets = tuple(_set_year(house, sums.by_set, j, step) for j in range(len(house.sets)))
    taken, given = float(total[kernel.TAKEN]), float(total[kernel.GIVEN])
    start, end = float(plant.battery[kernel.FIRST]), float(total[kernel.STORED])
    window = float(plant.battery[kernel.MOST] - plant.battery[kernel.LEAST])
    drawn = given / float(plant.battery[kernel.OUT_OF]) if given > 0.0 else 0.0
    held_machine, held_sun, dumped = (float(total[i]) for i in (kernel.MACHINE_HELD, kernel.SUN_HELD, kernel.DUMPED))
    miss = float(total[kernel.LINE_MISS]) / max(sums.greatest, float((machine + sun).max()), 1e-300)
    through = float(plant.battery[kernel.INTO]) * taken
    battery_miss = abs(end - start - through + drawn) / (through + drawn + start) if through + drawn > 0.0 else 0.0
    unserved_time = float(total[kernel.SHORT_TIME]) * step
    return Dispatch(
        duration=step * load.size,
        load_energy=step * float(load.sum()),
        served_energy=float(total[kernel.SERVED]),
        unserved_energy=float(total[kernel.UNSERVED]),
        unserved_time=unserved_time,
        machine_energy=step * float(machine.sum()),
        sun_energy=step * float(sun.sum()),
        machine_held_back=held_machine,
        sun_held_back=held_sun,
        dumped_energy=dumped,
        unused_energy=dumped + held_machine + held_sun,
        battery_taken=taken,
        battery_given=given,
        battery_loss=taken - given - (end - start),
        stored_start=start,
        stored_end=end,
        full_cycles=drawn / window if window > 0.0 else 0.0,
        sets_energy=float(sum(one.energy for one in sets)),
        fuel=float(sum(one.fuel for one in sets)),
        no_set_time=float(total[kernel.NO_SET_TIME]) * step,
        sets=sets,
        fuel_cost=float(sum(one.fuel * of.delivered_price for one, of in zip(sets, house.sets, strict=True))),
        set_cost=float(
            sum(
                one.energy * of.running_cost + one.wear * of.hourly_cost
                for one, of in zip(sets, house.sets, strict=True)
            )
        ),
        imbalance=max(miss, battery_miss),
        series=_series(sums) if sums.series.shape[1] else None,
        remarks=(*_remarks(sets, unserved_time), *supply_cautions(house, plant.rules)),
    )


def _set_year(house: Powerhouse, by_set: Floats, j: int, step: float) -> SetYear:
    running, starts = float(by_set[kernel.RUNNING, j]) * step, round(float(by_set[kernel.STARTS, j]))
    return SetYear(
        energy=float(by_set[kernel.ENERGY, j]),
        fuel=float(by_set[kernel.FUEL, j]),
        running_time=running,
        starts=starts,
        wear=running + starts * house.sets[j].start_wear,
        low_time=float(by_set[kernel.LOW, j]) * step,
    )


def _series(sums: Sums) -> DispatchSeries:
    row = sums.series
    return DispatchSeries(
        sets=row[kernel.SETS],
        taking=row[kernel.TAKING],
        giving=row[kernel.GIVING],
        stored=row[kernel.STORE],
        unserved=row[kernel.SHORT],
        dumped=row[kernel.DUMP],
        machine_held_back=row[kernel.HELD_MACHINE],
        sun_held_back=row[kernel.HELD_SUN],
        running=row[kernel.WHICH].astype(np.int64),
        set_power=sums.set_power,
    )


def _remarks(sets: tuple[SetYear, ...], unserved_time: float) -> list[Remark]:
    found = []
    if unserved_time > 0.0:
        text = f"Load goes unserved, in part or whole, for {unserved_time / 3600.0:.4g} h."
        found.append(Remark("warning", text, "hours without supply"))
    low = sum(one.low_time for one in sets)
    if low > 0.0:
        text = (
            f"Sets run below their minimum load for {low / 3600.0:.4g} h, for want of a dump load that takes the "
            f"rest: long running at low load fouls a diesel engine (common practice, no source)."
        )
        found.append(Remark("caution", text, "minimum load"))
    return found
