"""What the water does at a place: records, rating, transect, profile, speed climate."""

from racewright.place.duration import duration_curve, quantile
from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed

__all__ = [
    "duration_curve",
    "quantile",
    "site_from_discharge",
    "site_from_histogram",
    "site_from_speed",
]
