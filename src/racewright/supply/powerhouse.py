"""What supplies a village beside its machines: diesel sets, battery, dump load, and how they are run."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.door import currency_label, fraction, not_negative, positive
from racewright.supply.parties import DieselSet

MOST_SETS = 6
"""Sets of one powerhouse: 64 combinations are tried in each interval."""


@dataclass(frozen=True, slots=True)
class BatteryBank:
    """A battery on the line of the drive; powers are measured at the line.

    Attributes
    ----------
    capacity : float
        Energy between empty and full, > 0 [J].
    charge_power, discharge_power : float
        >= 0 [W].
    charge_efficiency, discharge_efficiency : float
        Stored over taken, and given over drawn, above 0 to 1. The defaults 0.96 make a round trip of 0.92, the middle
        of 0.90 to 0.95 for lithium iron phosphate (from memory); lead-acid has 0.75 to 0.85 [-].
    least, most : float
        Window of the state of charge, 0 <= least < most <= 1. The defaults use 85 % of the capacity, as lithium iron
        phosphate bears (80 to 90 %, from memory); lead-acid wants a least of 0.5 [-].
    start : float
        State of charge before the first interval, within the window; default: at the least, so that no stored energy
        is given away [-].
    """

    capacity: float
    charge_power: float
    discharge_power: float
    charge_efficiency: float = 0.96
    discharge_efficiency: float = 0.96
    least: float = 0.10
    most: float = 0.95
    start: float | None = None

    def __post_init__(self) -> None:
        positive("capacity of the battery", self.capacity, "J", 3.6e7)
        not_negative("charge power", self.charge_power, "W", 5000.0)
        not_negative("discharge power", self.discharge_power, "W", 5000.0)
        for name in ("charge_efficiency", "discharge_efficiency"):
            if fraction(name.replace("_", " "), getattr(self, name), 0.96) < 0.05:
                raise InputError(f"{name.replace('_', ' ')} is {getattr(self, name)!r}; wanted 0.05 to 1, e.g. 0.96")
        fraction("least state of charge", self.least, 0.1)
        fraction("greatest state of charge", self.most, 0.95)
        if self.least >= self.most:
            raise InputError(f"the state of charge may go from {self.least:g} to {self.most:g}; wanted least < most")
        if not self.least <= self.first <= self.most:
            raise InputError(
                f"the state of charge starts at {self.start!r}; wanted it inside the window {self.least:g} to "
                f"{self.most:g}"
            )

    @property
    def first(self) -> float:
        """State of charge before the first interval [-]."""
        return self.least if self.start is None else self.start


@dataclass(frozen=True, slots=True)
class Powerhouse:
    """Diesel sets, battery and dump load.

    Attributes
    ----------
    sets : tuple of DieselSet
        0 to 6, in the order in which equals are taken.
    battery : BatteryBank or None
    dump_power : float
        That the dump load takes for as long as wanted, >= 0; default 0: none, then sets may run below their minimum
        [W].
    """

    sets: tuple[DieselSet, ...] = ()
    battery: BatteryBank | None = None
    dump_power: float = 0.0

    def __post_init__(self) -> None:
        not_negative("power of the dump load", self.dump_power, "W", 5000.0)
        if len(self.sets) > MOST_SETS:
            raise InputError(f"{len(self.sets)} diesel sets; wanted {MOST_SETS} at most")
        for one in self.sets:
            _check(one)
        labels = {one.currency for one in self.sets}
        if len(labels) > 1:
            raise InputError(f"the sets are priced in {', '.join(sorted(labels))}; wanted one currency label")


@dataclass(frozen=True, slots=True)
class DispatchRules:
    """The choices of a year's run; docs/dispatch_rules.md says what they do.

    Attributes
    ----------
    keep_one_on : bool
        A diesel set always runs; default False: all may stop, which wants a machine or battery that can hold voltage
        and frequency alone.
    reserve : float
        Share of the load that must stand ready on top of it, 0 to 2; default 0, since means of intervals know no
        peaks: raise it for short intervals or a nervous load [-].
    fill_to : float
        State of charge up to which running sets fill the battery; 0, the default: never on purpose [-].
    """

    keep_one_on: bool = False
    reserve: float = 0.0
    fill_to: float = 0.0

    def __post_init__(self) -> None:
        if not_negative("reserve", self.reserve, "of the load", 0.1) > 2.0:
            raise InputError(f"the reserve is {self.reserve:g} of the load; wanted 2 at most, e.g. 0.1")
        fraction("state of charge that sets fill to", self.fill_to, 0.8)


def _check(one: DieselSet) -> None:
    positive("rated power of the set", one.rated_power, "W", 20000.0)
    not_negative("slope of the fuel curve", one.slope, "m3/J", 6.83e-11)
    not_negative("intercept of the fuel curve", one.intercept, "m3/J", 2.26e-11)
    fraction("minimum load fraction", one.minimum_load_fraction, 0.3)
    not_negative("fuel of a start", one.start_fuel, "m3", 1e-4)
    not_negative("wear of a start", one.start_wear, "s", 3600.0)
    not_negative("delivered fuel price", one.delivered_price, "currency/m3", 1400.0)
    not_negative("running cost of the set", one.running_cost, "currency/J", 1e-8)
    not_negative("hourly cost of the set", one.hourly_cost, "currency/s", 3e-4)
    currency_label(one.currency)


def supply_cautions(house: Powerhouse, rules: DispatchRules) -> tuple[Remark, ...]:
    """What must be told beside every year that this powerhouse runs."""
    told = []
    if not rules.keep_one_on and house.sets:
        text = (
            "All diesel sets may stop here: machine, battery and their controls must then hold voltage, frequency "
            "and short-circuit protection alone. Whether they can is for a licensed electrician and the local code."
        )
        told.append(Remark("caution", text, "sets off"))
    if house.battery is not None:
        text = (
            "A battery is counted as energy and power only: fire, gas, frost and short-circuit safety follow the "
            "maker and the local code; its ageing is not counted."
        )
        told.append(Remark("caution", text, "battery"))
    if not house.sets:
        told.append(Remark("caution", "There is no diesel set: nothing stands behind machine and battery.", "sets"))
    return tuple(told)
