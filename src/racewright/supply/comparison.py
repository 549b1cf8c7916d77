"""The machine beside the diesel: cost of energy, and money and fuel kept in a year."""

from __future__ import annotations

import math

from racewright.errors import InputError, NoAnswerError
from racewright.remark import Remark
from racewright.supply.diesel import diesel_cost
from racewright.supply.door import SECONDS_PER_YEAR, currency_label
from racewright.supply.levelised import levelised_cost
from racewright.supply.parties import CommunityNeeds, DieselSet, MachineCost
from racewright.supply.result import Comparison, LevelisedCost
from racewright.uncertainty import Band

_KWH = 3.6e6
_MWH = 3.6e9


def compare(
    energy: Band, community: CommunityNeeds, diesel: DieselSet, machine: MachineCost, *, count: int = 1
) -> Comparison:
    """Set machines beside the diesel set of a village.

    With averages only, the village takes min(machine energy, mean load x 8760 h); with the set on, no more
    than (mean load - minimum load) x 8760 h of it, so that the set keeps its minimum load. The first
    is an upper bound, since village and machine keep different hours; the second is an estimate, since the
    load may also dip below the floor; a remark says that both are averages. The machine's cost is
    capital recovery and yearly cost of all machines over the used energy. The saving with the set on is
    slope x price for the energy used, without running cost; with the set off in proportion, the mean fuel
    use x price and the running cost; less the machine's yearly cost, both.

    Parameters
    ----------
    energy : Band
        Yearly energy of one machine, low > 0 [J].
    community : CommunityNeeds
    diesel : DieselSet
    machine : MachineCost
        Of one machine.
    count : int
        Number of machines, >= 1: multiplies energy, capital and yearly cost [-].

    Returns
    -------
    Comparison

    Raises
    ------
    InputError
        Two currencies, a crossed band, a number out of its range.
    NoAnswerError
        The low end of the energy band is 0: a cost per energy does not exist.
    """
    currency = currency_label(machine.currency)
    if currency_label(diesel.currency) != currency:
        raise InputError(
            f"the machine is priced in {currency}, the diesel in {diesel.currency}; wanted one currency "
            "label, converted by hand at a rate that you state"
        )
    if isinstance(count, bool) or not isinstance(count, int) or count < 1:
        raise InputError(f"count of machines is {count!r}; wanted a whole number, 1 or more")
    _check(energy)
    set_cost = diesel_cost(
        community.mean_load,
        diesel.rated_power,
        diesel.slope,
        diesel.intercept,
        diesel.delivered_price,
        diesel.running_cost,
        capital=diesel.capital,
        rate=diesel.rate,
        years=diesel.years,
        minimum_load_fraction=diesel.minimum_load_fraction,
    )
    taken_most = community.mean_load * SECONDS_PER_YEAR
    floor = diesel.minimum_load_fraction * diesel.rated_power
    taken_set_on = max(community.mean_load - floor, 0.0) * SECONDS_PER_YEAR
    made = _times(energy, float(count), energy.basis)
    used = _capped(made, taken_most)
    used_on = _capped(made, taken_set_on)

    def cost_at(joules: float) -> LevelisedCost:
        yearly = count * machine.yearly_cost
        return levelised_cost(count * machine.capital, yearly, joules, machine.rate, machine.years)

    costs = cost_at(used.value)
    yearly = costs.cost * used.value
    fuel_on = _times(used_on, diesel.slope, used_on.basis)
    fuel_off = _times(used, set_cost.fuel_use, used.basis)
    worth_off = set_cost.fuel_part + set_cost.running_part
    return Comparison(
        machine=costs,
        machine_cost=Band(cost_at(used.high).cost, costs.cost, cost_at(used.low).cost, used.basis),
        diesel=set_cost,
        used_energy=used,
        saving_set_on=_less(_times(fuel_on, diesel.delivered_price, fuel_on.basis), yearly),
        saving_set_off=_less(_times(used, worth_off, used.basis), yearly),
        fuel_saved_set_on=fuel_on,
        fuel_saved_set_off=fuel_off,
        currency=currency,
        remarks=_remarks(made, used, used_on, yearly, currency),
        used_energy_set_on=used_on,
        fuel_worth_set_on=diesel.slope * diesel.delivered_price,
        set_can_stop=count * machine.rated_power >= community.mean_load,
    )


def _check(energy: Band) -> None:
    ends = (energy.low, energy.value, energy.high)
    if not all(math.isfinite(e) for e in ends) or energy.low < 0.0 or sorted(ends) != list(ends):
        raise InputError(f"energy band is {ends!r} J; wanted finite 0 <= low <= value <= high")
    if energy.low == 0.0:
        raise NoAnswerError("the machine's energy, or the low end of its band, is 0: it has no cost per energy")


def _times(band: Band, factor: float, basis: str) -> Band:
    return Band(band.low * factor, band.value * factor, band.high * factor, basis)


def _capped(band: Band, most: float) -> Band:
    return Band(min(band.low, most), min(band.value, most), min(band.high, most), band.basis)


def _less(band: Band, amount: float) -> Band:
    return Band(band.low - amount, band.value - amount, band.high - amount, band.basis)


def _remarks(made: Band, used: Band, used_on: Band, yearly: float, currency: str) -> tuple[Remark, ...]:
    remarks = [
        Remark(
            "caution",
            "Used energy comes from yearly averages and is an upper bound: hour by hour the village takes "
            "less. Fuel and savings follow from it and are estimates, roughest with the set switched off and "
            "on. This comparison is by the year; a case with supply has a balance by the hour beside it.",
            "used energy",
        )
    ]
    if used.value < made.value:
        text = (
            f"The machines make {made.value / _MWH:.3g} MWh a year, the village takes at most "
            f"{used.value / _MWH:.3g} MWh: the rest has no user, and the cost is per energy used."
        )
        remarks.append(Remark("caution", text, "used energy"))
    if used_on.value < used.value:
        text = (
            f"With the diesel set on at its minimum load the village takes about "
            f"{used_on.value / _MWH:.3g} MWh a year from the machines"
        )
        if used_on.value > 0.0:
            text += f", and their energy then costs {yearly / used_on.value * _KWH:.3g} {currency}/kWh"
        remarks.append(Remark("caution", text + ".", "minimum load"))
    return tuple(remarks)
