"""The powerhouse of a case and every way to run it, from the keys of the scheme."""

from __future__ import annotations

from racewright.errors import InputError
from racewright.ledger.convert import Keys
from racewright.ledger.supply_inputs import house_of
from racewright.ledger.supply_things import HourLoad
from racewright.supply.options import SupplyWay, supply_ways
from racewright.supply.powerhouse import Powerhouse


def house_by(keys: Keys, price: float) -> Powerhouse:
    """Sets, battery and dump load, with fuel at a price at the village [currency/m3]."""
    supply = {key: keys[f"community.supply.{key}"] for key in ("set", "battery", "rules")}
    return house_of({"diesel": keys["community.diesel"], "supply": supply}, price)


def reserve_by(keys: Keys, load: HourLoad) -> float:
    """The reserve over the mean load [-].

    Raises
    ------
    InputError
        More than twice the mean load.
    """
    mean = float(load.load.mean())
    share = keys["community.supply.rules"]["reserve"] / mean if mean > 0.0 else 0.0
    if share > 2.0:
        raise InputError(
            f"the reserve is {share:.3g} times the mean load of {mean:.4g} W; wanted 2 at most", key="reserve"
        )
    return float(share)


def fill_to_by(keys: Keys) -> float:
    """State to which a running set fills the battery [-].

    Raises
    ------
    InputError
        Above the battery's greatest state of charge.
    """
    battery, rules = keys["community.supply.battery"], keys["community.supply.rules"]
    if battery is None:
        return 0.0
    if rules["fill_to"] > battery["most"]:
        message = f"is above the battery's greatest state of charge, {battery['most']:g}: sets would never stop"
        raise InputError(message, key="fill_to")
    return float(rules["fill_to"])


def ways_by(keys: Keys, house: Powerhouse, load: HourLoad) -> tuple[SupplyWay, ...]:
    """Every way that the powerhouse allows, the sets alone first, as `SupplyYear.rows` has them."""
    return supply_ways(
        house,
        reserve_by(keys, load),
        fill_to_by(keys),
        with_sun=load.sun is not None,
        keep_one_on=keys["community.supply.rules"]["keep_one_on"],
    )
