"""Scheme tables of growth: sizes that the machine is taken to, the programme, and what is claimed."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.money_tables import ClaimTable, ProgrammeStepTable, ProgrammeTable
from racewright.scheme.types import Table, choice, flag, quantity, ratio, text, whole


class SizeTable(Table):
    """One size of the case's machine, at its own water; all lengths of the machine grow alike."""

    order: int = whole(1, 20, "place in the growth, 1 the first")
    description: str = text("what it is for")
    throat_diameter: float = quantity("length", "0.05 m", "40 m", "smallest inner diameter of the duct")
    stream_speed: float = quantity("speed", "0.1 m/s", "8 m/s", "at which it is designed")
    rated_power: float = quantity("power", "1 W", "100 MW", "electrical")
    depth: float = quantity("length", "0.1 m", "500 m", "of the water")
    hub_depth: float = quantity("length", "0.05 m", "300 m", "axis below the surface")
    channel_area: float | None = quantity(
        "area", "0.01 m2", "10000000 m2", "of the water's section, for blockage; none if left out", default=None
    )
    water: str = choice(("fresh", "sea"), "kind of water", default="fresh", because="rivers")
    temperature: float = quantity("temperature", "0 degC", "40 degC", "of it", default="10 degC", because="temperate")
    turbulence: float = ratio(0.0, 0.5, "intensity", default=0.1, because="rivers have 8 to 15 %")
    roughness: float | None = quantity(
        "length", "0 mm", "5 mm", "of vanes and blades, absolute; the machine's own if left out", default=None
    )
    clearance: float | None = ratio(
        0.0, 0.1, "tip clearance over the inner radius; the machine's own if left out", default=None
    )
    programme: ProgrammeStepTable | None = Field(None, description="what the step costs and how likely it passes")


class ExponentTable(Table):
    """An exponent of one's own: quantity goes as diameter to this."""

    low: float = ratio(-5.0, 8.0, "low end")
    value: float = ratio(-5.0, 8.0, "likeliest")
    high: float = ratio(-5.0, 8.0, "high end")
    source: str = text("where it comes from")


class GrowthTable(Table):
    """The way from model to river unit to tidal unit."""

    description: str = text("the way in a sentence")
    invented: bool = flag("true for a made-up way; page one then says so", default=False, because="taken as real")
    size: dict[str, SizeTable] = Field(default_factory=dict, description="sizes by name")
    exponent: dict[str, ExponentTable] = Field(default_factory=dict, description="own exponents by quantity")
    programme: ProgrammeTable | None = Field(None, description="the end of it, and how money is counted")
    claim: dict[str, ClaimTable] = Field(
        default_factory=dict, description="headline figures and what stands behind them"
    )
