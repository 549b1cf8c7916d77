"""Scheme tables of the place."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.types import Table, choice, flag, name, quantity, ratio, text


class TextFile(Table):
    """How a text file is written."""

    delimiter: str = choice(
        ("auto", ",", ";", "tab"), "what parts the cells", default="auto", because="told by header"
    )
    decimal: str = choice(("point", "comma"), "mark of decimals", default="point", because="as in the example")
    encoding: str = choice(
        ("utf-8", "latin-1", "cp1252", "utf-16"), "encoding of the text", default="utf-8", because="as in the example"
    )


class RecordTable(TextFile):
    """What was recorded: discharge or speed over time, or a histogram of speed."""

    file: str = name("CSV or Parquet file beside the scheme")
    kind: str = choice(("discharge", "speed", "histogram"), "what the record holds")
    time_column: str = name("column of dates or times", default="date", because="as in the example")
    value_column: str = name("column of values", default="value", because="as in the example")
    from_column: str = name("histogram: column of lower edges", default="speed_from", because="as in the example")
    to_column: str = name("histogram: column of upper edges", default="speed_to", because="as in the example")
    unit: str = name("unit of the values, like 'm3/s', 'ft3/s' or 'm/s'")
    zone: str = name(
        "zone of the time stamps: 'UTC' or an offset like '+05:45'", default="UTC", because="taken as UTC"
    )
    order: str = choice(
        ("rising", "any"),
        "'rising' refuses stamps that repeat or go back; 'any' sorts them and keeps one of two equal rows",
        default="rising",
        because="a record in disorder is usually a fault",
    )
    source: str = text("where the record comes from")
    invented: bool = flag("true for a made-up record; page one then says so", default=False, because="taken as real")


class RatingTable(Table):
    """Rating curve: discharge = coefficient x (level - zero_level)^exponent, in m3/s and m."""

    coefficient: float = ratio(1e-3, 1e6, "discharge in m3/s at a level 1 m above the zero level")
    zero_level: float = quantity("length", "-1000 m", "9000 m", "level at which discharge is zero")
    exponent: float = ratio(0.5, 5.0, "exponent b, usually 1.3 to 2.5")
    source: str = text("where the rating comes from")


class TransectTable(TextFile):
    """Bed level across the river at the machine."""

    file: str = name("CSV file beside the scheme")
    distance_column: str = name("column of distances", default="distance_m", because="as in the example")
    bed_column: str = name("column of bed levels", default="bed_level_m", because="as in the example")
    unit: str = name("unit of both columns", default="m", because="SI")
    source: str = text("where the transect comes from")


class WaterTable(Table):
    """The water itself."""

    kind: str = choice(("fresh", "sea"), "fresh or sea water", default="fresh", because="a river")
    temperature: float = quantity(
        "temperature",
        "0 degC",
        "40 degC",
        "mean temperature",
        default="12 degC",
        because="common practice, no source",
    )


class PlaceTable(Table):
    """A reach of a river, or a point in a stream."""

    description: str = text("the place in a sentence")
    invented: bool = flag("true for a made-up reach; page one then says so", default=False, because="taken as real")
    record: RecordTable = Field(description="what was recorded")
    rating: RatingTable | None = Field(None, description="discharge to level; needed with a discharge record")
    transect: TransectTable | None = Field(None, description="bed across the river; needed with a discharge record")
    water: WaterTable = Field(default_factory=WaterTable, description="kind and temperature")
    profile_exponent: float = ratio(
        2.0,
        20.0,
        "n of the vertical profile: speed grows as (height above bed)^(1/n)",
        default=6.0,
        because="1/6 law fits 47 measured river, canal and flume profiles (Neary, Gunawan & Sale 2013)",
    )
    speed_factor: float | None = ratio(
        0.2,
        3.0,
        "measured depth-mean speed at the machine's vertical over the transect's mean speed",
        default=None,
        because="computed from local depth for uniform slope and roughness",
    )
    depth: float | None = quantity(
        "length", "0.1 m", "500 m", "depth at the machine, where there is no transect", default=None
    )
