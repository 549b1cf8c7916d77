"""The supply's nodes: yearly energy of the machine at the place, and cost against diesel."""

from __future__ import annotations

from racewright.ledger.findings import CommunityFindings, MachineFindings, PlaceFindings
from racewright.scheme.community_tables import CommunityTable
from racewright.scheme.machine_tables import CostTable, MachineTable
from racewright.supply.comparison import compare
from racewright.supply.diesel import delivered_price
from racewright.supply.energy import yearly_energy
from racewright.supply.parties import CommunityNeeds, DieselSet, MachineCost
from racewright.supply.result import YearlyEnergy

SECONDS_A_YEAR = 8760.0 * 3600.0


def energy_of(machine: MachineFindings, place: PlaceFindings, table: MachineTable) -> YearlyEnergy:
    """Yearly energy of one machine."""
    climate, powers, drive = place.site.climate, machine.power_curve, machine.unit.drive
    return yearly_energy(
        climate.edge,
        climate.share,
        powers.stream_speed,
        powers.electrical_power,
        availability=table.availability,
        rated_power=drive.rated_power,
        cut_in_speed=drive.cut_in_speed,
        power_low=powers.band_low,
        power_high=powers.band_high,
    )


def community_findings(
    name: str, table: CommunityTable, cost: CostTable, energy: YearlyEnergy, count: int
) -> CommunityFindings:
    """The machines beside the community's diesel."""
    diesel = table.diesel
    comparison = compare(
        energy.total,
        CommunityNeeds(table.mean_load),
        DieselSet(
            rated_power=diesel.rated_power,
            slope=diesel.fuel_slope,
            intercept=diesel.fuel_standing,
            delivered_price=delivered_price(diesel.fuel_price.si, diesel.delivery.si),
            running_cost=diesel.running.si,
            currency=diesel.fuel_price.currency,
            minimum_load_fraction=diesel.minimum_load,
        ),
        MachineCost(
            capital=cost.capital.si,
            yearly_cost=cost.yearly.si,
            rate=table.interest,
            years=cost.life / SECONDS_A_YEAR,
            currency=cost.capital.currency,
        ),
        count=count,
    )
    return CommunityFindings(name, table.description, comparison)
