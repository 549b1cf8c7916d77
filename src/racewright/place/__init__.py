"""What the water does at a place: records, rating, transect, profile, speed climate, tide, channel."""

from racewright.place.channel import channel_potential
from racewright.place.discharge import discharge
from racewright.place.duration import duration_curve, quantile
from racewright.place.rating_fit import rating
from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed
from racewright.place.tide import tide
from racewright.place.tide_predict import predict
from racewright.place.tide_record import tide_record
from racewright.place.tide_site import site_from_tide
from racewright.place.tide_table import tide_from_table

__all__ = [
    "channel_potential",
    "discharge",
    "duration_curve",
    "predict",
    "quantile",
    "rating",
    "site_from_discharge",
    "site_from_histogram",
    "site_from_speed",
    "site_from_tide",
    "tide",
    "tide_from_table",
    "tide_record",
]
