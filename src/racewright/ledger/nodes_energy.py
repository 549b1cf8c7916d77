"""What stands around the yearly energy: availability, years, months, band, turbulence, several machines."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from racewright.errors import InputError
from racewright.ledger.convert import drive_of, duct_of
from racewright.ledger.node import Given, Node
from racewright.ledger.place_inputs import outer_radius, said, transect_of
from racewright.place.speed_uncertainty import combined
from racewright.supply.availability import Availability, LostTime, availability, stops
from racewright.supply.months import MonthlyEnergy, energy_by_month
from racewright.supply.power_table import PowerTable
from racewright.supply.river_share import RiverShare, river_share
from racewright.supply.speed_band import COVERAGE, EnergyBand, EnergyCause, energy_band
from racewright.supply.turbulence import Turbulence, turbulence
from racewright.supply.years import YearlySpread, energy_by_year
from racewright.tick import Tick
from racewright.upkeep.parts_availability import PartsAvailability

CURVE = ("site", "power_curve", "availability")


def _availability(given: Given, _tick: Tick) -> Availability:
    """By part or by cause, else as stated; what the season takes is listed, the climate holds it."""
    parts: PartsAvailability | None = given.nodes["parts"]
    causes = [] if parts is None else _parts_lost(parts)
    causes += [stops(said(cause), s["yearly"], s["each"]) for cause, s in sorted(given.keys["machine.stops"].items())]
    if not causes:
        causes = [LostTime("all causes, as stated", 1.0 - given.keys["machine.availability"])]
    left = 1.0
    for outage in given.nodes["site"].outages:
        share = min(1.0, outage.share / left) if left > 0.0 else 0.0
        causes.append(LostTime(f"season: {outage.cause}", share, in_climate=True))
        left -= outage.share
    return availability(tuple(causes))


def _parts_lost(parts: PartsAvailability) -> list[LostTime]:
    """Each part's share of what the parts before it leave, so that the product is the parts' availability."""
    found, left = [], 1.0
    for row in parts.rows:
        found.append(LostTime(row.name, row.lost_share / left if left > 0.0 else 0.0))
        left -= row.lost_share
    return found


def _table(given: Given) -> PowerTable:
    powers, drive = given.nodes["power_curve"], drive_of(given.keys)
    share = given.nodes["availability"].share
    return PowerTable(powers.stream_speed, powers.electrical_power, drive.cut_in_speed, drive.rated_power, share)


def _years(given: Given, _tick: Tick) -> YearlySpread | None:
    """None where the place has no dates."""
    site = given.nodes["site"]
    return None if site.calendar is None else energy_by_year(site.calendar, _table(given), predicted=site.predicted)


def _months(given: Given, _tick: Tick) -> MonthlyEnergy | None:
    """None where the place has no dates."""
    site = given.nodes["site"]
    return None if site.calendar is None else energy_by_month(site.calendar, _table(given), site.open_calendar)


def _energy_band(given: Given, _tick: Tick) -> EnergyBand:
    """Of one machine: speed of the site, power curve, and the years on record where they show a spread.

    A power curve that ends at rated power holds it on to the fastest water of the band: it ends there only because
    the place's own water does.
    """
    climate, powers, years = given.nodes["site"].climate, given.nodes["power_curve"], given.nodes["years"]
    others = []
    if years is not None and years.spread is not None and years.spread.mean > 0.0:
        others.append(EnergyCause("years on record", min(1.0, years.spread.standard_error / years.spread.mean)))
    causes, table = given.nodes["speed_causes"], _table(given)
    low, high = powers.band_low, powers.band_high
    fastest = float(climate.edge[-1]) * math.exp(COVERAGE * combined(causes))
    if table.power[-1] >= table.rated_power and fastest > table.speed[-1]:
        table = replace(table, speed=np.append(table.speed, fastest), power=np.append(table.power, table.power[-1]))
        low, high = np.append(low, low[-1]), np.append(high, high[-1])
    return energy_band(climate.edge, climate.share, table, low, high, causes, tuple(others))


def _turbulence(given: Given, _tick: Tick) -> Turbulence:
    """Told beside the energy; the power curve is computed for steady water, so it holds none."""
    climate = given.nodes["site"].climate
    return turbulence(climate.edge, climate.share, _table(given), given.keys["place.turbulence"], contained=False)


def _river_share(given: Given, _tick: Tick) -> RiverShare | None:
    """At each standing with flowing water; None where the river's discharge is not known."""
    keys, point = given.keys, given.nodes["design_point"]
    standings = [s for s in given.nodes["site"].standings if s.discharge > 0.0]
    if not standings:
        return None
    transect = transect_of(keys["place.transect"], given.files["place.transect.file"])
    outer = outer_radius(duct_of(keys))
    through = point.flow_rate / point.stream_speed * np.array([s.speed for s in standings])
    try:
        return river_share(
            given.nodes["energy_band"].total,
            keys["case.count"],
            math.pi * outer**2,
            transect.wetted_area(np.array([s.level for s in standings])),
            np.array([s.discharge for s in standings]),
            through,
            labels=tuple(s.label for s in standings),
            diameter=2.0 * outer,
            spacing=keys["case.spacing"],
        )
    except InputError as fault:
        raise InputError(fault.message, key="count") from None


ENERGY_NODES = (
    Node(
        "availability",
        2,
        _availability,
        keys=("machine.availability", "machine.stops"),
        nodes=("site", "parts"),
        needs=("place", "machine"),
    ),
    Node("years", 3, _years, keys=("machine.drive",), nodes=CURVE, needs=("place", "machine")),
    Node("months", 1, _months, keys=("machine.drive",), nodes=CURVE, needs=("place", "machine")),
    Node(
        "energy_band",
        2,
        _energy_band,
        keys=("machine.drive",),
        nodes=(*CURVE, "speed_causes", "years"),
        needs=("place", "machine"),
    ),
    Node(
        "turbulence",
        1,
        _turbulence,
        keys=("machine.drive", "place.turbulence"),
        nodes=CURVE,
        needs=("place", "machine"),
    ),
    Node(
        "river_share",
        1,
        _river_share,
        keys=("place.transect", "case.count", "case.spacing", "machine.duct"),
        files=("place.transect.file",),
        nodes=("site", "energy_band", "design_point"),
        needs=("place", "machine"),
    ),
)
