"""Scheme tables of the machine. Axial places are measured from the duct's leading edge, downstream positive."""

from __future__ import annotations

from pydantic import Field

from racewright.quantity.grammar import Quantity
from racewright.scheme.types import Table, flag, money, quantity, ratio, text, whole


class DuctTable(Table):
    """The duct: an annular aerofoil."""

    throat_diameter: float = quantity("length", "0.05 m", "40 m", "smallest inner diameter")
    exit_area_ratio: float = ratio(1.0, 3.0, "exit area over throat area, full circles")
    length: float = quantity("length", "0.01 m", "60 m", "chord of the duct's section")
    thickness: float = ratio(0.02, 0.25, "thickness over length")


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


class DesignTable(Table):
    """The state the rows are shaped for: free vortex, axial exit."""

    stream_speed: float = quantity("speed", "0.1 m/s", "8 m/s", "stream speed of the design point")
    head_coefficient: float = ratio(0.05, 0.9, "head drop over half the stream speed squared")
    tip_speed_ratio: float = ratio(0.5, 8.0, "rotor tip speed over stream speed")


class DriveTable(Table):
    """Gear, generator and limits."""

    gear_efficiency: float = ratio(0.3, 1.0, "rotor shaft to generator; 1 for a direct drive")
    generator_efficiency: float = ratio(0.3, 1.0, "generator with its converter")
    cut_in_speed: float = quantity("speed", "0.05 m/s", "5 m/s", "no power below this stream speed")
    rated_power: float = quantity("power", "1 W", "10 MW", "electrical power that is not passed")


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
    cost: CostTable | None = Field(None, description="what it costs; needed for the cost chapter")
