"""Scheme tables of channel trials: the rig, the logger, its channels, the runs, and debris that was let go.

What a channel's table says of readings stands in the unit of the logger, as its files have it: plain numbers.
"""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.text_file_table import TextFile
from racewright.scheme.types import Table, choice, flag, name, numbers, quantity, ratio, text, whole

MEASURES = ("speed", "torque", "rotor_speed", "thrust", "level", "temperature", "other")
"""What a channel may measure."""
_OWN = "own choice, see the guide"


class RigTable(Table):
    """The channel and how the model hangs in it; the model itself is the case's machine."""

    width: float = quantity("length", "0.1 m", "100 m", "of the channel")
    depth: float = quantity("length", "0.1 m", "50 m", "of the water, where no channel measures it")
    axis_height: float = quantity("length", "0.02 m", "50 m", "of the model's axis above the floor")
    surface: str = choice(("free", "lid"), "a free water surface, or a closed lid above the water")
    water: str = choice(("fresh", "sea"), "kind of water", default="fresh", because="most channels")
    temperature: float = quantity(
        "temperature", "0 degC", "40 degC", "of the water, where no channel measures it", default="15 degC",
        because="taken when nothing is said",
    )  # fmt: skip
    air_pressure: float = quantity(
        "pressure", "50 kPa", "110 kPa", "above the water", default="101.325 kPa", because="standard atmosphere"
    )
    gravity: float = quantity(
        "acceleration", "9.7 m/s2", "9.9 m/s2", "where the channel is", default="9.80665 m/s2", because="standard"
    )
    thrust_on: str = choice(
        ("rotor", "whole machine"),
        "what the thrust balance carries; the frame in the water must be tared off",
        default="whole machine",
        because="the model hangs from one balance",
    )
    radius_error: float | None = ratio(
        0.0, 0.1, "relative standard uncertainty of the rotor's radius; said to be missing if left out", default=None
    )
    density_error: float = ratio(
        0.0, 0.05, "relative standard uncertainty of the water's density", default=0.0002, because="clean tap water"
    )


class LoggerTable(TextFile):
    """How the logger's files are written; delimiter, decimal and encoding are of no meaning for Parquet and TDMS."""

    rate: float = quantity("frequency", "0.1 Hz", "100 kHz", "rows a second")
    clock: str = choice(
        ("seconds", "stamps", "rate"),
        "what the time column holds: seconds, ISO 8601 stamps; or 'rate' where there is none",
        default="seconds",
        because="as in the example",
    )
    time_column: str = name("column of times", default="time", because="as in the example")
    zone: str = name("zone of stamps that have none: 'UTC' or like '+05:45'", default="UTC", because="taken as UTC")


class PointsTable(TextFile):
    """Calibration points, one line a point."""

    file: str = name("CSV file beside the scheme")
    raw_column: str = name("column of logger readings", default="raw", because="as in the guide")
    value_column: str = name("column of reference values", default="value", because="as in the guide")
    value_unit: str = name("unit of the reference values")
    degree: int = whole(1, 5, "of the polynomial", default=1, because="a straight line")


class CalibrationTable(Table):
    """From the logger's unit to SI: a polynomial, or points to fit one to. Levels are depths, degrees kelvin."""

    coefficients: tuple[float, ...] | None = numbers(8, "SI value = c0 + c1 raw + c2 raw^2 ...")
    covariance: tuple[float, ...] | None = numbers(64, "of the coefficients, row by row; a missing one is said")
    degrees_of_freedom: float | None = ratio(1.0, 1e9, "of that covariance; infinite if left out", default=None)
    lowest: float | None = ratio(-1e12, 1e12, "least reading that the calibration covered", default=None)
    highest: float | None = ratio(-1e12, 1e12, "greatest reading that the calibration covered", default=None)
    points: PointsTable | None = Field(default=None, description="points to fit the polynomial to")
    reference: float | None = ratio(
        0.0, 0.5, "relative standard uncertainty of the reference standard; said to be missing if left out",
        default=None,
    )  # fmt: skip
    source: str = text("certificate, date, who calibrated")


class ChannelTable(Table):
    """One channel of the logger."""

    column: str = name("column of the logger's files")
    measures: str = choice(MEASURES, "what it measures")
    unit: str = name("unit as logged, like 'mV'; the file's own row of units must agree")
    rate: float | None = quantity(
        "frequency", "0.01 Hz", "100 kHz", "readings a second; the logger's rate if left out", default=None
    )
    calibration: CalibrationTable = Field(description="from the logger's unit to SI")
    sensor: str = text("part number of the sensor")
    lowest: float = ratio(-1e12, 1e12, "at or below it is out of range", default=-1e12, because="no limit")
    highest: float = ratio(-1e12, 1e12, "at or above it is out of range", default=1e12, because="no limit")
    stuck: int = whole(0, 100000, "so many equal readings in a row are stuck; 0: not tested", default=0, because=_OWN)
    spike_factor: float = ratio(
        0.0, 1000.0, "a spike is further than this many robust deviations off; 0: not tested", default=8.0,
        because=_OWN,
    )  # fmt: skip
    step: float = ratio(0.0, 1e12, "of the converter; six of it are the least spike", default=0.0, because="no steps")
    tared: bool = flag("the zero is subtracted, linear between tares", default=False, because="no zero taken")
    zero_wander: float = ratio(
        0.0, 1e12, "standard deviation of the zero's walk after an hour", default=0.0, because="a zero that stays"
    )
    noise: float = ratio(
        0.0, 1e12, "standard deviation of the sensor's own white noise", default=0.0, because="a quiet sensor"
    )
    weight: float = ratio(
        0.0, 1e6, "speed: part of the capture area that the probe stands for", default=1.0, because="equal parts"
    )


