"""Rules between keys and tables that one table alone cannot tell."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from datetime import date

from racewright.quantity.grammar import Quantity
from racewright.quantity.units import UNITS
from racewright.scheme.growth_rules import growth_rules
from racewright.scheme.holding_rules import holding_rules
from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.model import Scheme
from racewright.scheme.money_found import money_found
from racewright.scheme.place_tables import PlaceTable, RecordTable
from racewright.scheme.strength_rules import strength_rules
from racewright.scheme.supply_rules import supply_rules
from racewright.scheme.tide_tables import TideTable
from racewright.scheme.trials_rules import trials_rules
from racewright.scheme.upkeep_rules import neighbours_rules, upkeep_rules

Broken = tuple[str, tuple[str, ...]]
"""What is wrong and what would be right, and the key that it is said of."""

UNIT_EXAMPLES = {"length": "m", "speed": "m/s", "discharge": "m3/s", "angle": "deg", "rotation": "rpm"}

_RECORD_DIMENSION = {"discharge": "discharge", "speed": "speed", "histogram": "speed"}


def broken_rules(scheme: Scheme) -> Iterator[Broken]:
    """Each broken rule in the order of the file's sections."""
    for name, place in scheme.place.items():
        yield from _place(place, ("place", name))
    for name, machine in scheme.machine.items():
        yield from _machine(machine, ("machine", name))
        yield from _parts(machine, ("machine", name))
        if machine.strength is not None:
            yield from strength_rules(machine.strength, ("machine", name, "strength"))
        yield from upkeep_rules(machine, ("machine", name))
    for name, community in scheme.community.items():
        if community.mean_load > community.diesel.rated_power:
            message = (
                f"the set's {community.diesel.rated_power / 1e3:g} kW are less than the mean load of"
                f" {community.mean_load / 1e3:g} kW; give the rated power of all sets together"
            )
            yield message, ("community", name, "diesel", "rated_power")
        yield from supply_rules(community, ("community", name))
    for name, trials in scheme.trials.items():
        if not re.fullmatch(r"[A-Za-z0-9_-]{1,60}", name):
            yield "a campaign's name is made of at most 60 letters, digits, '_' and '-'", ("trials", name)
        yield from trials_rules(trials, ("trials", name))
    for name, holding in scheme.holding.items():
        yield from holding_rules(holding, ("holding", name))
    for name, neighbours in scheme.neighbours.items():
        yield from neighbours_rules(neighbours, ("neighbours", name))
    for name, growth in scheme.growth.items():
        yield from growth_rules(growth, ("growth", name))
    yield from _cases(scheme)
    yield from _one_currency(scheme)


def _place(place: PlaceTable, at: tuple[str, ...]) -> Iterator[Broken]:
    if place.record is None and not place.spot and place.tide is None:
        here = ".".join(at)
        yield f"missing; give a record in [{here}.record], a tide, or spot speeds like [{here}.spot.first]", at
    if place.tide is not None:
        yield from _tide(place, place.tide, (*at, "tide"))
    if place.record is not None and place.spot:
        yield "give a record or spot speeds, not both", (*at, "spot")
    if place.record is not None:
        yield from _record(place, place.record, at)
    for key, file in (("record", place.record), ("transect", place.transect), ("gaugings", place.gaugings)):
        if file is not None and file.decimal == "comma" and file.delimiter == ",":
            message = "decimal commas need another mark between cells; write delimiter = ';' or 'tab'"
            yield message, (*at, key, "delimiter")
    if place.transect is not None:
        yield from _unit(place.transect.unit, "length", (*at, "transect", "unit"))
    if place.gaugings is not None:
        if place.rating is not None:
            yield "give a rating or gaugings to fit one to, not both", (*at, "gaugings")
        yield from _unit(place.gaugings.level_unit, "length", (*at, "gaugings", "level_unit"))
        yield from _unit(place.gaugings.discharge_unit, "discharge", (*at, "gaugings", "discharge_unit"))
    for name, spot in place.spot.items():
        try:
            date.fromisoformat(spot.date)
        except ValueError:
            yield f"{spot.date!r} is no date; write one like '2025-06-14'", (*at, "spot", name, "date")
    for cause, closure in place.season.closed.items():
        for key in ("first", "last"):
            if not _is_day(getattr(closure, key)):
                message = f"{getattr(closure, key)!r} is no day of the year; write month and day like '12-01'"
                yield message, (*at, "season", "closed", cause, key)
    low, high = place.season.least_speed, place.season.greatest_speed
    if low is not None and high is not None and low >= high:
        yield f"{high:g} m/s must be above least_speed, {low:g} m/s", (*at, "season", "greatest_speed")


