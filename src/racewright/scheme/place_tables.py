"""Scheme tables of the place."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.text_file_table import TextFile
from racewright.scheme.tide_tables import TideTable
from racewright.scheme.types import Table, choice, flag, name, quantity, ratio, text


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


class GaugingsTable(TextFile):
    """Gaugings that the rating is fitted to."""

    file: str = name("CSV file beside the scheme")
    level_column: str = name("column of levels", default="level_m", because="as in the guide")
    discharge_column: str = name("column of discharges", default="discharge_m3s", because="as in the guide")
    level_unit: str = name("unit of the levels", default="m", because="SI")
    discharge_unit: str = name("unit of the discharges", default="m3/s", because="SI")
    zero_level: float | None = quantity(
        "length", "-1000 m", "9000 m", "level at which discharge is zero; fitted as well if left out", default=None
    )
    source: str = text("where the gaugings come from")


class SpotTable(Table):
    """One measured speed at the machine's place, over its capture area."""

    date: str = name("day of the measurement, like '2025-06-14'")
    speed: float = quantity("speed", "0.01 m/s", "15 m/s", "cube mean over the capture area")
    flow: str = choice(("low", "middle", "high"), "how the river flowed that day")
    source: str = text("who measured it and how")


class ClosureTable(Table):
    """A span of every year with the machine out; it may run over the new year."""

    first: str = name("first day out, month and day like '12-01'")
    last: str = name("last day out, like '03-31'")


class SeasonTable(Table):
    """When the machine is out."""

    closed: dict[str, ClosureTable] = Field(default_factory=dict, description="spans by cause, such as ice")
    least_depth: float | None = quantity(
        "length", "0 m", "1000 m", "out while the water at the machine is shallower", default=None
    )
    least_speed: float | None = quantity("speed", "0 m/s", "20 m/s", "out in slower water", default=None)
    greatest_speed: float | None = quantity("speed", "0 m/s", "20 m/s", "out in faster water", default=None)


class DoubtTable(Table):
    """Relative standard uncertainties of what the speed is built on."""

    discharge: float = ratio(
        0.0,
        1.0,
        "of the record, transfer from another gauge included",
        default=0.05,
        because="common practice, no source",
    )
    rating: float = ratio(
        0.0, 1.0, "of the rating where it was not fitted here", default=0.10, because="common practice, no source"
    )
    area: float = ratio(
        0.0, 1.0, "of the wetted area, survey and scour", default=0.05, because="common practice, no source"
    )
    speed_factor: float | None = ratio(
        0.0,
        1.0,
        "of the speed at the place over the transect's mean",
        default=None,
        because="0.05 where measured, 0.20 where estimated from depth",
    )
    profile: float = ratio(
        0.0, 1.0, "of n in the vertical profile", default=0.25, because="fitted rivers scatter about 6; own rule"
    )
    speed: float = ratio(
        0.0, 1.0, "of a record or histogram of speed", default=0.05, because="common practice, no source"
    )


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
    record: RecordTable | None = Field(None, description="what was recorded; or give spot speeds or a tide")
    tide: TideTable | None = Field(None, description="a tidal record, in place of a record")
    spot: dict[str, SpotTable] = Field(
        default_factory=dict, description="spot speeds, where there is no record; an estimate with a wide band"
    )
    spot_shape: float = ratio(
        1.0,
        12.0,
        "shape of the speed distribution about spot speeds: 2 very uneven, 4 and more an even river",
        default=3.0,
        because="common practice, no source",
    )
    gaugings: GaugingsTable | None = Field(
        None, description="gaugings that the rating is fitted to, instead of a rating"
    )
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
    turbulence: float = ratio(
        0.0,
        0.5,
        "root-mean-square fluctuation over mean speed",
        default=0.1,
        because="rivers have 8 to 15 %, common practice",
    )
    season: SeasonTable = Field(default_factory=SeasonTable, description="when the machine is out")
    doubt: DoubtTable = Field(default_factory=DoubtTable, description="uncertainties of the speed")
