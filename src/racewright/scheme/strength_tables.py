"""Scheme tables of the machine's strength: materials, shaft, flange, walls, measured stress, wanted factors."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.text_file_table import TextFile
from racewright.scheme.types import Table, choice, name, quantity, ratio, text, whole

MATERIALS = (
    "s355",
    "316l",
    "duplex_2205",
    "nickel_aluminium_bronze",
    "6082_t6",
    "acetal",
    "high_density_polyethylene",
    "glass_epoxy",
    "own",
)
"""Packaged materials, and 'own' for one whose figures are given."""
BOLTS = ("bolt_8_8", "bolt_a4_80")
"""Packaged bolt classes."""


class OwnMaterialTable(Table):
    """A material by its certificate."""

    title: str = name("what it is")
    group: str = choice(("steel", "bronze", "aluminium", "polymer", "composite"), "which factor applies")
    density: float = quantity("density", "500 kg/m3", "20000 kg/m3", "of the material")
    elasticity: float = quantity("pressure", "100 MPa", "500 GPa", "Young's modulus")
    poisson: float = ratio(0.0, 0.5, "Poisson's ratio", default=0.3, because="metals")
    yield_strength: float = quantity("pressure", "1 MPa", "3 GPa", "least yield strength, wet")
    ultimate_strength: float = quantity("pressure", "1 MPa", "4 GPa", "least ultimate strength, wet")
    source: str = name("certificate or test")


class PartTable(Table):
    """What one part is made of."""

    material: str = choice(MATERIALS, "a packaged material, or 'own' with a table of it")
    own: OwnMaterialTable | None = Field(None, description="the material by its certificate")
    notch: float = ratio(
        1.0,
        10.0,
        "stress at the root's fillet over that of the plain section",
        default=1.0,
        because="no fillet counted",
    )


class ShaftTable(PartTable):
    """The shaft between rotor and gear or generator."""

    diameter: float = quantity("length", "2 mm", "3 m", "outside, at its weakest")
    bore: float = quantity("length", "0 mm", "2.9 m", "inside", default="0 mm", because="a solid shaft")
    overhang: float = quantity(
        "length", "0 m", "20 m", "from rotor to the nearest bearing", default="0 m", because="carried at the rotor"
    )
    rotor_mass: float = quantity(
        "mass",
        "0 kg",
        "500 t",
        "of the rotor in water, carried by the overhang",
        default="0 kg",
        because="weightless",
    )


class FlangeTable(Table):
    """The bolted flange that takes the shaft's torque, or holds the vanes' hub in the duct."""

    bolts: int = whole(3, 200, "how many bolts")
    bolt_class: str = choice(BOLTS, "strength class")
    circle: float = quantity("length", "10 mm", "20 m", "diameter of the bolt circle")
    stress_area: float = quantity("area", "5 mm2", "20000 mm2", "of one bolt at the thread")
    preload: float | None = quantity("force", "1 N", "10 MN", "of one bolt", default=None)


class DuctWallTable(PartTable):
    """The duct's section as built."""

    wall: float | None = quantity(
        "length", "0.5 mm", "1 m", "thickness of its skin; a solid section if left out", default=None
    )
    point_load: float | None = quantity(
        "force",
        "1 N",
        "100 MN",
        "push on one place of the ring; the first blow of the strikes if left out",
        default=None,
    )
    out_of_round: float = quantity(
        "length", "0 mm", "1 m", "difference of radius as built", default="0 mm", because="round"
    )


class SeriesTable(TextFile):
    """A series of stress at one place, measured or computed elsewhere."""

    file: str = name("CSV file beside the scheme")
    stress_column: str = name("column of stress", default="stress", because="as in the guide")
    unit: str = name("unit of the stress", default="MPa", because="usual")
    duration: float = quantity("time", "1 s", "100 yr", "time that the series stands for")
    curve: str = name("key of the S-N curve, like 'd_sea_protected'; the guide lists them")
    thickness: float | None = quantity("length", "1 mm", "1 m", "of the plate at that place", default=None)
    source: str = text("gauge, place, computation")


class StrengthFactorsTable(Table):
    """Packaged keys of the factors that loads and materials bear; the guide lists them with standard and edition."""

    load: str = name("factor on loads", default="tidal_load_ultimate", because="practice of certification")
    steel: str = name("factor on steel and bronze", default="tidal_steel", because="practice of certification")
    aluminium: str = name("factor on aluminium", default="en_aluminium", because="EN 1999-1-1")
    composite: str = name("factor on composite", default="tidal_composite", because="practice of certification")
    polymer: str = name("factor on polymer", default="polymer_own", because="own choice")
    fatigue: str = name("factor on damage", default="tidal_fatigue", because="practice of certification")


class StrengthTable(Table):
    """What the machine's parts are made of and how they are wanted to hold."""

    vanes: PartTable = Field(description="the vanes")
    blades: PartTable = Field(description="the blades")
    vane_ends: str = choice(
        ("one end", "both ends"), "held at the duct alone, or at hub and duct", default="both ends",
        because="vanes that carry the hub",
    )  # fmt: skip
    duct: DuctWallTable = Field(description="the duct's section as built")
    shaft: ShaftTable | None = Field(None, description="the shaft")
    flange: FlangeTable | None = Field(None, description="the flange that takes the shaft's torque")
    series: dict[str, SeriesTable] = Field(default_factory=dict, description="measured stress by place")
    margin: float = ratio(
        0.01,
        1.0,
        "wanted distance of natural from exciting frequencies",
        default=0.2,
        because="common practice, no source",
    )
    factors: StrengthFactorsTable = Field(
        default_factory=StrengthFactorsTable, description="keys of the factors that are wanted"
    )
