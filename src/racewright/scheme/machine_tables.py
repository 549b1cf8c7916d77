"""Scheme tables of the machine. Axial places are measured from the duct's leading edge, downstream positive."""

from __future__ import annotations

from pydantic import Field

from racewright.quantity.grammar import Quantity
from racewright.scheme.drive_tables import DriveTable
from racewright.scheme.strength_tables import StrengthTable
from racewright.scheme.types import Table, choice, flag, money, name, quantity, ratio, text, whole
from racewright.scheme.upkeep_tables import PieceTable, RecoveryTable, SparePartTable

FAMILIES = ("circular_arc", "four_digit", "four_digit_modified", "plate", "biconvex")
"""Section families that a row may name."""


class ColumnsTable(Table):
    """A CSV file of a row, one line a radius; angles are from axial, positive in the direction of rotation."""

    file: str = name("CSV file beside the scheme")
    radius_column: str = name("column of radii", default="radius", because="as in the guide")
    chord_column: str = name("column of chords", default="chord", because="as in the guide")
    angle_column: str = name("column of the chord line's angles", default="angle", because="as in the guide")
    thickness_column: str = name("column of thickness over chord", default="thickness", because="as in the guide")
    length_unit: str = name("unit of radii and chords", default="m", because="SI")
    angle_unit: str = name("unit of angles", default="deg", because="as in the guide")
    source: str = text("where the figures come from")


class SectionsTable(ColumnsTable):
    """A row given outright by its sections instead of by the design."""

    camber_column: str = name("column of the mean line's turning", default="camber", because="as in the guide")
    sweep_column: str | None = name("column of sweep, downstream positive", default=None)
    lean_column: str | None = name("column of lean, in the direction of rotation positive", default=None)


class AsBuiltTable(ColumnsTable):
    """What was measured on the built row; columns that the file does not have were not measured."""

    part: str = name("part number of what was measured")
    clearance: float | None = quantity("length", "0 mm", "200 mm", "mean tip gap measured", default=None)


class DuctTable(Table):
    """The duct: an annular aerofoil."""

    throat_diameter: float = quantity("length", "0.05 m", "40 m", "smallest inner diameter")
    exit_area_ratio: float = ratio(1.0, 3.0, "exit area over throat area, full circles")
    length: float = quantity("length", "0.01 m", "60 m", "chord of the duct's section")
    thickness: float = ratio(0.02, 0.25, "thickness over length")
    inlet_area_ratio: float | None = ratio(
        1.0, 3.0, "leading-edge circle over throat area; the camber then follows", default=None
    )
    camber: float = quantity(
        "angle",
        "-30 deg",
        "60 deg",
        "turning of the section's mean line, positive away from the axis",
        default="0 deg",
        because="a straight mean line",
    )
    lip: float = ratio(
        0.5, 2.0, "nose radius over that of the plain thickness form", default=1.0, because="the plain form"
    )


class HubTable(Table):
    """The hub body on the axis: nose, cylinder, tail."""

    diameter: float = quantity("length", "0.005 m", "20 m", "diameter of the cylinder")
    nose_x: float = quantity("length", "-60 m", "60 m", "axial place of the nose tip")
    nose_length: float = quantity("length", "0.005 m", "60 m", "length of the nose")
    cylinder_length: float = quantity("length", "0 m", "60 m", "length of the cylinder")
    tail_length: float = quantity("length", "0.005 m", "60 m", "length of the tail")


class VanesTable(Table):
    """The fixed row ahead of the rotor."""

    count: int = whole(2, 30, "number of vanes")
    place_x: float = quantity("length", "-60 m", "60 m", "axial place of the mid-chord")
    hub_chord: float = quantity("length", "0.002 m", "20 m", "chord at the hub")
    tip_chord: float = quantity("length", "0.002 m", "20 m", "chord at the duct")
    thickness: float = ratio(0.02, 0.3, "thickness over chord")
    turned: float = quantity(
        "angle",
        "-30 deg",
        "30 deg",
        "built turned away from the design, positive in the direction of rotation",
        default="0 deg",
        because="as designed",
    )
    family: str = choice(
        FAMILIES, "family of the sections", default="circular_arc", because="as the row model takes them"
    )
    sections: SectionsTable | None = Field(
        None, description="the row given by its sections; the design then does not shape it"
    )
    as_built: AsBuiltTable | None = Field(None, description="what was measured on the built row, laid over it")


