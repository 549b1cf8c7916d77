"""The ways to supply one village, each as a sentence, beside the diesel sets alone."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.delivery import Delivered
from racewright.supply.dispatch_result import Dispatch
from racewright.supply.dispatch_year import dispatch
from racewright.supply.powerhouse import DispatchRules, Powerhouse

ALONE = "Diesel sets alone, one always on."
WITH_SET_ON = "Machine with diesel sets, one always on."
SETS_STOP = "Machine with diesel sets that stop when it carries the load."
WITH_BATTERY = "Machine, battery and diesel sets that stop when both carry the load."
BATTERY_SET_ON = "Machine, battery and diesel sets, one always on."


@dataclass(frozen=True, slots=True)
class SupplyWay:
    """One way of running the village, before it is run.

    Attributes
    ----------
    sentence : str
    with_machine, with_sun : bool
    house : Powerhouse
    rules : DispatchRules
    """

    sentence: str
    with_machine: bool
    with_sun: bool
    house: Powerhouse
    rules: DispatchRules


@dataclass(frozen=True, slots=True)
class SupplyOption:
    """One way to supply the village.

    Attributes
    ----------
    sentence : str
    year : Dispatch
        Without its series.
    fuel_saved : float
        Against the sets alone [m3].
    trips, trips_saved : int
        Of the fuel's last leg; 0 without a delivery.
    money_saved : float
        Fuel and upkeep of the sets, against the sets alone; what machine, battery and panels cost is not in it
        [currency].
    """

    sentence: str
    year: Dispatch
    fuel_saved: float
    trips: int
    trips_saved: int
    money_saved: float


@dataclass(frozen=True, slots=True)
class SupplyOptions:
    """All ways side by side, the sets alone first.

    Attributes
    ----------
    rows : tuple of SupplyOption
    currency : str
        Three-letter label.
    remarks : tuple of Remark
    """

    rows: tuple[SupplyOption, ...]
    currency: str
    remarks: tuple[Remark, ...]


def supply_options(
    load: ArrayLike,
    machine: ArrayLike,
    house: Powerhouse,
    *,
    reserve: float = 0.0,
    fill_to: float = 0.0,
    interval: float = 3600.0,
    sun: ArrayLike | None = None,
    ready: NDArray[np.bool_] | None = None,
    delivery: Delivered | None = None,
    keep_one_on: bool = False,
) -> SupplyOptions:
    """Run the same year in every way that the powerhouse allows.

    The battery takes part only in the ways that name it; so does the sun, which stands beside each way with a machine
    when its power is given.

    Parameters
    ----------
    load, machine, sun, interval, ready
        As in `dispatch`.
    house : Powerhouse
        With one diesel set or more.
    reserve, fill_to : float
        As in `DispatchRules`; the sets alone know neither battery nor filling.
    delivery : Delivered, optional
        How fuel comes, for the trips.
    keep_one_on : bool
        True leaves out the ways in which all sets may stop; default False: they may.

    Raises
    ------
    InputError
        No diesel set, or as `dispatch`.
    """
    rows: list[SupplyOption] = []
    for way in supply_ways(house, reserve, fill_to, with_sun=sun is not None, keep_one_on=keep_one_on):
        year = dispatch(
            load,
            machine if way.with_machine else None,
            way.house,
            way.rules,
            interval=interval,
            sun=sun if way.with_sun else None,
            ready=ready,
            keep_series=False,
        )
        rows.append(_row(way.sentence, year, rows[0].year if rows else year, delivery))
    told = tuple(dict.fromkeys(remark for row in rows for remark in row.year.remarks if remark.severity != "warning"))
    return SupplyOptions(tuple(rows), house.sets[0].currency, told)


def supply_ways(
    house: Powerhouse, reserve: float, fill_to: float, *, with_sun: bool, keep_one_on: bool = False
) -> tuple[SupplyWay, ...]:
    """Every way that the powerhouse allows, the sets alone first; parameters as in `supply_options`.

    Raises
    ------
    InputError
        No diesel set.
    """
    if not house.sets:
        raise InputError("without a diesel set there is nothing to set the other ways against; run `dispatch` alone")
    bare = replace(house, battery=None)
    on, stop = DispatchRules(True, reserve), DispatchRules(False, reserve)
    ways = [SupplyWay(WITH_SET_ON, True, False, bare, on)]
    if not keep_one_on:
        ways.append(SupplyWay(SETS_STOP, True, False, bare, stop))
    if house.battery is not None:
        sentence = BATTERY_SET_ON if keep_one_on else WITH_BATTERY
        ways.append(SupplyWay(sentence, True, False, house, DispatchRules(keep_one_on, reserve, fill_to)))
    sunny = [replace(way, sentence=_named(way.sentence, True), with_sun=True) for way in ways] if with_sun else []
    return (SupplyWay(ALONE, False, False, bare, on), *ways, *sunny)


def _named(sentence: str, with_sun: bool) -> str:
    return sentence.replace("Machine", "Machine, sun", 1) if with_sun else sentence


def _row(sentence: str, year: Dispatch, alone: Dispatch, delivery: Delivered | None) -> SupplyOption:
    trips = base = 0
    if delivery is not None:
        trips, base = delivery.trips(year.fuel), delivery.trips(alone.fuel)
    saved = alone.fuel_cost + alone.set_cost - (year.fuel_cost + year.set_cost)
    return SupplyOption(sentence, year, alone.fuel - year.fuel, trips, base - trips, saved)
