"""The place's nodes: gaugings, spot speeds and a record to a site, and how well its speed is known."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.ledger.convert import duct_of
from racewright.ledger.node import Given, Node
from racewright.ledger.place_inputs import (
    REACH_KEYS,
    fit_of,
    form_of,
    outer_radius,
    reach_of,
    season_of,
    spots_of,
    transect_of,
)
from racewright.ledger.tide_inputs import tidal_site_of, tide_of, tide_record_of
from racewright.place.climate import histogram_edges
from racewright.place.rating import level_at
from racewright.place.rating_band import RatingBand, rating_band, rating_error
from racewright.place.rating_fit import RatingFit
from racewright.place.reach import flow_at
from racewright.place.result import DurationCurve, Series, Site
from racewright.place.shape import WeibullShape
from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed
from racewright.place.speed_uncertainty import RiverErrors, SpeedCause, river_causes
from racewright.place.spot import SpotClimate, site_from_spots, spot_climate
from racewright.place.tide_doubt import tide_causes
from racewright.place.tide_result import Tide
from racewright.place.tide_site import TidalSite
from racewright.place.tide_trace import TideTrace, tide_trace
from racewright.records.series import read_any_series
from racewright.records.table_csv import read_columns
from racewright.tick import Tick

RATING_POINTS = 81
"""Levels at which the rating's band is kept."""


def _rating(given: Given, _tick: Tick) -> RatingFit | None:
    """None where the rating is stated, or there is none."""
    table = given.keys["place.gaugings"]
    return None if table is None else fit_of(table, given.files["place.gaugings.file"])


def _rating_band(given: Given, _tick: Tick) -> RatingBand | None:
    """From the lowest to the highest level gauged or recorded; None without gaugings."""
    fit: RatingFit | None = given.nodes["rating"]
    if fit is None:
        return None
    curve = given.nodes["site"].discharge_curve
    flowing = curve.value[curve.value > 0.0] if curve is not None else np.empty(0)
    levels = np.concatenate([fit.level, level_at(fit.rating, flowing)])
    return rating_band(fit, np.linspace(levels.min(), levels.max(), RATING_POINTS))


def _spots(given: Given, _tick: Tick) -> SpotClimate | None:
    """None where the place has a record."""
    spots = spots_of(given.keys["place.spot"])
    return spot_climate(spots, WeibullShape(given.keys["place.spot_shape"])) if spots else None


def _tide(given: Given, _tick: Tick) -> Tide | None:
    """None where the place has no tidal record."""
    table = given.keys["place.tide"]
    if table is None:
        return None
    return tide_of(table, tide_record_of(table, given.files["place.tide.file"]))


def _tidal_site(given: Given, tick: Tick) -> TidalSite | None:
    """What a machine that turns with the tide meets; None where the place has no tidal record."""
    keys, tide = given.keys, given.nodes["tide"]
    if tide is None:
        return None
    return tidal_site_of(
        keys["place.tide"],
        tide,
        cut_in_speed=keys["machine.drive.cut_in_speed"],
        season=season_of(keys["place.season"]),
        **_fit(keys),
        tick=tick,
    )


def _tide_trace(given: Given, _tick: Tick) -> TideTrace | None:
    """None where the place has no tide, or its constants come from a table."""
    table, tide, site = given.keys["place.tide"], given.nodes["tide"], given.nodes["tidal_site"]
    if tide is None or site is None:
        return None
    return tide_trace(tide, tide_record_of(table, given.files["place.tide.file"]), site.axis)


def _fit(keys: Any) -> dict[str, Any]:
    """Depth of the water, of the axis, and the duct's outer radius [m], where they are known."""
    depth, axis = keys["place.depth"], keys["case.hub_depth"]
    if axis is None and keys["case.hub_height"] is not None and depth is not None:
        axis = depth - keys["case.hub_height"]
    outer = outer_radius(duct_of(keys)) if keys["machine.duct"] else None
    return {"depth": depth, "hub_depth": axis, "outer_radius": outer}


def _site(given: Given, _tick: Tick) -> Site:
    keys = given.keys
    tidal: TidalSite | None = given.nodes["tidal_site"]
    if tidal is not None:
        return tidal.site
    record, season = keys["place.record"], season_of(keys["place.season"])
    fit = _fit(keys)
    spots: SpotClimate | None = given.nodes["spots"]
    if spots is not None or record["kind"] == "histogram":
        if season is not None:
            what = "spot speeds have" if spots is not None else "a histogram has"
            message = f"{what} no dates, so no time can be taken out; leave the season away, or give a record"
            raise InputError(message, key="season")
        if spots is not None:
            return site_from_spots(spots, **fit)
        return _histogram_site(record, given.files["place.record.file"], fit)
    path = given.files["place.record.file"]
    if record["kind"] == "discharge":
        return _discharge_site(given, record, path)
    if season is not None and season.least_depth is not None:
        message = "a record of speed does not say how deep the water was; give least_speed instead"
        raise InputError(message, key="season.least_depth")
    return site_from_speed(_series(record, path, "speed"), season=season, **fit)


