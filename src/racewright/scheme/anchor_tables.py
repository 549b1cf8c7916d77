"""Scheme tables of the anchors: what they are, by kind."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.types import Table, choice, name, quantity, ratio, text, whole

ON = ("bed", "bank", "bridge")
"""Where a line may be fixed."""
BEDS = ("smooth rock", "rough rock", "gravel", "coarse sand", "fine sand", "firm clay", "soft mud", "own")
"""Beds whose friction is packaged; 'own' takes the key friction."""


class DeadweightTable(Table):
    """A block on the bed, not dug in."""

    mass: float = quantity("mass", "1 kg", "5000 t", "in air")
    density: float = quantity(
        "density", "1100 kg/m3", "12000 kg/m3", "of the block", default="2400 kg/m3", because="plain concrete"
    )
    bed: str = choice(BEDS, "what it lies on; 'own' with friction given")
    friction: float | None = ratio(0.01, 1.0, "of block on bed; given only with bed = 'own'", default=None)
    slope: float = quantity(
        "angle",
        "0 deg",
        "60 deg",
        "of the bed, falling the way the line pulls",
        default="0 deg",
        because="a flat bed",
    )


class DragAnchorTable(Table):
    """An anchor that digs in when it is dragged; it bears a flat pull only."""

    form: str = choice(("stockless, fixed fluke", "light twin fluke"), "which published row")
    bed: str = choice(("soft", "hard"), "mud and clay, or sand")
    mass: float = quantity("mass", "1 kg", "100 t", "in air")


class ScrewTable(Table):
    """A screw anchor: plates and soil, or the torque that drove it, or both."""

    plate_diameter: float | None = quantity("length", "0.05 m", "3 m", "of its plates", default=None)
    plates: int = whole(1, 10, "how many plates", default=1, because="the least")
    cohesion: float = quantity(
        "pressure", "0 kPa", "1 MPa", "of clay about the plates", default="0 kPa", because="none"
    )
    overburden: float = quantity(
        "pressure",
        "0 kPa",
        "1 MPa",
        "effective vertical stress at the plates, in sand",
        default="0 kPa",
        because="none",
    )
    overburden_factor: float = ratio(0.0, 200.0, "bearing factor Nq of sand", default=0.0, because="no sand term")
    torque: float | None = quantity("torque", "10 N m", "500 kN m", "that drove it, at the end", default=None)
    depth: float | None = quantity("length", "0.1 m", "30 m", "of the uppermost plate", default=None)
    shaft_angle: float = quantity(
        "angle", "0 deg", "90 deg", "of the shaft above the level", default="90 deg", because="driven upright"
    )


class RockTable(Table):
    """Grouted bolts in rock."""

    hole_diameter: float = quantity("length", "10 mm", "500 mm", "of the hole")
    bond_length: float = quantity("length", "0.05 m", "30 m", "of grout")
    bond_strength: float = quantity(
        "pressure", "10 kPa", "20 MPa", "ultimate bond of grout to this rock, from a test"
    )
    bar_diameter: float = quantity("length", "5 mm", "200 mm", "of the bar, at the thread's root")
    bar_strength: float = quantity("pressure", "100 MPa", "2 GPa", "yield strength of the bar")
    rock_density: float = quantity(
        "density", "1200 kg/m3", "4000 kg/m3", "of the rock, dry", default="2500 kg/m3", because="common practice"
    )
    count: int = whole(1, 100, "bolts that share the load", default=1, because="the least")
    spacing: float | None = quantity("length", "0.05 m", "30 m", "between bolts", default=None)
    bar_angle: float = quantity(
        "angle", "-90 deg", "90 deg", "of the bars above the level", default="90 deg", because="upright in a flat bed"
    )
    eye_height: float | None = quantity(
        "length",
        "0 m",
        "5 m",
        "from the rock's face along the bar to the line's pull; no bending is counted if left out",
        default=None,
    )
    bar_aside: float = quantity(
        "angle",
        "0 deg",
        "90 deg",
        "in plan, between bars and line",
        default="0 deg",
        because="the bars point along it",
    )
    rock_shear: float = quantity(
        "pressure", "0 kPa", "10 MPa", "of the rock over the cone's side, from a test; flat bars hang on it",
        default="0 kPa", because="its weight alone, a lower bound",
    )  # fmt: skip


class BankTieTable(Table):
    """Something on the bank that a line is made fast to, with a holding that somebody states."""

    what: str = name("deadman, post, tree, wall")
    holding: float | None = quantity("force", "1 N", "50 MN", "that it bears along the line, as stated", default=None)
    spread: float = ratio(0.0, 0.9, "of that figure to either side", default=0.25, because="own choice, no source")
    source: str = text("who states it and by what: a pull test, a design")


class AnchorTable(Table):
    """Where a line is fixed. Places are told from the machine's intended place, looking downstream."""

    ahead: float = quantity("length", "-2 km", "2 km", "upstream of the machine, positive")
    left: float = quantity("length", "-2 km", "2 km", "to the left of the machine looking downstream, positive")
    height: float = quantity("length", "-300 m", "300 m", "above the bed", default="0 m", because="on the bed")
    on: str = choice(ON, "what it stands on", default="bed", because="most anchors")
    deadweight: DeadweightTable | None = Field(None, description="a block on the bed")
    drag: DragAnchorTable | None = Field(None, description="an anchor that digs in")
    screw: ScrewTable | None = Field(None, description="a screw anchor")
    rock: RockTable | None = Field(None, description="grouted bolts in rock")
    tie: BankTieTable | None = Field(None, description="something on bank, bed or bridge with a stated holding")
    factor: float | None = ratio(
        1.0, 20.0, "wanted holding over load, in place of the packaged factor of its kind", default=None
    )
    factor_source: str = text("where that factor comes from")
