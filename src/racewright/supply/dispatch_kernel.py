"""One year of a village's supply, interval by interval: the rules of docs/dispatch_rules.md, compiled."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]

RATED, MINIMUM, IDLE, SLOPE, START_FUEL = range(5)
"""Rows of `sets`: rated power [W], least load over it [-], fuel running idle [m3/s], slope [m3/J], fuel of a start
[m3]."""
CAPACITY, CHARGE, DISCHARGE, INTO, OUT_OF, LEAST, MOST, FIRST, FILL = range(9)
"""Places in `battery`: capacity [J], powers at the line [W], efficiencies [-], least, greatest, first stored energy
and that filled to [J]."""
SERVED, UNSERVED, SHORT_TIME, MACHINE_HELD, SUN_HELD, DUMPED, TAKEN, GIVEN, STORED, NO_SET_TIME, LINE_MISS = range(11)
"""Places in `totals`: sums over the year [J], intervals [-], energy stored at the end [J], largest miss of the line
[W]."""
ENERGY, FUEL, RUNNING, STARTS, LOW = range(5)
"""Rows of `by_set`: energy [J], fuel [m3], intervals running [-], starts [-], intervals below the minimum [-]."""
SETS, TAKING, GIVING, STORE, SHORT, DUMP, HELD_MACHINE, HELD_SUN, WHICH = range(9)
"""Rows of `series`: powers [W], stored energy at the interval's end [J], the combination that runs [-]."""


@njit(cache=True)
def run_year(
    interval: float,
    load: Floats,
    machine: Floats,
    sun: Floats,
    ready: Whole,
    order: Whole,
    sets: Floats,
    battery: Floats,
    dump_power: float,
    keep_one_on: bool,
    reserve: float,
    small_power: float,
    small_energy: float,
    totals: Floats,
    by_set: Floats,
    series: Floats,
    set_power: Floats,
) -> None:
    """Fill `totals`, `by_set`, and, when they have columns, `series` and `set_power`.

    `ready` holds one bit a set for each interval (one element: all year); `order` the combinations as bits, least
    total rated power first. Sums are kept as powers and multiplied by the interval at the end.
    """
    n, count = load.size, sets.shape[1]
    capacity, most, fill = battery[CAPACITY], battery[MOST], battery[FILL]
    ceiling_of, floor_of = np.zeros(1 << count), np.zeros(1 << count)
    for mask in range(1 << count):
        for j in range(count):
            if mask >> j & 1:
                ceiling_of[mask] += sets[RATED, j]
                floor_of[mask] += sets[MINIMUM, j] * sets[RATED, j]
    stored, before, keep = battery[FIRST], 0, series.shape[1] > 0
    power = np.zeros(count)
    totals[:] = 0.0
    by_set[:] = 0.0
    miss = 0.0
    for k in range(n):
        free = machine[k] + sun[k]
        could_give = could_take = 0.0
        wants = False
        if capacity > 0.0:
            could_give = min(battery[DISCHARGE], (stored - battery[LEAST]) * battery[OUT_OF] / interval)
            could_take = min(battery[CHARGE], (most - stored) / (battery[INTO] * interval))
            could_give, could_take = max(could_give, 0.0), max(could_take, 0.0)
            wants = fill > 0.0 and fill - stored > small_energy

        allowed = ready[k] if ready.size > 1 else ready[0]
        must = keep_one_on or (wants and before != 0)
        wanted = (1.0 + reserve) * load[k] - small_power
        mask = allowed
        for c in range(order.size):
            tried = order[c]
            if (
                (tried & ~allowed) == 0
                and (tried != 0 or not must)
                and free + could_give + ceiling_of[tried] >= wanted
            ):
                mask = tried
                break

        floor, ceiling = floor_of[mask], ceiling_of[mask]
        bare = load[k] - free
        wish = bare
        if wants:
            wish += min(battery[CHARGE], (fill - stored) / (battery[INTO] * interval))
        together = min(max(wish, floor), ceiling)

        taken = given = short = dumped = held = held_sun = held_machine = 0.0
        rest = together - bare
        if rest < 0.0:
            given = min(-rest, could_give)
            short = max(-rest - given, 0.0)
        else:
            taken = min(rest, could_take)
            rest -= taken
            dumped = min(rest, dump_power)
            rest -= dumped
            held_sun = min(rest, sun[k])
            rest -= held_sun
            held_machine = min(rest, machine[k])
            rest -= held_machine
            held = min(max(rest, 0.0), together)
        scale = 1.0 - held / together if together > 0.0 else 0.0

        spread = ceiling - floor
        for j in range(count):
            power[j] = 0.0
            if mask >> j & 1:
                own = sets[MINIMUM, j] * sets[RATED, j]
                part = own
                if spread > 0.0:
                    part += (together - floor) * (sets[RATED, j] - own) / spread
                power[j] = part * scale
                by_set[ENERGY, j] += power[j]
                by_set[FUEL, j] += (sets[IDLE, j] + sets[SLOPE, j] * power[j]) * interval
                by_set[RUNNING, j] += 1.0
                if not before >> j & 1:
                    by_set[STARTS, j] += 1.0
                    by_set[FUEL, j] += sets[START_FUEL, j]
                if power[j] < own - small_power:
                    by_set[LOW, j] += 1.0
        made = 0.0
        for j in range(count):
            made += power[j]

        stored += battery[INTO] * taken * interval
        if given > 0.0:
            stored -= given * interval / battery[OUT_OF]
        if capacity > 0.0:
            stored = min(max(stored, battery[LEAST]), most)
        before = mask

        left = free - held_sun - held_machine + made + given + short - load[k] - taken - dumped
        miss = max(miss, abs(left))
        totals[SERVED] += load[k] - short
        totals[UNSERVED] += short
        if short > small_power:
            totals[SHORT_TIME] += 1.0
        totals[MACHINE_HELD] += held_machine
        totals[SUN_HELD] += held_sun
        totals[DUMPED] += dumped
        totals[TAKEN] += taken
        totals[GIVEN] += given
        if mask == 0:
            totals[NO_SET_TIME] += 1.0
        if keep:
            series[SETS, k], series[TAKING, k], series[GIVING, k], series[STORE, k] = made, taken, given, stored
            series[SHORT, k], series[DUMP, k], series[WHICH, k] = short, dumped, mask
            series[HELD_MACHINE, k], series[HELD_SUN, k] = held_machine, held_sun
            for j in range(count):
                set_power[j, k] = power[j]
    for place in (SERVED, UNSERVED, MACHINE_HELD, SUN_HELD, DUMPED, TAKEN, GIVEN):
        totals[place] *= interval
    for j in range(count):
        by_set[ENERGY, j] *= interval
    totals[STORED], totals[LINE_MISS] = stored, miss
