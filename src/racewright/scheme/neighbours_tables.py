"""Scheme tables of the machine's neighbours: fish, debris that comes, screens, sound."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.text_file_table import TextFile
from racewright.scheme.types import Table, choice, flag, name, numbers, quantity, ratio, text

FISH = (
    "salmonid_smolt", "salmonid_adult", "eel", "sturgeon", "bass", "perch", "herring", "river_larva", "river_egg",
)  # fmt: skip
"""Packaged classes of fish."""
DEBRIS = (
    "leaf", "water_weed", "grass_and_straw", "twig", "stick", "branch", "log", "plank", "rope", "bag_and_film",
    "bottle", "stone", "ice",
)  # fmt: skip
"""Packaged classes of debris."""
HEADINGS = ("worse", "axial", "along the water")
SPREADINGS = ("spherical", "practical", "cylindrical", "mixed")


class FishTable(Table):
    """One kind of fish that meets the machine."""

    kind: str = choice(FISH, "packaged class")
    length: float = quantity("length", "1 mm", "5 m", "of the fish")
    heading: str = choice(
        HEADINGS, "how its body lies to the machine's axis", default="worse", because="nobody has watched"
    )
    avoidance: float = ratio(
        0.0, 1.0, "share that swims round the machine; give its source", default=0.0, because="none is counted"
    )
    acclimation_depth: float | None = quantity(
        "length", "0 m", "300 m", "where it lived before; the machine's own depth if left out", default=None
    )
    source: str = text("who counted or measured")


class DriftTable(Table):
    """One kind of debris that comes."""

    kind: str = choice(DEBRIS, "packaged class")
    dose: str | None = name("name of the doses of the case's trials that override the computed fate", default=None)


class ScreenTable(Table):
    """Bars across the inlet."""

    bar_thickness: float = quantity("length", "1 mm", "200 mm", "of one bar, across the water")
    bar_gap: float = quantity("length", "1 mm", "1 m", "clear, between bars")
    area: float = quantity("area", "0.001 m2", "10000 m2", "of the screen, bars included")
    slope: float = quantity(
        "angle", "5 deg", "90 deg", "of the bars to the level", default="90 deg", because="upright"
    )
    shape: str = choice(
        ("rectangular", "rounded_front", "rounded_both", "round"),
        "section of the bars",
        default="rounded_front",
        because="common practice",
    )
    closed_share: float = ratio(0.0, 0.95, "of its gaps that debris has closed", default=0.3, because="own choice")
    arriving: float | None = quantity(
        "area", "0 m2", "100000 m2", "debris that arrives in a day, as area", default=None
    )


class TradeTable(Table):
    """What is moved, one at a time, to see what it does to power, strikes and openings."""

    tip_speed_ratios: tuple[float, ...] | None = numbers(8, "of the design")
    vane_counts: tuple[float, ...] | None = numbers(8, "whole numbers")
    blade_counts: tuple[float, ...] | None = numbers(8, "whole numbers")
    sweeps: tuple[float, ...] | None = numbers(8, "of the leading edges, in degrees")


class MeasuredSoundTable(TextFile):
    """Sound measured beside a machine of this kind, to be scaled."""

    file: str = name("CSV file beside the scheme: third-octave bands")
    frequency_column: str = name("column of middle frequencies in Hz", default="frequency", because="as in the guide")
    with_column: str = name(
        "column of levels with the machine, dB re 1 uPa", default="with_machine", because="as above"
    )
    background_column: str = name("column of levels without it", default="background", because="as above")
    distance: float = quantity("length", "1 m", "10 km", "from machine to hydrophone")
    relative_speed: float = quantity("speed", "0.1 m/s", "60 m/s", "of the water over the blade tips, as measured")
    area: float = quantity("area", "0.001 m2", "10000 m2", "of the rotor that was measured")
    uncertainty: float = ratio(0.5, 15.0, "standard uncertainty in dB")
    where: str = name("where and when, with what")


class SoundTable(Table):
    """Sound of the machine, its way and who hears it."""

    turbulence: float | None = ratio(
        0.0, 0.5, "intensity that vanes and blades cut; the place's if left out", default=None
    )
    length_scale: float | None = quantity(
        "length", "0.01 m", "100 m", "of the eddies; the depth at the machine if left out", default=None
    )
    spreading: str = choice(SPREADINGS, "law of spreading", default="practical", because="15 lg, shallow water")
    absorbed: str = choice(
        ("ainslie_mccolm", "francois_garrison"),
        "published form of absorption",
        default="ainslie_mccolm",
        because="later",
    )
    salinity: float = ratio(0.0, 45.0, "in g/kg", default=0.0, because="a river")
    acidity: float = ratio(6.0, 9.0, "pH", default=8.0, because="sea water")
    duration: float = quantity(
        "time",
        "1 s",
        "100 d",
        "that an animal stays where it is",
        default="1 d",
        because="as the thresholds are meant",
    )
    edition: str = choice(("2018", "2024"), "of the hearing groups", default="2024", because="the later one")
    wind_speed: float = quantity(
        "speed", "0 m/s", "40 m/s", "for the ambient sound", default="5 m/s", because="a breeze"
    )
    shipping: float = ratio(
        0.0, 1.0, "0 remote to 1 busy, for the ambient sound", default=0.5, because="in the middle"
    )
    distances: tuple[float, ...] | None = numbers(12, "distances to tell levels at, in metres")
    way_uncertainty: float | None = ratio(
        0.0, 40.0, "of the way in dB; by the law of spreading if left out", default=None
    )
    measured: MeasuredSoundTable | None = Field(
        None, description="measured sound, scaled in place of the computed one"
    )


class NeighboursTable(Table):
    """Who lives and drifts in the water about the machine."""

    description: str = text("in a sentence")
    invented: bool = flag(
        "true for made-up neighbours; page one then says so", default=False, because="taken as real"
    )
    fish: dict[str, FishTable] = Field(default_factory=dict, description="fish by name")
    debris: dict[str, DriftTable] = Field(default_factory=dict, description="debris by name")
    screen: ScreenTable | None = Field(None, description="bars across the inlet")
    trade: TradeTable | None = Field(None, description="what is moved to see what it does")
    sound: SoundTable | None = Field(None, description="sound of the machine; no sound chapter without it")
