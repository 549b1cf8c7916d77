"""Scheme table of a tidal record, from which the stream of every year is predicted."""

from __future__ import annotations

from racewright.scheme.text_file_table import TextFile
from racewright.scheme.types import choice, flag, name, quantity, ratio, text, whole


class TideTable(TextFile):
    """Speeds, or levels, recorded for weeks or months; their tide is found and predicted on."""

    file: str = name("CSV file beside the scheme")
    kind: str = choice(("level", "along", "east north", "speed direction"), "what the columns hold")
    time_column: str = name("column of stamps", default="time", because="as in the example")
    value_column: str = name("column of level, speed along the channel, or speed", default="value", because="usual")
    east_column: str = name("column of speed to the east", default="east_m_s", because="as in the example")
    north_column: str = name("column of speed to the north", default="north_m_s", because="as in the example")
    direction_column: str = name(
        "column of the direction it runs to, degrees from true north", default="direction_deg", because="usual"
    )
    unit: str = name("unit of level or speed, like 'm/s'")
    zone: str = name("zone of stamps that have none", default="UTC", because="taken as UTC")
    latitude: float = quantity("angle", "-90 deg", "90 deg", "of the place, north positive")
    flood_direction: float | None = quantity(
        "angle", "0 deg", "360 deg", "that the flood runs to, from true north; needed with two columns", default=None
    )
    constituents: str = text(
        "names of constituents parted by blanks; those that the record's length tells if left out"
    )
    infer: bool = flag("constituents too close to be told apart are inferred", default=True, because="short records")
    method: str = choice(
        ("least squares", "robust"), "how they are found", default="least squares", because="a clean record"
    )
    first_year: int | None = whole(1950, 2100, "first year of the prediction; the one after the record", default=None)
    period: str = choice(
        ("year", "nodal cycle"), "how long it is predicted", default="nodal cycle", because="18.6 years even out"
    )
    speed_factor: float = ratio(
        0.05, 5.0, "speed at the machine over that recorded", default=1.0, because="same place"
    )
    factor_doubt: float | None = ratio(
        0.0, 1.0, "relative standard uncertainty of that factor; 0.10 if left out", default=None
    )
    instrument: float = ratio(
        0.0,
        1.0,
        "relative standard uncertainty of the recorded speed",
        default=0.02,
        because="common practice, no source",
    )
    slack_speed: float = quantity(
        "speed",
        "0.05 m/s",
        "3 m/s",
        "below it the water counts as slack",
        default="0.5 m/s",
        because="common practice",
    )
    turning: str | None = choice(
        ("swings", "half turn", "fixed"), "what a one-way machine does when the tide turns; refused if left out",
        default=None,
    )  # fmt: skip
    faces: str | None = choice(("flood", "ebb"), "which way a fixed machine faces", default=None)
    swing_speed: float = quantity(
        "speed",
        "0 m/s",
        "2 m/s",
        "of the water above which it has swung round",
        default="0.4 m/s",
        because="own choice",
    )
    turning_time: float = quantity("time", "0 s", "3 h", "lost at each turn", default="15 min", because="own choice")
    source: str = text("who measured, with what")
    invented: bool = flag("true for a made-up record", default=False, because="taken as measured")
