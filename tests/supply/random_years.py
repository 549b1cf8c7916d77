"""Random villages, powerhouses and rules, and years for them: the same for a seed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import BatteryBank, DispatchRules, Powerhouse

Floats = NDArray[np.float64]

KWH = 3.6e6
LITRE_PER_KWH = 1e-3 / KWH


@dataclass(frozen=True, slots=True)
class Village:
    """All that `supply.dispatch` takes.

    Attributes
    ----------
    load, machine, sun : ndarray, shape (n,)
        [W]
    house : Powerhouse
    rules : DispatchRules
    interval : float
        [s]
    ready : ndarray of bool, shape (sets, n), or None
    """

    load: Floats
    machine: Floats
    sun: Floats
    house: Powerhouse
    rules: DispatchRules
    interval: float
    ready: NDArray[np.bool_] | None


def random_village(seed: int, count: int = 8760) -> Village:
    """A village drawn from a seed: none to four sets, with or without battery, dump load, sun, reserve, filling."""
    chance = np.random.default_rng(seed)
    interval = float(chance.choice([900.0, 3600.0, 3600.0, 10800.0]))
    mean = float(chance.uniform(2e3, 60e3))
    day = 2.0 * np.pi * np.arange(count) * interval / 86400.0
    load = mean * np.clip(1.0 + 0.4 * np.sin(day) + 0.25 * chance.standard_normal(count), 0.0, None)
    if chance.random() < 0.2:
        load[chance.random(count) < 0.1] = 0.0
    machine = (
        mean * chance.uniform(0.0, 2.0) * np.clip(1.0 + 0.5 * chance.standard_normal(count).cumsum() / 30.0, 0, 2)
    )
    if chance.random() < 0.3:
        machine[: count // 3] = 0.0
    sun = np.zeros(count)
    if chance.random() < 0.5:
        sun = mean * chance.uniform(0.0, 1.5) * np.clip(np.sin(day - 1.5), 0.0, None) * chance.random(count)
    sets = tuple(_set(chance, mean) for _ in range(int(chance.integers(0, 5))))
    battery = _battery(chance, mean) if chance.random() < 0.7 else None
    fill_to = 0.0
    if battery is not None and battery.charge_power > 0.0 and chance.random() < 0.7:
        fill_to = battery.most if chance.random() < 0.3 else float(chance.uniform(battery.least, battery.most))
    rules = DispatchRules(
        keep_one_on=bool(chance.random() < 0.3),
        reserve=float(chance.choice([0.0, 0.0, 0.1, 0.5])),
        fill_to=fill_to,
    )
    dump = float(chance.choice([0.0, mean, 0.2 * mean]))
    ready = chance.random((len(sets), count)) < 0.95 if sets and chance.random() < 0.4 else None
    return Village(load, machine, sun, Powerhouse(sets, battery, dump), rules, interval, ready)


def _set(chance: np.random.Generator, mean: float) -> DieselSet:
    """Rated powers in round numbers, so that equal sums of them are equal to the last digit."""
    return DieselSet(
        rated_power=float(np.ceil(mean * chance.choice([0.4, 0.8, 0.8, 1.5, 2.0]) / 500.0) * 500.0),
        slope=float(chance.uniform(0.20, 0.30)) * LITRE_PER_KWH,
        intercept=float(chance.uniform(0.0, 0.1)) * LITRE_PER_KWH,
        delivered_price=1400.0,
        running_cost=0.02 / KWH,
        currency="USD",
        minimum_load_fraction=float(chance.choice([0.0, 0.3, 0.3, 0.5, 1.0])),
        start_fuel=float(chance.choice([0.0, 2e-4])),
        start_wear=3600.0,
        hourly_cost=0.5 / 3600.0,
    )


def _battery(chance: np.random.Generator, mean: float) -> BatteryBank:
    least = float(chance.choice([0.0, 0.1, 0.5]))
    most = float(chance.choice([0.9, 1.0]))
    return BatteryBank(
        capacity=mean * 3600.0 * float(chance.uniform(0.2, 12.0)),
        charge_power=mean * float(chance.choice([0.0, 0.3, 1.0])),
        discharge_power=mean * float(chance.choice([0.3, 1.0, 2.0])),
        charge_efficiency=float(chance.choice([0.8, 0.96, 1.0])),
        discharge_efficiency=float(chance.choice([0.85, 0.96, 1.0])),
        least=least,
        most=most,
        start=None if chance.random() < 0.5 else float(chance.uniform(least, most)),
    )
