"""What the water does at a place: records, rating, transect, profile, speed climate."""

from racewright.place.discharge import discharge
from racewright.place.duration import duration_curve, quantile
from racewright.place.rating_fit import rating
from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed

__all__ = [
    "discharge",
    "duration_curve",
    "quantile",
    "rating",
    "site_from_discharge",
    "site_from_histogram",
    "site_from_speed",
]
