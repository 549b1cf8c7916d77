"""From plain scheme values and data files to the things that the place knows."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from racewright.errors import InputError, NoAnswerError
from racewright.ledger.convert import Keys, duct_of
from racewright.ledger.node import Given
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.place.placement import Placement
from racewright.place.rating import Rating
from racewright.place.rating_fit import RatingFit, rating
from racewright.place.reach import Reach
from racewright.place.season import Closure, Season
from racewright.place.spot import SpotSpeed, spot_at
from racewright.place.transect import Transect
from racewright.records.csv_form import CsvForm
from racewright.records.table_csv import read_columns

NO_DUCT_RADIUS = 0.5
"""Radius taken for cover, clearance and capture while the case has no machine [m]."""

REACH_KEYS = (
    "place.rating",
    "place.transect",
    "place.profile_exponent",
    "place.speed_factor",
    "case.across",
    "case.hub_depth",
    "case.hub_height",
    "machine.duct",
)
"""Role paths that `reach_of` reads, besides the transect's file and the node 'rating'."""


def outer_radius(duct: Duct) -> float:
    """Largest radius of the duct [m]."""
    _x, r = duct_contour(duct, 60)
    return float(r.max())


def form_of(table: Any) -> CsvForm:
    """How a text file is written."""
    return CsvForm(table["delimiter"], table["decimal"], table["encoding"], table.get("order", "rising"))


def transect_of(table: Any, path: Path) -> Transect:
    """The transect in its file; faults of the data name the file."""
    distance, bed, unit = table["distance_column"], table["bed_column"], table["unit"]
    columns = read_columns(path, {distance: unit, bed: unit}, str(path), form_of(table))
    try:
        return Transect(columns[distance], columns[bed])
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def fit_of(table: Any, path: Path) -> RatingFit:
    """A rating fitted to the gaugings in a file; faults name the file."""
    level, discharge = table["level_column"], table["discharge_column"]
    columns = read_columns(
        path, {level: table["level_unit"], discharge: table["discharge_unit"]}, str(path), form_of(table)
    )
    try:
        return rating(columns[level], columns[discharge], zero_level=table["zero_level"])
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None
    except NoAnswerError as fault:
        raise NoAnswerError(f"{path.name}: {fault}") from None


def rating_of(keys: Keys, fit: RatingFit | None) -> Rating:
    """The rating as fitted, else as stated."""
    if fit is not None:
        return fit.rating
    stated = keys["place.rating"]
    return Rating(stated["coefficient"], stated["zero_level"], stated["exponent"])


def reach_of(given: Given) -> Reach:
    """The rated transect with the machine in it."""
    keys = given.keys
    duct = duct_of(keys) if keys["machine.duct"] else None
    placement = Placement(
        keys["case.across"],
        outer_radius(duct) if duct else NO_DUCT_RADIUS,
        duct.throat_radius if duct else NO_DUCT_RADIUS,
        keys["case.hub_depth"],
        keys["case.hub_height"],
    )
    transect = transect_of(keys["place.transect"], given.files["place.transect.file"])
    fitted = rating_of(keys, given.nodes["rating"])
    return Reach(fitted, transect, placement, keys["place.profile_exponent"], keys["place.speed_factor"])


def season_of(table: Any) -> Season | None:
    """When the machine is out; None when nothing keeps it out. Causes in order of their names."""
    limits = [table[key] for key in ("least_depth", "least_speed", "greatest_speed")]
    if not table["closed"] and all(limit is None for limit in limits):
        return None
    spans = sorted(table["closed"].items())
    return Season(tuple(Closure(said(name), _day(s["first"]), _day(s["last"])) for name, s in spans), *limits)


def spots_of(tables: Any) -> tuple[SpotSpeed, ...]:
    """Spot speeds in order of their names; the day stands for its noon in UTC."""
    found = []
    for _name, spot in sorted(tables.items()):
        noon = datetime.fromisoformat(spot["date"]).replace(hour=12, tzinfo=UTC)
        found.append(spot_at(int(noon.timestamp()), spot["speed"], spot["flow"]))
    return tuple(found)


def said(name: str) -> str:
    """A table's name as words."""
    return name.replace("_", " ")


def _day(text: str) -> tuple[int, int]:
    month, day = text.split("-")
    return int(month), int(day)
