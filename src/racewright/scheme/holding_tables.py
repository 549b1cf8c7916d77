"""Scheme tables of how the machine is held: body, fairleads, anchors, lines, debris, wanted factors."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.anchor_tables import AnchorTable
from racewright.scheme.debris_tables import DebrisTable, LogSeasonTable, LogTable, StrikeTable
from racewright.scheme.line_tables import LineTable
from racewright.scheme.types import Table, flag, name, quantity, ratio, text, whole


class BodyTable(Table):
    """The floating machine as a whole. x is told from the duct's leading edge, downstream; up from the axis."""

    mass: float = quantity("mass", "0.1 kg", "10000 t", "in air, all that floats, without the water inside")
    displaced_volume: float = quantity("volume", "0.1 L", "10000 m3", "of all that floats, wholly under water")
    weight_x: float = quantity("length", "-100 m", "100 m", "centre of weight, along the axis")
    weight_up: float = quantity("length", "-50 m", "50 m", "centre of weight, above the axis")
    buoyancy_x: float = quantity("length", "-100 m", "100 m", "centre of buoyancy, along the axis")
    buoyancy_up: float = quantity("length", "-50 m", "50 m", "centre of buoyancy, above the axis")
    top: float | None = quantity(
        "length", "0.01 m", "50 m", "highest point above the axis; the duct's outer radius if left out", default=None
    )
    bottom: float | None = quantity(
        "length", "0.01 m", "50 m", "lowest point below the axis; the duct's outer radius if left out", default=None
    )
    drag_area: float = quantity(
        "area", "0 m2", "1000 m2", "drag coefficient x area of frame and floats along the stream", default="0 m2",
        because="the duct and rotor alone",
    )  # fmt: skip
    drag_up: float = quantity(
        "length", "-50 m", "50 m", "where that drag acts, above the axis", default="0 m", because="on the axis"
    )
    side_drag_area: float | None = quantity(
        "area", "0 m2", "5000 m2", "drag coefficient x area across; the duct's side at 1.0 if left out", default=None
    )
    source: str = text("drawing, weighing, estimate")


class FairleadTable(Table):
    """Where a line meets the machine."""

    x: float = quantity("length", "-100 m", "100 m", "from the duct's leading edge, downstream")
    left: float = quantity("length", "-50 m", "50 m", "of the axis looking downstream", default="0 m", because="amid")
    up: float = quantity("length", "-50 m", "50 m", "above the axis", default="0 m", because="at the axis's height")


class WeakLinkTable(Table):
    """The link chosen to part first."""

    what: str = name("what it is, like 'shear pin of the bow line'")
    capacity: float = quantity("force", "1 N", "50 MN", "force along the stream at which it parts")
    slack: float | None = quantity(
        "length", "0 m", "2 km", "retaining line: way downstream until it is taut", default=None
    )
    stiffness: float | None = quantity(
        "stiffness", "1 N/m", "1000 MN/m", "retaining line: along the stream once taut", default=None
    )
    retained: float | None = quantity("force", "1 N", "50 MN", "retaining line: its strength", default=None)


class EditTable(Table):
    """A safety factor of one's own in place of a packaged one."""

    factor: float = ratio(0.1, 50.0, "the factor")
    source: str = name("standard, authority or reason")
    edition: str = name("edition of that standard, or 'none'", default="none", because="none said")


class FactorsTable(Table):
    """Wanted safety factors, by their packaged keys; the guide lists them with standard and edition."""

    line_intact: str = name(
        "factor of the lines, nothing lost", default="iso_intact_quasi_static", because="statics stand behind it"
    )
    line_lost: str = name(
        "factor of the lines, one line lost", default="iso_one_lost_quasi_static", because="statics stand behind it"
    )
    edit: dict[str, EditTable] = Field(default_factory=dict, description="own figures by packaged key")


class HoldingTable(Table):
    """One way of holding a machine at a place."""

    description: str = text("the holding in a sentence")
    invented: bool = flag("true for a made-up holding; page one then says so", default=False, because="taken as real")
    cover: float = quantity(
        "length", "0 m", "100 m", "wanted water over the highest point", default="0.3 m", because="own choice"
    )
    bed_clearance: float = quantity(
        "length", "0 m", "100 m", "wanted between lowest point and bed", default="0.3 m", because="own choice"
    )
    roll: float = quantity(
        "angle", "0.5 deg", "80 deg", "greatest roll wanted", default="15 deg", because="own choice"
    )
    swing: float = quantity(
        "angle", "0 deg", "180 deg", "how far the stream turns to either side", default="15 deg", because="own choice"
    )
    speed_allowance: float = ratio(
        1.0, 3.0, "factor on all stream speeds, 1.1 for a tenth more: doubt in them, floods rarer than the record",
        default=1.0,
        because="the record as it stands",
    )  # fmt: skip
    growth: float = quantity("length", "0 mm", "300 mm", "coat of weed on the lines", default="0 mm", because="clean")
    guard: float | None = quantity(
        "angle", "1 deg", "80 deg", "lean of a nose guard's faces from square-on; no guard if left out", default=None
    )
    body: BodyTable = Field(description="the floating machine as a whole")
    fairlead: dict[str, FairleadTable] = Field(default_factory=dict, description="fairleads by name")
    anchor: dict[str, AnchorTable] = Field(default_factory=dict, description="anchors by name")
    line: dict[str, LineTable] = Field(default_factory=dict, description="lines by name")
    strikes: int = whole(
        100, 100000, "logs drawn for the year", default=2000, because="own choice: limits within a tenth"
    )
    weak_link: WeakLinkTable | None = Field(None, description="the link chosen to part first")
    debris: dict[str, DebrisTable] = Field(default_factory=dict, description="what is held, by name")
    strike: dict[str, StrikeTable] = Field(default_factory=dict, description="logs that strike, by name")
    log: dict[str, LogTable] = Field(default_factory=dict, description="logs that pass in a year, by kind")
    season: dict[str, LogSeasonTable] = Field(default_factory=dict, description="parts of the year for those logs")
    factors: FactorsTable = Field(default_factory=FactorsTable, description="wanted safety factors")