class SpanTable(Table):
    """A stretch of a run, counted from the run's first row."""

    start: float = quantity("time", "0 s", "30 d", "begin")
    end: float = quantity("time", "0 s", "30 d", "end")


class RunTable(Table):
    """One logger file, or a stretch of one that holds several runs."""

    file: str = name("CSV, Parquet or TDMS file beside the scheme")
    begin: float | None = quantity(
        "time", "0 s", "365 d", "first row of the run, after the file's first", default=None
    )
    end: float | None = quantity(
        "time", "0 s", "365 d", "the run ends before this, after the file's first", default=None
    )
    tares: dict[str, SpanTable] = Field(default_factory=dict, description="still water, rotor standing, by name")
    one_load: bool = flag(
        "one load from tare to tare: the run is searched for fouling", default=False, because="several loads"
    )
    cleaned: float | None = quantity("time", "0 s", "30 d", "when the machine was cleaned", default=None)
    width: float | None = quantity(
        "length", "0.1 m", "100 m", "of the channel, where this run had another", default=None
    )
    depth: float | None = quantity(
        "length", "0.1 m", "50 m", "of the water, where this run had another", default=None
    )
    source: str = text("parts that were mounted, who measured, remarks")


class ReductionTable(Table):
    """Thresholds of the reduction."""

    window: float = quantity("time", "12 s", "1 h", "length of a steady window", default="60 s", because=_OWN)
    cell: float = quantity("time", "0.01 s", "10 s", "time step of the series", default="0.5 s", because=_OWN)
    hop: float = ratio(0.01, 1.0, "search moves on by this part of a window", default=0.25, because=_OWN)
    speed_drift: float = ratio(0.0001, 1.0, "largest change of stream speed", default=0.02, because=_OWN)
    rotor_drift: float = ratio(0.0001, 1.0, "largest change of rotor speed", default=0.01, because=_OWN)
    torque_drift: float = ratio(0.0001, 1.0, "largest change of torque", default=0.05, because=_OWN)
    speed_scatter: float = ratio(0.0001, 2.0, "largest deviation of the cells' speed", default=0.20, because=_OWN)
    rotor_scatter: float = ratio(0.0001, 2.0, "largest deviation of rotor speed", default=0.02, because=_OWN)
    torque_scatter: float = ratio(0.0001, 5.0, "largest deviation of torque", default=0.30, because=_OWN)
    halves: float = ratio(1.0, 100.0, "largest ratio of the halves' variances", default=4.0, because=_OWN)
    flagged: float = ratio(0.0001, 1.0, "largest share of flagged readings", default=0.05, because=_OWN)
    follows_least: float = ratio(
        0.0, 1.0, "least share of the probe's turbulence that the machine follows", default=0.0, because="unknown"
    )
    follows_most: float = ratio(
        0.0, 1.0, "greatest share of the probe's turbulence that the machine follows", default=1.0, because="unknown"
    )
    confidence: float = ratio(0.5, 0.999, "of the intervals", default=0.95, because="usual")


class DoseTable(Table):
    """Known pieces that were let go upstream; tell nothing alive to swim through."""

    kind: str = name("like 'stick', 'leaf', 'weed', 'nut'")
    length: float = quantity("length", "0.1 mm", "20 m", "largest size of a piece")
    width: float = quantity("length", "0.1 mm", "20 m", "middle size")
    thickness: float = quantity("length", "0.01 mm", "20 m", "smallest size")
    wet_density: float = quantity("density", "20 kg/m3", "19000 kg/m3", "after soaking")
    count: int = whole(1, 100000, "pieces let go")
    upstream: float = quantity("length", "1 cm", "100 m", "ahead of the duct's lip")
    off_axis: float = quantity(
        "length", "-20 m", "20 m", "sideways from the axis", default="0 m", because="on the axis"
    )
    below_surface: float = quantity(
        "length", "0 m", "50 m", "down from the surface", default="0 m", because="at the surface"
    )
    source: str = text("where and when")


class PiecesTable(TextFile):
    """What became of the pieces, one line a piece."""

    file: str = name("CSV file beside the scheme")
    dose_column: str = name("column of the dose's name", default="dose", because="as in the guide")
    outcome_column: str = name("column of outcomes", default="outcome", because="as in the guide")
    where_column: str = name("column of places", default="where", because="as in the guide")
    cleared_column: str = name("column of how it came out", default="cleared", because="as in the guide")
    held_column: str = name("column of seconds that it stayed", default="held_s", because="as in the guide")


class TrialsTable(Table):
    """A campaign of tests of one model in a channel."""

    description: str = text("what was tested, where and when")
    invented: bool = flag("true for made-up logs; page one then says so", default=False, because="taken as real")
    source: str = text("who measured")
    rig: RigTable = Field(description="the channel")
    logger: LoggerTable = Field(description="how the files are written")
    channels: dict[str, ChannelTable] = Field(default_factory=dict, description="channels by name")
    runs: dict[str, RunTable] = Field(default_factory=dict, description="runs by name")
    reduction: ReductionTable = Field(
        default_factory=ReductionTable, description="thresholds; own choices throughout"
    )
    doses: dict[str, DoseTable] = Field(default_factory=dict, description="debris let go, by name")
    pieces: PiecesTable | None = Field(default=None, description="what became of the pieces")