def _record(place: PlaceTable, record: RecordTable, at: tuple[str, ...]) -> Iterator[Broken]:
    wanted = _RECORD_DIMENSION[record.kind]
    unit = UNITS.get(record.unit)
    if unit is None:
        near = difflib.get_close_matches(record.unit, list(UNITS), n=1)
        hint = f"; did you mean {near[0]!r}?" if near else ""
        yield f"unknown unit {record.unit!r}{hint}", (*at, "record", "unit")
    elif unit.dimension != wanted:
        example = "m3/s" if wanted == "discharge" else "m/s"
        message = f"{record.unit!r} is a unit of {unit.dimension}; a {record.kind} record needs one of {wanted}"
        yield f"{message}, like {example!r}", (*at, "record", "unit")
    if record.kind == "discharge":
        for key, table in (("rating", place.rating or place.gaugings), ("transect", place.transect)):
            if table is None:
                more = " or gaugings" if key == "rating" else ""
                message = f"missing; a discharge record needs [{'.'.join(at)}.{key}]{more} to become a speed"
                yield message, (*at, key)


def _tide(place: PlaceTable, tide: TideTable, at: tuple[str, ...]) -> Iterator[Broken]:
    if place.record is not None or place.spot:
        yield "give a tide or a record or spot speeds, one of them", at
    yield from _unit(tide.unit, "length" if tide.kind == "level" else "speed", (*at, "unit"))
    if tide.decimal == "comma" and tide.delimiter == ",":
        yield "decimal commas need another mark between cells; write delimiter = ';' or 'tab'", (*at, "delimiter")
    if tide.kind == "level":
        yield "a record of level has no speed; give one of speed for a machine's energy", (*at, "kind")
    if tide.kind in ("east north", "speed direction") and tide.flood_direction is None:
        yield "missing; say which way the flood runs, like flood_direction = '62 deg'", (*at, "flood_direction")
    if (tide.turning == "fixed") != (tide.faces is not None):
        yield "is given with turning = 'fixed', and only then", (*at, "faces")
    if place.season.least_depth is not None:
        message = "a tide of speed does not say how deep the water is; give least_speed instead"
        yield message, (*at[:-1], "season", "least_depth")


def _unit(symbol: str, wanted: str, at: tuple[str, ...]) -> Iterator[Broken]:
    if getattr(UNITS.get(symbol), "dimension", "") != wanted:
        yield f"{symbol!r} is not a unit of {wanted}; write one like {UNIT_EXAMPLES[wanted]!r}", at


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(f"2000-{text}")
    except ValueError:
        return False
    return len(text) == 5


def _machine(machine: MachineTable, at: tuple[str, ...]) -> Iterator[Broken]:
    throat, hub = machine.duct.throat_diameter, machine.hub.diameter
    if hub >= 0.8 * throat:
        message = f"the hub ({hub:g} m) must be smaller than 0.8 of the throat diameter ({throat:g} m)"
        yield message, (*at, "hub", "diameter")
    for key, row in (("vanes", machine.vanes), ("rotor", machine.rotor)):
        half = 0.5 * max(row.hub_chord, row.tip_chord)
        if row.place_x - half < 0.0 or row.place_x + half > machine.duct.length:
            message = (
                f"the {key} reach from {row.place_x - half:g} m to {row.place_x + half:g} m and so leave the duct,"
                f" which is 0 to {machine.duct.length:g} m"
            )
            yield message, (*at, key, "place_x")
    gap = (machine.rotor.place_x - machine.vanes.place_x) - 0.5 * (
        min(machine.rotor.hub_chord, machine.rotor.tip_chord) + min(machine.vanes.hub_chord, machine.vanes.tip_chord)
    ) * 0.5
    if gap <= 0.0:
        message = "the rotor must stand behind the vanes; move it downstream or the vanes upstream"
        yield message, (*at, "rotor", "place_x")
    start = machine.hub.nose_x + machine.hub.nose_length
    end = start + machine.hub.cylinder_length
    for key, place_x in (("vanes", machine.vanes.place_x), ("rotor", machine.rotor.place_x)):
        if not start <= place_x <= end:
            message = f"stands at {place_x:g} m, off the hub's cylinder, which is {start:g} to {end:g} m"
            yield message, (*at, key, "place_x")


