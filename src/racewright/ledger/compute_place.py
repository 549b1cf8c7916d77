"""The place's nodes: data files to a site."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.ledger.findings import PlaceFindings
from racewright.machine.duct_contour import duct_contour
from racewright.machine.unit import Unit
from racewright.place import site_from_discharge, site_from_histogram, site_from_speed
from racewright.place.climate import histogram_edges
from racewright.place.rating import Rating
from racewright.place.result import Series, Site
from racewright.place.transect import Transect
from racewright.records.series_csv import read_series
from racewright.records.table_csv import read_columns
from racewright.scheme.load import LoadedScheme
from racewright.scheme.model import CaseTable
from racewright.scheme.place_tables import PlaceTable


def read_record(loaded: LoadedScheme, name: str) -> Series:
    """The series of a place's record file."""
    record = loaded.scheme.place[name].record
    path = loaded.data_file(record.file, "place", name, "record", "file")
    return read_series(
        path,
        time_column=record.time_column,
        value_column=record.value_column,
        unit=record.unit,
        kind="discharge" if record.kind == "discharge" else "speed",
        zone=record.zone,
        shown_as=str(path),
    )


def read_transect(loaded: LoadedScheme, name: str) -> Transect | None:
    """The transect of a place, if it has one."""
    table = loaded.scheme.place[name].transect
    if table is None:
        return None
    path = loaded.data_file(table.file, "place", name, "transect", "file")
    columns = read_columns(
        path, {table.distance_column: table.unit, table.bed_column: table.unit}, shown_as=str(path)
    )
    try:
        return Transect(columns[table.distance_column], columns[table.bed_column])
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def outer_radius(unit: Unit) -> float:
    """Largest radius of the duct [m]."""
    _x, r = duct_contour(unit.duct, 60)
    return float(r.max())


def place_findings(loaded: LoadedScheme, case: CaseTable, unit: Unit | None) -> PlaceFindings:
    """The place of a case as its machine sees it; without a machine, as a hull-less point at mid-depth would."""
    name = case.place or ""
    table = loaded.scheme.place[name]
    transect = read_transect(loaded, name)
    site = _site(loaded, case, table, transect, unit)
    bed = () if transect is None else tuple(zip(transect.distance.tolist(), transect.bed_level.tolist(), strict=True))
    median = next((s for s in site.standings if "median" in s.label), None)
    depth = case.hub_depth
    if depth is None and case.hub_height is not None:
        water = median.depth if median else table.depth
        depth = water - case.hub_height if water is not None else None
    return PlaceFindings(name, table.description, site, depth or 0.0, bed)


def _site(
    loaded: LoadedScheme, case: CaseTable, table: PlaceTable, transect: Transect | None, unit: Unit | None
) -> Site:
    name = case.place or ""
    outer = outer_radius(unit) if unit else 0.0
    hub_depth = case.hub_depth
    if hub_depth is None and case.hub_height is not None and table.depth is not None:
        hub_depth = table.depth - case.hub_height
    if table.record.kind == "histogram":
        edge, share = _histogram(loaded, name)
        return site_from_histogram(edge, share, depth=table.depth, hub_depth=hub_depth, outer_radius=outer or None)
    series = read_record(loaded, name)
    if table.record.kind == "speed":
        return site_from_speed(series, depth=table.depth, hub_depth=hub_depth, outer_radius=outer or None)
    if table.rating is None or transect is None or case.across is None:
        raise loaded.error("a discharge record needs rating, transect and the machine's place", "case")
    rating = Rating(table.rating.coefficient, table.rating.zero_level, table.rating.exponent)
    try:
        return site_from_discharge(
            series,
            rating,
            transect,
            case.across,
            hub_depth=case.hub_depth,
            hub_height=case.hub_height,
            outer_radius=outer,
            capture_radius=unit.duct.throat_radius if unit else outer,
            profile_n=table.profile_exponent,
            speed_factor=table.speed_factor,
        )
    except InputError as fault:
        raise loaded.error(fault.message, "place", name) from None


def _histogram(loaded: LoadedScheme, name: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    record = loaded.scheme.place[name].record
    path = loaded.data_file(record.file, "place", name, "record", "file")
    columns = read_columns(
        path,
        {record.from_column: record.unit, record.to_column: record.unit, record.value_column: "1"},
        shown_as=str(path),
    )
    try:
        edge = histogram_edges(columns[record.from_column], columns[record.to_column])
    except InputError as fault:
        raise InputError(fault.message, file=str(path), key=record.from_column) from None
    return edge, columns[record.value_column]