def _histogram_site(record: Any, path: Path, fit: Any) -> Site:
    columns = {
        record["from_column"]: record["unit"],
        record["to_column"]: record["unit"],
        record["value_column"]: "1",
    }
    found = read_columns(path, columns, str(path), form_of(record))
    try:
        edge = histogram_edges(found[record["from_column"]], found[record["to_column"]])
        return site_from_histogram(edge, found[record["value_column"]], **fit)
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def _discharge_site(given: Given, record: Any, path: Path) -> Site:
    reach = reach_of(given)
    fit: RatingFit | None = given.nodes["rating"]
    return site_from_discharge(
        _series(record, path, "discharge"),
        reach.rating,
        reach.transect,
        reach.placement.position,
        hub_depth=reach.placement.hub_depth,
        hub_height=reach.placement.hub_height,
        outer_radius=reach.placement.outer_radius,
        capture_radius=reach.placement.capture_radius,
        profile_n=reach.profile_n,
        speed_factor=reach.speed_factor,
        season=season_of(given.keys["place.season"]),
        gauged=None if fit is None else (float(fit.discharge.min()), float(fit.discharge.max())),
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
        form=form_of(record),
    )


def _speed_causes(given: Given, _tick: Tick) -> tuple[SpeedCause, ...]:
    """What the speed at the machine is unsure by; empty where no water ever passes the machine."""
    doubt, spots = given.keys["place.doubt"], given.nodes["spots"]
    if given.nodes["tide"] is not None:
        table = given.keys["place.tide"]
        return tide_causes(given.nodes["tide"], instrument=table["instrument"], factor=table["factor_doubt"])
    if spots is not None:
        return (SpeedCause("spot speeds and their shape", spots.relative_standard, 1.0),)
    kind = given.keys["place.record.kind"]
    if kind != "discharge":
        return (SpeedCause(f"{'record' if kind == 'speed' else 'histogram'} of speed", doubt["speed"], 1.0),)
    reach, curve = reach_of(given), given.nodes["site"].discharge_curve
    if not _moves(curve, flow_at(reach, curve.value).speed):
        return ()
    fit: RatingFit | None = given.nodes["rating"]
    errors = RiverErrors(
        discharge=doubt["discharge"],
        rating=doubt["rating"] if fit is None else min(1.0, rating_error(fit, curve)),
        area=doubt["area"],
        speed_factor=doubt["speed_factor"],
        profile=doubt["profile"],
    )
    return river_causes(reach, curve, errors)


def _moves(curve: DurationCurve, speed: Any) -> bool:
    return bool(np.count_nonzero(curve.value > 0.0) >= 2 and (speed > 0.0).any())


def _bed(given: Given, _tick: Tick) -> tuple[tuple[float, float], ...]:
    """(distance across, bed level) of the transect [m]."""
    if given.keys["place.transect"] is None:
        return ()
    transect = transect_of(given.keys["place.transect"], given.files["place.transect.file"])
    return tuple(zip(transect.distance.tolist(), transect.bed_level.tolist(), strict=True))


PLACE_NODES = (
    Node("rating", 1, _rating, keys=("place.gaugings",), files=("place.gaugings.file",), needs=("place",)),
    Node("spots", 1, _spots, keys=("place.spot", "place.spot_shape"), needs=("place",)),
    Node("tide", 1, _tide, keys=("place.tide",), files=("place.tide.file",), needs=("place",)),
    Node(
        "tide_trace",
        1,
        _tide_trace,
        keys=("place.tide",),
        files=("place.tide.file",),
        nodes=("tide", "tidal_site"),
        needs=("place",),
    ),
    Node(
        "tidal_site",
        2,
        _tidal_site,
        keys=(
            "place.tide",
            "place.season",
            "place.depth",
            "machine.duct",
            "machine.drive.cut_in_speed",
            "case.hub_depth",
            "case.hub_height",
        ),
        nodes=("tide",),
        needs=("place",),
    ),
    Node(
        "site",
        6,
        _site,
        keys=("place.record", *REACH_KEYS, "place.depth", "place.season"),
        files=("place.record.file", "place.transect.file"),
        nodes=("rating", "spots", "tidal_site"),
        needs=("place",),
    ),
    Node("rating_band", 1, _rating_band, nodes=("rating", "site"), needs=("place",)),
    Node(
        "speed_causes",
        1,
        _speed_causes,
        keys=("place.record.kind", "place.tide", *REACH_KEYS, "place.doubt"),
        files=("place.transect.file",),
        nodes=("rating", "spots", "site", "tide"),
        needs=("place",),
    ),
    Node("bed", 1, _bed, keys=("place.transect",), files=("place.transect.file",), needs=("place",)),
)