def _parts(machine: MachineTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Rules of the machine's smaller tables."""
    if machine.duct.inlet_area_ratio is not None and machine.duct.camber != 0.0:
        yield (
            "give inlet_area_ratio or camber, not both: with throat and exit one fixes the other",
            (*at, "duct", "camber"),
        )
    for key, row in (("vanes", machine.vanes), ("rotor", machine.rotor)):
        for part in ("sections", "as_built"):
            table = getattr(row, part)
            if table is not None:
                yield from _unit(table.length_unit, "length", (*at, key, part, "length_unit"))
                yield from _unit(table.angle_unit, "angle", (*at, key, part, "angle_unit"))
    drive = machine.drive
    here = (*at, "drive")
    if drive.magnets is not None and drive.table is not None:
        yield "give magnets or a table of the generator, not both", (*here, "table")
    if drive.law == "fixed speed" and drive.fixed_speed is None:
        yield "missing; the law 'fixed speed' needs it, like fixed_speed = '60 rpm'", (*here, "fixed_speed")
    if drive.law == "battery":
        if drive.battery is None:
            yield f"missing; the law 'battery' needs [{'.'.join(here)}.battery]", (*here, "battery")
        if drive.magnets is None and drive.table is None:
            message = f"missing; the law 'battery' needs [{'.'.join(here)}.magnets] or [{'.'.join(here)}.table]"
            yield message, (*here, "magnets")
    if drive.table is not None:
        yield from _unit(drive.table.speed_unit, "rotation", (*here, "table", "speed_unit"))
    lost = sum(s.yearly * s.each for s in machine.stops.values())
    if lost >= 8760.0 * 3600.0:
        yield "these stops together last longer than the year; give fewer or shorter ones", (*at, "stops")


def _cases(scheme: Scheme) -> Iterator[Broken]:
    for name, case in scheme.case.items():
        for key, known in (
            ("place", scheme.place),
            ("machine", scheme.machine),
            ("community", scheme.community),
            ("trials", scheme.trials),
            ("holding", scheme.holding),
            ("neighbours", scheme.neighbours),
            ("growth", scheme.growth),
        ):
            wanted = getattr(case, key)
            if wanted is not None and wanted not in known:
                near = difflib.get_close_matches(wanted, list(known), n=1)
                hint = f"; did you mean {near[0]!r}?" if near else f"; add the table [{key}.{wanted}]"
                yield f"no table [{key}.{wanted}]{hint}", ("case", name, key)
        if case.trials is not None and case.machine is None:
            yield "missing; trials are of a machine: name it, like machine = 'model'", ("case", name, "machine")
        for role, key in (
            ("holding", "machine"), ("holding", "place"), ("neighbours", "machine"), ("neighbours", "place"),
            ("growth", "machine"),
        ):  # fmt: skip
            if getattr(case, role) is not None and getattr(case, key) is None:
                yield f"missing; {role} without a {key} says nothing: name the {key}", ("case", name, key)
        place = scheme.place.get(case.place) if case.place else None
        if case.hub_depth is not None and case.hub_height is not None:
            yield "give hub_depth or hub_height, not both", ("case", name, "hub_height")
        if place is None:
            continue
        if case.hub_height is not None and place.depth is not None and case.hub_height >= place.depth:
            message = f"the axis {case.hub_height:g} m above the bed is not in water {place.depth:g} m deep"
            yield f"{message}; hang it lower", ("case", name, "hub_height")
        record = place.record
        machine = scheme.machine.get(case.machine or "")
        if (
            machine is not None
            and case.hub_depth is not None
            and case.hub_depth <= 0.5 * machine.duct.throat_diameter
        ):
            message = f"an axis {case.hub_depth:g} m down puts the duct through the surface; hang it deeper"
            yield message, ("case", name, "hub_depth")
        from_transect = record is not None and record.kind == "discharge" and place.transect is not None
        hangs = from_transect or (case.machine is not None and (place.transect or place.depth) is not None)
        if hangs and case.hub_depth is None and case.hub_height is None:
            message = "missing; say where the axis hangs: hub_depth = '1.6 m' below the surface, or hub_height"
            yield message, ("case", name, "hub_depth")
        if from_transect and case.across is None:
            message = "missing; say where across the transect the machine hangs, like across = '31 m'"
            yield message, ("case", name, "across")


def _one_currency(scheme: Scheme) -> Iterator[Broken]:
    """All money of the tables that a case joins bears one label."""
    for case in scheme.case.values():
        found: list[tuple[tuple[str, ...], Quantity]] = []
        for role, tables in (("machine", scheme.machine), ("community", scheme.community), ("growth", scheme.growth)):
            table = tables.get(getattr(case, role) or "")
            if table is not None:
                found += money_found(table, (role, getattr(case, role)))
        for keys, amount in found[1:]:
            first_keys, first = found[0]
            if amount.currency != first.currency:
                other = f"but {'.'.join(first_keys)} is in {first.currency}; use one currency throughout"
                yield f"in {amount.currency}, {other}", keys
