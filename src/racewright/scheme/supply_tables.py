"""Scheme tables of a village's supply by the hour: load, sets, battery, rules, sun, cable, fuel's way."""

from __future__ import annotations

from pydantic import Field

from racewright.quantity.grammar import Quantity
from racewright.scheme.text_file_table import TextFile
from racewright.scheme.types import Table, choice, flag, money, name, numbers, quantity, ratio, text, whole


class DayShapeTable(Table):
    """How the load goes over a day in some months; only ratios count, between seasons too."""

    months: tuple[float, ...] | None = numbers(12, "1 to 12")
    hours: tuple[float, ...] | None = numbers(24, "24 loads from midnight on the village's clock, in any unit")
    rest_hours: tuple[float, ...] | None = numbers(24, "the same on days of rest")


class MeterTable(TextFile):
    """A meter's file of the load."""

    file: str = name("CSV or Parquet file beside the scheme")
    time_column: str = name("column of stamps", default="time", because="as in the guide")
    value_column: str = name("column of power", default="power", because="as in the guide")
    unit: str = name("unit of the power", default="kW", because="usual")
    zone: str = name("zone of the stamps, like 'UTC', '+05:45' or 'Pacific/Auckland'")
    stamps_at: str = choice(
        ("start", "end"), "whether a stamp begins or ends its interval", default="start", because="common practice"
    )
    source: str = text("who metered")


class LoadTable(Table):
    """The village's load: by its meter, or by the shape of its days."""

    meter: MeterTable | None = Field(None, description="a meter's file; or give shapes")
    shape: dict[str, DayShapeTable] = Field(default_factory=dict, description="days by season")
    zone: str = name("the village's clock, like 'UTC' or 'Pacific/Auckland'", default="UTC", because="none said")
    rest_days: tuple[float, ...] | None = numbers(7, "days of rest, 1 Monday to 7 Sunday")
    spread: float = ratio(
        0.0, 1.0, "relative standard deviation of a year's load", default=0.1, because="own choice, no source"
    )


class SetTable(Table):
    """One diesel set of the powerhouse."""

    rated_power: float = quantity("power", "500 W", "50 MW", "rated electrical power")
    fuel_slope: float | None = quantity(
        "fuel use", "0.15 L/kWh", "0.5 L/kWh", "per kWh made; the community's if left out", default=None
    )
    fuel_standing: float | None = quantity(
        "fuel use", "0 L/kWh", "0.2 L/kWh", "standing, per hour and kW of rated; the community's if left out",
        default=None,
    )  # fmt: skip
    minimum_load: float | None = ratio(0.0, 0.8, "over rated; the community's if left out", default=None)
    start_fuel: float = quantity(
        "volume", "0 L", "1000 L", "burned by one start", default="0 L", because="not counted"
    )
    start_wear: Quantity | None = money("money", "wear of one start", default=None)
    hourly: Quantity | None = money("money per time", "upkeep and spares for an hour of running", default=None)
    source: str = text("where the figures come from")


class BatteryTable(Table):
    """A battery on the line of the drive; powers are measured at the line."""

    capacity: float = quantity("energy", "100 Wh", "1000 MWh", "between empty and full")
    charge_power: float = quantity("power", "0 W", "500 MW", "greatest, taken from the line")
    discharge_power: float = quantity("power", "0 W", "500 MW", "greatest, given to the line")
    charge_efficiency: float = ratio(
        0.05, 1.0, "stored over taken", default=0.96, because="lithium iron phosphate, from memory"
    )
    discharge_efficiency: float = ratio(
        0.05, 1.0, "given over drawn", default=0.96, because="lithium iron phosphate, from memory"
    )
    least: float = ratio(
        0.0, 0.9, "least state of charge", default=0.1, because="lithium iron phosphate, from memory"
    )
    most: float = ratio(
        0.1, 1.0, "greatest state of charge", default=0.95, because="lithium iron phosphate, from memory"
    )
    capital: Quantity | None = money("money", "bought and installed; needed for its cost", default=None)
    life: float = quantity("time", "1 yr", "40 yr", "replaced after", default="10 yr", because="common practice")
    source: str = text("where the figures come from")


