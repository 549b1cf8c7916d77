"""The supply's first and last node: yearly energy of the machine at the place, and cost against diesel."""

from __future__ import annotations

from racewright.errors import NoAnswerError
from racewright.ledger.convert import drive_of
from racewright.ledger.node import Given, Node
from racewright.supply.comparison import compare
from racewright.supply.diesel import delivered_price
from racewright.supply.energy import yearly_energy
from racewright.supply.parties import CommunityNeeds, DieselSet, MachineCost
from racewright.supply.result import Comparison, YearlyEnergy
from racewright.tick import Tick

SECONDS_A_YEAR = 8760.0 * 3600.0


def _energy(given: Given, _tick: Tick) -> YearlyEnergy:
    """Of one machine; its band is the power curve's alone."""
    climate, powers = given.nodes["site"].climate, given.nodes["power_curve"]
    drive = drive_of(given.keys)
    fastest = float(climate.edge[1:][climate.share > 0.0][-1])
    if fastest <= drive.cut_in_speed:
        raise NoAnswerError(
            f"no flow above cut-in: cut_in_speed is {drive.cut_in_speed:.3g} m/s and the fastest water of the record"
            f" stays below {fastest:.3g} m/s; choose a faster place or a drive that starts at less"
        )
    return yearly_energy(
        climate.edge,
        climate.share,
        powers.stream_speed,
        powers.electrical_power,
        availability=given.nodes["availability"].share,
        rated_power=drive.rated_power,
        cut_in_speed=drive.cut_in_speed,
        power_low=powers.band_low,
        power_high=powers.band_high,
    )


def _comparison(given: Given, _tick: Tick) -> Comparison | None:
    """Of all machines of the case; None where the energy's band begins at 0, so that no cost has an upper end."""
    keys, cost = given.keys, given.keys["machine.cost"]
    diesel, energy = keys["community.diesel"], given.nodes["energy_band"].total
    if energy.low == 0.0 < energy.value:
        return None
    return compare(
        energy,
        CommunityNeeds(keys["community.mean_load"]),
        DieselSet(
            rated_power=diesel["rated_power"],
            slope=diesel["fuel_slope"],
            intercept=diesel["fuel_standing"],
            delivered_price=delivered_price(diesel["fuel_price"]["si"], diesel["delivery"]["si"]),
            running_cost=diesel["running"]["si"],
            currency=diesel["fuel_price"]["currency"],
            minimum_load_fraction=diesel["minimum_load"],
        ),
        MachineCost(
            capital=cost["capital"]["si"],
            yearly_cost=cost["yearly"]["si"],
            rate=keys["community.interest"],
            years=cost["life"] / SECONDS_A_YEAR,
            currency=cost["capital"]["currency"],
            rated_power=drive_of(given.keys).rated_power,
        ),
        count=keys["case.count"],
    )


SUPPLY_NODES = (
    Node(
        "energy",
        3,
        _energy,
        keys=("machine.drive",),
        nodes=("site", "power_curve", "availability"),
        needs=("place", "machine"),
    ),
    Node(
        "comparison",
        2,
        _comparison,
        keys=(
            "community.mean_load",
            "community.interest",
            "community.diesel",
            "machine.cost",
            "machine.drive",
            "case.count",
        ),
        nodes=("energy_band",),
        needs=("place", "machine", "community", "machine.cost"),
    ),
)
