"""The place's node: data files to a site."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from racewright.errors import InputError
from racewright.ledger.convert import duct_of
from racewright.ledger.node import Given, Node
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.place.climate import histogram_edges
from racewright.place.rating import Rating
from racewright.place.result import Series, Site
from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed
from racewright.place.transect import Transect
from racewright.records.csv_form import CsvForm
from racewright.records.series import read_any_series
from racewright.records.table_csv import read_columns
from racewright.tick import Tick

NO_DUCT_RADIUS = 0.5
"""Radius taken for cover, clearance and capture while the case has no machine [m]."""


def outer_radius(duct: Duct) -> float:
    """Largest radius of the duct [m]."""
    _x, r = duct_contour(duct, 60)
    return float(r.max())


def _site(given: Given, _tick: Tick) -> Site:
    keys = given.keys
    record = keys["place.record"]
    path = given.files["place.record.file"]
    duct = duct_of(keys) if keys["machine.duct"] else None
    outer = outer_radius(duct) if duct else NO_DUCT_RADIUS
    if record["kind"] == "discharge":
        return _discharge_site(given, record, path, outer, duct.throat_radius if duct else NO_DUCT_RADIUS)
    depth = keys["place.depth"]
    axis = keys["case.hub_depth"]
    if axis is None and keys["case.hub_height"] is not None and depth is not None:
        axis = depth - keys["case.hub_height"]
    fit = {"depth": depth, "hub_depth": axis, "outer_radius": outer if duct else None}
    if record["kind"] == "speed":
        return site_from_speed(_series(record, path, "speed"), **fit)
    columns = {
        record["from_column"]: record["unit"],
        record["to_column"]: record["unit"],
        record["value_column"]: "1",
    }
    found = read_columns(path, columns, str(path), _form(record))
    try:
        edge = histogram_edges(found[record["from_column"]], found[record["to_column"]])
        return site_from_histogram(edge, found[record["value_column"]], **fit)
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def _discharge_site(given: Given, record: Any, path: Path, outer: float, capture: float) -> Site:
    keys = given.keys
    rating = keys["place.rating"]
    return site_from_discharge(
        _series(record, path, "discharge"),
        Rating(rating["coefficient"], rating["zero_level"], rating["exponent"]),
        _transect(keys["place.transect"], given.files["place.transect.file"]),
        keys["case.across"],
        hub_depth=keys["case.hub_depth"],
        hub_height=keys["case.hub_height"],
        outer_radius=outer,
        capture_radius=capture,
        profile_n=keys["place.profile_exponent"],
        speed_factor=keys["place.speed_factor"],
    )


def _series(record: Any, path: Path, kind: Any) -> Series:
    return read_any_series(
        path,
        time_column=record["time_column"],
        value_column=record["value_column"],
        unit=record["unit"],
        kind=kind,
        zone=record["zone"],
        shown_as=str(path),
        form=_form(record),
    )


def _form(table: Any) -> CsvForm:
    return CsvForm(table["delimiter"], table["decimal"], table["encoding"], table.get("order", "rising"))


def _transect(table: Any, path: Path) -> Transect:
    distance, bed, unit = table["distance_column"], table["bed_column"], table["unit"]
    columns = read_columns(path, {distance: unit, bed: unit}, str(path), _form(table))
    try:
        return Transect(columns[distance], columns[bed])
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def _bed(given: Given, _tick: Tick) -> tuple[tuple[float, float], ...]:
    """(distance across, bed level) of the transect [m]."""
    if given.keys["place.transect"] is None:
        return ()
    transect = _transect(given.keys["place.transect"], given.files["place.transect.file"])
    return tuple(zip(transect.distance.tolist(), transect.bed_level.tolist(), strict=True))


PLACE_NODES = (
    Node(
        "site",
        2,
        _site,
        keys=(
            "place.record",
            "place.rating",
            "place.transect",
            "place.profile_exponent",
            "place.speed_factor",
            "place.depth",
            "case.across",
            "case.hub_depth",
            "case.hub_height",
            "machine.duct",
        ),
        files=("place.record.file", "place.transect.file"),
        needs=("place",),
    ),
    Node("bed", 1, _bed, keys=("place.transect",), files=("place.transect.file",), needs=("place",)),
)