class RulesTable(Table):
    """How the powerhouse is run; docs/dispatch_rules.md says the rules in plain words."""

    keep_one_on: bool = flag("one set always runs", default=False, because="sets may stop")
    reserve: float = quantity(
        "power",
        "0 W",
        "50 MW",
        "beyond the mean load, kept in proportion to each hour's; machine, sun and battery count towards it too",
        default="0 W",
        because="none",
    )
    fill_to: float = ratio(0.0, 1.0, "a running set fills the battery to this state", default=0.0, because="never")
    dump_power: float = quantity(
        "power", "0 W", "50 MW", "that the village's dump load takes", default="0 W", because="none"
    )


class SunTable(TextFile):
    """A yearly solar profile, given."""

    file: str = name("CSV or Parquet file beside the scheme")
    time_column: str = name("column of stamps", default="time", because="as in the guide")
    value_column: str = name("column of power", default="power", because="as in the guide")
    unit: str = name("unit of the power", default="kW", because="usual")
    zone: str = name("zone of the stamps", default="UTC", because="taken as UTC")
    capital: Quantity | None = money("money", "bought and installed", default=None)
    source: str = text("who computed or measured it")


class CableTable(Table):
    """The cable from the machine to the village."""

    length: float = quantity("length", "0 m", "100 km", "one way")
    conductor_area: float = quantity("area", "0.5 mm2", "5000 mm2", "metal of one conductor")
    voltage: float = quantity("voltage", "5 V", "100 kV", "at the sender, between conductors")
    kind: str = choice(("direct", "single phase", "three phase"), "kind of current")
    power_factor: float = ratio(0.05, 1.0, "1 for direct current", default=1.0, because="a unity load")
    temperature: float = quantity(
        "temperature",
        "-40 degC",
        "120 degC",
        "of the conductor",
        default="20 degC",
        because="as resistivity is tabled",
    )


class ConverterTable(Table):
    """Losses of a converter over its rated power: fixed + proportional x + quadratic x^2."""

    rated_power: float = quantity("power", "10 W", "500 MW", "output that is not passed")
    fixed: float = ratio(0.0, 1.0, "of rated power", default=0.01, because="common practice, no source")
    proportional: float = ratio(0.0, 1.0, "of rated power", default=0.02, because="common practice, no source")
    quadratic: float = ratio(0.0, 1.0, "of rated power", default=0.01, because="common practice, no source")


class LegOfWayTable(Table):
    """One part of the fuel's way, by one carrier: there loaded, back empty."""

    order: int = whole(1, 20, "place in the way, 1 where the fuel is bought", default=1, because="one part")
    carrier: str = name("such as 'truck' or 'boat'")
    distance: float = quantity("length", "0 km", "20000 km", "one way")
    speed_there: float = quantity("speed", "0.1 m/s", "300 m/s", "loaded")
    speed_back: float = quantity("speed", "0.1 m/s", "300 m/s", "empty")
    fuel_rate: float = quantity("discharge", "0 L/h", "10000 L/h", "burned under way")
    cargo: float = quantity("volume", "1 L", "100000 m3", "brought by one trip")
    crew: Quantity | None = money("money per time", "under way and in port", default=None)
    port_time: float = quantity(
        "time", "0 s", "60 d", "loading, waiting, one trip", default="0 s", because="none said"
    )
    trip: Quantity | None = money("money", "hire, tolls, handling of one trip", default=None)


class FuelWayTable(Table):
    """How the fuel comes; it then makes the price of delivery."""

    leg: dict[str, LegOfWayTable] = Field(default_factory=dict, description="parts of the way by name")
    spoilt: float = ratio(
        0.0, 0.9, "share that is lost or spoilt on the way and in tanks", default=0.0, because="none"
    )


class SupplyTable(Table):
    """The hourly year of a village's supply."""

    year: int = whole(1900, 2200, "which year of the record the water is taken from, if it is there; dates otherwise")
    load: LoadTable = Field(description="the village's load")
    set: dict[str, SetTable] = Field(default_factory=dict, description="diesel sets; the community's one if left out")
    battery: BatteryTable | None = Field(None, description="a battery")
    rules: RulesTable = Field(default_factory=RulesTable, description="how the powerhouse is run")
    sun: SunTable | None = Field(None, description="a yearly solar profile, given")
    cable: CableTable | None = Field(None, description="from the machine to the village")
    converter: ConverterTable | None = Field(None, description="between the machine and the line")
    fuel: FuelWayTable | None = Field(None, description="how the fuel comes")
    years: int = whole(100, 100000, "years drawn for the band", default=2000, because="own choice")
