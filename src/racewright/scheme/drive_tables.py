"""Scheme tables of the drive: gear, generator, what takes the power, brake, and how rated power is held."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.types import Table, choice, flag, name, quantity, ratio, text, whole


class GearTable(Table):
    """Between rotor shaft and generator."""

    ratio: float = ratio(1.0, 500.0, "generator speed over rotor speed", default=1.0, because="direct drive")
    drag_torque: float = quantity(
        "torque",
        "0 N m",
        "1000 kN m",
        "constant drag at the rotor shaft, seals included",
        default="0 N m",
        because="none",
    )
    standstill_torque: float = quantity(
        "torque", "0 N m", "1000 kN m", "friction at rest, at the rotor shaft", default="0 N m", because="none"
    )


class MagnetsTable(Table):
    """A permanent-magnet generator behind a diode bridge."""

    line_voltage_constant: float = quantity(
        "magnetic flux", "0.0001 V s", "1000000 V s", "open line voltage (rms) over generator speed in rad/s"
    )
    phase_resistance: float = quantity("resistance", "0 ohm", "1000 ohm", "of one phase")
    phase_inductance: float = quantity("inductance", "0 H", "10 H", "of one phase", default="0 H", because="left out")
    pole_pairs: int = whole(1, 1000, "pole pairs", default=1, because="of no effect without inductance")
    hysteresis_torque: float = quantity(
        "torque", "0 N m", "100 kN m", "iron's torque that does not grow with speed", default="0 N m", because="none"
    )
    eddy_torque: float = quantity(
        "torque over speed", "0 N m s", "100000 N m s", "iron's torque over speed", default="0 N m s", because="none"
    )
    cogging_torque: float = quantity(
        "torque",
        "0 N m",
        "100 kN m",
        "largest torque that holds the standing generator",
        default="0 N m",
        because="none",
    )
    largest_current: float = quantity("current", "0.1 A", "100000 A", "direct current that it bears")
    source: str = text("where the figures come from")


class GeneratorFileTable(Table):
    """A generator's test sheet: one line a point of speed and current."""

    file: str = name("CSV file beside the scheme")
    speed_column: str = name("column of generator speed", default="speed", because="as in the guide")
    current_column: str = name("column of direct current", default="current", because="as in the guide")
    voltage_column: str = name("column of direct voltage", default="voltage", because="as in the guide")
    loss_column: str = name("column of loss", default="loss", because="as in the guide")
    torque_column: str | None = name("column of measured shaft torque", default=None)
    speed_unit: str = name("unit of the speeds", default="rpm", because="as on test sheets")
    cogging_torque: float = quantity(
        "torque",
        "0 N m",
        "100 kN m",
        "largest torque that holds the standing generator",
        default="0 N m",
        because="none",
    )
    source: str = text("where the figures come from")


class BatteryTable(Table):
    """A battery or direct-current bus of fixed voltage behind the diode bridge."""

    voltage: float = quantity("voltage", "1 V", "10 kV", "held whatever the current")
    diode_drop: float = quantity(
        "voltage",
        "0 V",
        "10 V",
        "drop of the diodes in series",
        default="1.8 V",
        because="two silicon diodes, from memory",
    )
    line_resistance: float = quantity(
        "resistance", "0 ohm", "1000 ohm", "cable both ways and the battery's own", default="0 ohm", because="none"
    )


class BrakeTable(Table):
    """A friction brake, at the rotor shaft."""

    torque: float = quantity("torque", "0.01 N m", "100 MN m", "while it slips")
    heat: float = quantity("energy", "1 J", "1000000 MJ", "heat that its parts may take in one stop")


class DumpTable(Table):
    """A resistor that takes what the consumers do not."""

    power: float = quantity("power", "1 W", "1000 MW", "largest electrical power")
    duration: float = quantity("time", "1 s", "10 yr", "time that it bears its largest power")


class DriveTable(Table):
    """Gear, generator and limits."""

    gear_efficiency: float = ratio(0.3, 1.0, "rotor shaft to generator; 1 for a direct drive")
    generator_efficiency: float = ratio(
        0.3,
        1.0,
        "generator with its converter; of no effect where magnets or a table describe the generator",
    )
    converter_efficiency: float = ratio(
        0.05,
        1.0,
        "terminals over generator, where magnets or a table describe it",
        default=1.0,
        because="no converter",
    )
    cut_in_speed: float = quantity("speed", "0.05 m/s", "5 m/s", "no power below this stream speed")
    rated_power: float = quantity("power", "1 W", "10 MW", "electrical power that is not passed")
    law: str = choice(
        ("tip-speed ratio", "fixed speed", "battery"),
        "what sets the rotor's speed below rated power",
        default="tip-speed ratio",
        because="a torque that grows with the square of rotor speed",
    )
    fixed_speed: float | None = quantity(
        "rotation", "0.1 rpm", "3000 rpm", "rotor speed of the law 'fixed speed'", default=None
    )
    hold: str = choice(
        ("recommended", "slow", "speed up", "dump"),
        "how rated power is held in faster water",
        default="recommended",
        because="slowing if the drive can, else speeding up, else dumping",
    )
    torque_limit: float | None = quantity(
        "torque", "0.01 N m", "100 MN m", "largest torque at the rotor shaft", default=None
    )
    rotor_speed_limit: float | None = quantity("rotation", "0.1 rpm", "3000 rpm", "largest rotor speed", default=None)
    overspeed_ratio: float = ratio(
        1.0,
        10.0,
        "overspeed whose time is wanted, over the speed at loss of load",
        default=1.3,
        because="own rule, no source",
    )
    rotor_inertia: float | None = quantity(
        "inertia",
        "0.0001 kg m2",
        "1000000000 kg m2",
        "rotor with the water that it carries along; needed for loss of load",
        default=None,
    )
    generator_inertia: float = quantity(
        "inertia",
        "0 kg m2",
        "1000000 kg m2",
        "what turns at the generator's speed",
        default="0 kg m2",
        because="left out",
    )
    on_a_network: bool = flag("true when it feeds a network that others feed too", default=False, because="an island")
    gear: GearTable = Field(default_factory=GearTable, description="gear")
    magnets: MagnetsTable | None = Field(None, description="the generator as a circuit with permanent magnets")
    table: GeneratorFileTable | None = Field(None, description="the generator as a table from its test")
    battery: BatteryTable | None = Field(None, description="the battery of the law 'battery'")
    brake: BrakeTable | None = Field(None, description="brake")
    dump: DumpTable | None = Field(None, description="dump load")
