"""The place as commands print it: every answer, without its record."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.ledger.findings import PlaceFindings
from racewright.place.rating_band import RatingBand
from racewright.place.rating_fit import RatingFit
from racewright.place.result import OutageShare, SpeedClimate, Standing
from racewright.place.speed_uncertainty import SpeedCause
from racewright.place.spot import SpotClimate


@dataclass(frozen=True)
class RatingSummary:
    """The fitted rating with its gaugings.

    Attributes
    ----------
    coefficient : float
        Discharge one metre above the zero level [m3/s].
    zero_level : float
        Level of zero flow above the transect's datum [m].
    exponent : float
        b of discharge = coefficient x (level - zero level)^b [-].
    zero_level_given : bool
        True where the zero level was stated, not fitted.
    coefficient_error : float
        Standard error over the coefficient [-].
    zero_level_error : float
        Standard error; 0 where it was stated [m].
    exponent_error : float
        Standard error [-].
    standard_error : float
        Of the fit, about a relative figure [-].
    degrees : int
        Degrees of freedom [-].
    level : ndarray, shape (n,)
        Levels gauged [m].
    discharge : ndarray, shape (n,)
        Discharges gauged [m3/s].
    residual : ndarray, shape (n,)
        ln(gauged discharge / rating) [-].
    outlier : ndarray of bool, shape (n,)
        Flagged, never removed.
    band : RatingBand
        From the lowest to the highest level gauged or recorded.
    """

    coefficient: float
    zero_level: float
    exponent: float
    zero_level_given: bool
    coefficient_error: float
    zero_level_error: float
    exponent_error: float
    standard_error: float
    degrees: int
    level: NDArray[np.float64]
    discharge: NDArray[np.float64]
    residual: NDArray[np.float64]
    outlier: NDArray[np.bool_]
    band: RatingBand


@dataclass(frozen=True)
class SpotSummary:
    """The estimate from spot speeds.

    Attributes
    ----------
    median_speed : float
        Speed reached or passed half of the time, by estimate [m/s].
    relative_standard : float
        Relative standard uncertainty of every speed [-].
    low_factor, high_factor : float
        Multiply every speed by them for a band of about 95 % [-].
    residual : ndarray, shape (n,)
        ln(spot speed / estimate) of each spot [-].
    basis : str
        Where the shape comes from.
    """

    median_speed: float
    relative_standard: float
    low_factor: float
    high_factor: float
    residual: NDArray[np.float64]
    basis: str


@dataclass(frozen=True)
class PlaceSummary:
    """The place, without its record.

    Attributes
    ----------
    rating : RatingSummary or None
        The rating fitted to gaugings; null where it is stated, or there is none.
    spots : SpotSummary or None
        The estimate from spot speeds; null where the place has a record.
    speed_causes : tuple of SpeedCause
        What the speed at the machine is unsure by.
    outages : tuple of OutageShare
        Time that the season keeps the machine out; empty without one.
    """

    name: str
    years: float
    values: int
    hub_depth: float
    climate: SpeedClimate
    standings: tuple[Standing, ...]
    rating: RatingSummary | None
    spots: SpotSummary | None
    speed_causes: tuple[SpeedCause, ...]
    outages: tuple[OutageShare, ...]


def place_summary(place: PlaceFindings) -> PlaceSummary:
    """What is printed of a place."""
    site, spots = place.site, place.spots
    rating = None
    if place.rating is not None and place.rating_band is not None:
        rating = _rating(place.rating, place.rating_band)
    return PlaceSummary(
        place.name,
        site.years,
        site.values,
        place.hub_depth,
        site.climate,
        site.standings,
        rating,
        None if spots is None else _spots(spots),
        place.speed_causes,
        site.outages,
    )


def _rating(fit: RatingFit, band: RatingBand) -> RatingSummary:
    return RatingSummary(
        fit.rating.coefficient,
        fit.rating.zero_level,
        fit.rating.exponent,
        fit.zero_level_given,
        fit.coefficient_error,
        fit.zero_level_error,
        fit.exponent_error,
        fit.standard_error,
        fit.degrees,
        fit.level,
        fit.discharge,
        fit.residual,
        fit.outlier,
        band,
    )


def _spots(spots: SpotClimate) -> SpotSummary:
    return SpotSummary(
        spots.median_speed,
        spots.relative_standard,
        spots.low_factor,
        spots.high_factor,
        spots.residual,
        spots.basis,
    )
