"""Thousands of drawn years of a village's supply."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.supply import dispatch_kernel as kernel
from racewright.supply.chance import draw
from racewright.supply.dispatch_ready import bits, make_ready
from racewright.supply.door import power_row
from racewright.supply.powerhouse import DispatchRules, Powerhouse
from racewright.supply.stops_drawn import draw_stops
from racewright.supply.streams import stream
from racewright.supply.time_grid import TimeGrid
from racewright.supply.year_doubt import ManyYears, YearDoubt
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]

_COLUMNS = 9
_BETWEEN_TICKS = 100


def dispatch_many(
    load: ArrayLike,
    machine: ArrayLike,
    house: Powerhouse,
    rules: DispatchRules,
    doubt: YearDoubt,
    *,
    count: int,
    seed: int,
    case: str = "",
    first: int = 0,
    interval: int = 3600,
    sun: ArrayLike | None = None,
    ready: NDArray[np.bool_] | None = None,
    tick: Tick = silent,
) -> ManyYears:
    """Draw years and run each by the rules of docs/dispatch_rules.md.

    Year number i of a case draws the same whatever the count, and whichever other cases there are; so years 0 to 4999
    and 5000 to 9999 may be drawn by two workers and laid side by side.

    Parameters
    ----------
    load : array_like, shape (n,)
        [W]
    machine : array_like, shape (n,) or (years, n)
        Power of all machines that never stop; of several given years, each drawn year takes one, all alike likely
        [W].
    house, rules, sun, ready
        As in `dispatch`.
    doubt : YearDoubt
    count : int
        Years to draw, 1 to 1 000 000.
    seed : int
        0 or more.
    case : str
        Other cases draw other years.
    first : int
        Number of the first year to draw, 0 or more.
    interval : int
        [s]
    tick : Tick
        Called every hundred years.

    Raises
    ------
    InputError
        As `dispatch`; counts out of range.
    """
    for name, number, least in (("count", count, 1), ("first", first, 0)):
        if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= 1_000_000:
            raise InputError(f"{name} is {number!r}; wanted a whole number from {least} to 1000000")
    wanted = power_row("load", load, None)
    n = wanted.size
    years = [
        power_row("power of the machine", row, n) for row in np.atleast_2d(np.asarray(machine, dtype=np.float64))
    ]
    from_sun = np.zeros(n) if sun is None else power_row("power of the sun", sun, n)
    grid, plant = TimeGrid(0, interval, n), make_ready(house, rules, interval)
    may_run = bits(ready, len(house.sets), n)
    factors = [np.maximum(row[first:], 0.0) for row in _factors(doubt, first + count, seed, case)]
    out, taken = np.zeros((_COLUMNS, count)), np.zeros(count, dtype=np.int64)
    for i in range(count):
        if i % _BETWEEN_TICKS == 0:
            tick(i / count)
        number = first + i
        taken[i] = stream(seed, "machine year", case, number).integers(len(years)) if len(years) > 1 else 0
        drawn = draw_stops(doubt.causes, grid, seed, machines=doubt.machines, name=f"{case}/{number}")
        running = drawn.running.mean(axis=0)
        power = years[taken[i]] * factors[1][i]
        if doubt.most_machine is not None:
            power = np.minimum(power, doubt.most_machine)
        sums = plant.year(wanted * factors[0][i], power * running, from_sun * factors[2][i], may_run, False)
        total, by_set = sums.totals, sums.by_set
        unused = total[kernel.DUMPED] + total[kernel.MACHINE_HELD] + total[kernel.SUN_HELD]
        out[:, i] = (
            by_set[kernel.FUEL].sum(),
            total[kernel.UNSERVED],
            unused,
            total[kernel.SERVED],
            total[kernel.SHORT_TIME] * interval,
            by_set[kernel.RUNNING].sum() * interval,
            by_set[kernel.STARTS].sum(),
            running.mean(),
            by_set[kernel.ENERGY].sum(),
        )
    tick(1.0)
    return ManyYears(
        first=first,
        fuel=out[0],
        unserved_energy=out[1],
        unused_energy=out[2],
        served_energy=out[3],
        unserved_time=out[4],
        set_time=out[5],
        starts=out[6],
        load_factor=factors[0],
        machine_factor=factors[1],
        sun_factor=factors[2],
        machine_year=taken,
        running=out[7],
        sets_energy=out[8],
    )


def _factors(doubt: YearDoubt, count: int, seed: int, case: str) -> list[Floats]:
    chances = (doubt.load_factor, doubt.machine_factor, doubt.sun_factor)
    drawn = draw(chances, count, seed, case=f"factors/{case}", correlations=doubt.correlations)
    return [drawn[one.name] for one in chances]
