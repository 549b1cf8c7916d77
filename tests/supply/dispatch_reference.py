"""A year of a village's supply, written from docs/dispatch_rules.md alone.

Whoever wrote this saw only that page and the wanted signature, not `supply.dispatch`. Nothing of `racewright` is
imported, and the numbers in the comments are those of the page's rules. Keep it that way: if the two disagree, the
page decides.
"""

from itertools import combinations
from typing import Any


def reference(
    interval: float,
    load: list[float],
    machine: list[float],
    sun: list[float],
    ready: list[list[bool]],
    sets: list[dict[str, float]],
    battery: dict[str, float],
    dump_power: float,
    keep_one_on: bool,
    reserve: float,
    fill_to: float,
) -> dict[str, Any]:
    """The year by the rules of docs/dispatch_rules.md, literally, as lists over the intervals and sums per set."""
    everyone = range(len(sets))
    rated = [s["rated"] for s in sets]
    minimum = [s["minimum"] * s["rated"] for s in sets]
    room = [s["rated"] * (1 - s["minimum"]) for s in sets]
    capacity, charging, discharging = (battery[k] for k in ("capacity", "charge_efficiency", "discharge_efficiency"))
    lowest, highest, target = battery["least"] * capacity, battery["most"] * capacity, fill_to * capacity
    small_power = 1e-9 * (max(load) or max(m + s for m, s in zip(machine, sun, strict=True)))
    small_energy = 1e-9 * capacity

    names = ("taken", "given", "stored", "unserved", "dumped", "sun_held_back", "machine_held_back")
    year: dict[str, Any] = {name: [] for name in names}
    year["set_power"] = [[] for _ in everyone]
    for name in ("fuel", "running_time", "starts", "low_time"):
        year[name] = [0 for _ in everyone]
    stored = battery["start"] * capacity
    before: tuple[int, ...] = ()

    for i, (wanted, water, solar) in enumerate(zip(load, machine, sun, strict=True)):
        # 1. What the battery could do.
        could_give = max(0.0, min(battery["discharge_power"], (stored - lowest) * discharging / interval))
        could_take = max(0.0, min(battery["charge_power"], (highest - stored) / (charging * interval)))
        # 2. Is the battery being filled?
        wants_filling = fill_to > 0 and target - stored > small_energy
        filling = wants_filling and len(before) > 0
        # 3. Which sets run. The sort is stable: equal totals stay in order of number, then of place in the list.
        able = [k for k in everyone if ready[k][i]]
        choices = [c for n in range(len(able) + 1) for c in combinations(able, n)]
        choices.sort(key=lambda c: sum(rated[k] for k in c))
        running = tuple(able)
        for choice in choices:
            reach = water + solar + could_give + sum(rated[k] for k in choice)
            if (choice or not (keep_one_on or filling)) and reach >= (1 + reserve) * wanted - small_power:
                running = choice
                break
        # 4. What they give together.
        floor, ceiling = sum(minimum[k] for k in running), sum(rated[k] for k in running)
        wish = wanted - water - solar
        if wants_filling:
            wish += min(battery["charge_power"], (target - stored) / (charging * interval))
        together = min(max(wish, floor), ceiling)
        # 5. What each gives.
        all_room = sum(room[k] for k in running)
        part = (together - floor) / all_room if all_room > 0 else 0.0
        power = [minimum[k] + part * room[k] if k in running else 0.0 for k in everyone]
        # 6. Too little.
        missing = max(0.0, wanted - water - solar - together)
        given = min(missing, could_give)
        # 7. Too much.
        surplus = max(0.0, water + solar + together - wanted)
        taken = min(surplus, could_take)
        dumped = min(surplus - taken, dump_power)
        left = surplus - taken - dumped
        sun_held_back = min(left, solar)
        machine_held_back = min(left - sun_held_back, water)
        sets_held_back = left - sun_held_back - machine_held_back
        if together > 0:
            power = [p * (1 - sets_held_back / together) for p in power]
        # 8. The battery afterwards.
        stored += charging * taken * interval - given * interval / discharging
        stored = min(max(stored, lowest), highest)
        # 9. Fuel, and what is counted.
        for k in running:
            started = k not in before
            year["fuel"][k] += (sets[k]["idle"] + sets[k]["slope"] * power[k]) * interval
            year["fuel"][k] += sets[k]["start_fuel"] if started else 0.0
            year["running_time"][k] += interval
            year["starts"][k] += started
            year["low_time"][k] += interval if minimum[k] - power[k] > small_power else 0.0
        before = running
        told = (taken, given, stored, missing - given, dumped, sun_held_back, machine_held_back)
        for name, value in zip(names, told, strict=True):
            year[name].append(value)
        for k in everyone:
            year["set_power"][k].append(power[k])

    year["wear"] = [year["running_time"][k] + year["starts"][k] * sets[k]["start_wear"] for k in everyone]
    year["unserved_time"] = interval * sum(u > small_power for u in year["unserved"])
    unused = ("dumped", "sun_held_back", "machine_held_back")
    year["unused_energy"] = interval * sum(sum(year[name]) for name in unused)
    return year