class RotorTable(Table):
    """The rotor."""

    count: int = whole(2, 30, "number of blades")
    place_x: float = quantity("length", "-60 m", "60 m", "axial place of the mid-chord")
    hub_chord: float = quantity("length", "0.002 m", "20 m", "chord at the hub")
    tip_chord: float = quantity("length", "0.002 m", "20 m", "chord at the tip")
    thickness: float = ratio(0.02, 0.3, "thickness over chord")
    clearance: float = ratio(0.0, 0.1, "tip clearance over the duct's inner radius there")
    turned: float = quantity(
        "angle",
        "-30 deg",
        "30 deg",
        "built turned away from the design, positive in the direction of rotation",
        default="0 deg",
        because="as designed",
    )
    family: str = choice(
        FAMILIES, "family of the sections", default="circular_arc", because="as the row model takes them"
    )
    sections: SectionsTable | None = Field(
        None, description="the row given by its sections; the design then does not shape it"
    )
    as_built: AsBuiltTable | None = Field(None, description="what was measured on the built row, laid over it")


class DesignTable(Table):
    """The state the rows are shaped for: free vortex, axial exit."""

    stream_speed: float = quantity("speed", "0.1 m/s", "8 m/s", "stream speed of the design point")
    head_coefficient: float = ratio(0.05, 0.9, "head drop over half the stream speed squared")
    tip_speed_ratio: float = ratio(0.5, 8.0, "rotor tip speed over stream speed")


class StopsTable(Table):
    """Stops of one cause."""

    yearly: float = ratio(0.0, 1000.0, "stops in a year")
    each: float = quantity("time", "0 s", "1 yr", "mean time from stop to running again, waiting for people included")
    source: str = text("where the figures come from")


class CostTable(Table):
    """What one machine costs."""

    capital: Quantity = money("money", "built, delivered and installed, one machine")
    yearly: Quantity = money("money per year", "upkeep, insurance, permits, one machine")
    life: float = quantity("time", "1 yr", "60 yr", "years over which capital is recovered")
    source: str = text("where the figures come from")


class MachineTable(Table):
    """One machine."""

    description: str = text("the machine in a sentence")
    invented: bool = flag("true for a made-up machine; page one then says so", default=False, because="taken as real")
    duct: DuctTable = Field(description="the duct")
    hub: HubTable = Field(description="the hub body")
    vanes: VanesTable = Field(description="the fixed row")
    rotor: RotorTable = Field(description="the rotor")
    design: DesignTable = Field(description="the design point")
    drive: DriveTable = Field(description="gear, generator and limits")
    roughness: float = quantity(
        "length",
        "0 mm",
        "5 mm",
        "equivalent sand roughness of vanes and blades",
        default="0 mm",
        because="smooth",
    )
    availability: float = ratio(
        0.0,
        1.0,
        "share of the year the machine is able to run",
        default=0.85,
        because="common practice for a first unit, no source",
    )
    stops: dict[str, StopsTable] = Field(
        default_factory=dict, description="stops by cause; given, they make the availability"
    )
    cost: CostTable | None = Field(None, description="what it costs; needed for the cost chapter")
    strength: StrengthTable | None = Field(
        None, description="materials, walls and shaft; needed for the strength chapter"
    )
    part: dict[str, SparePartTable] = Field(
        default_factory=dict, description="parts that fail; given, they make the availability"
    )
    piece: dict[str, PieceTable] = Field(
        default_factory=dict, description="pieces that are lifted and carried, by name"
    )
    recovery: RecoveryTable | None = Field(None, description="how the machine is drawn out of the water")
