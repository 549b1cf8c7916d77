"""Chapter on the machine: what it is, its design point, its curves."""

from __future__ import annotations

import math

from racewright.dossier import format as fmt
from racewright.dossier.chapters import causes, cavitation, control, outside, rows, states
from racewright.dossier.chapters.words import LOADS_DEFER, absent, facts, remark_table
from racewright.dossier.document import Block, Chapter, Heading, Picture, Table, Text
from racewright.dossier.figures.section import outer_radius
from racewright.dossier.text import clean, signs
from racewright.ledger.findings import Findings, MachineFindings
from racewright.place.reach import GRAVITY


def write(findings: Findings) -> Chapter:
    """The machine, its design point and its curves."""
    machine = findings.machine
    if machine is None:
        return Chapter("machine", "Machine", (absent(findings, "machine"),))
    point = machine.design_point
    blocks: list[Block] = []
    words = clean(machine.description)
    if words:
        blocks.append(Text(words))
    power = fmt.band(point.band, fmt.POWER)
    blocks.append(
        Text(
            f"Shaft power at the design point is {power.both} in a stream of "
            f"{fmt.fixed(point.stream_speed, fmt.SPEED, 2)}.",
            "lead",
        )
    )
    if not point.converged:
        blocks.append(
            Text(
                "Head drop and flow did not agree to tolerance: treat every figure of this chapter with doubt.",
                "safety",
            )
        )
    blocks += [
        _built(machine),
        Picture(
            "stream",
            "Side view to scale. Solid lines pass the rotor, dashed lines pass outside the duct.",
            _stream_alt(findings, machine),
        ),
        Heading("Design point"),
        _design_point(machine),
        Text(LOADS_DEFER, "safety"),
        Picture(
            "triangles",
            "Relative flow + blade speed = flow. Axial flow to the right, rotation upwards.",
            "Six velocity triangles; the figures stand in the next table.",
        ),
        rows.angles(machine),
        rows.shapes(machine),
        rows.losses(machine),
        *outside.write(point),
        *((Heading("The band on power"), *causes.write(machine.bands)) if machine.bands.value > 0.0 else ()),
        *((Heading("Loads in every state"), *states.write(machine.states)) if machine.states else ()),
        *cavitation.write(machine.cavitation),
        Heading("Drive and control"),
        *control.write(machine.control),
        Heading("Away from the design point"),
        Text(
            "Coefficients over tip-speed ratio in a stream of "
            f"{fmt.fixed(machine.curve.stream_speed, fmt.SPEED, 2)}, "
            "and electrical power over stream speed."
        ),
        Picture(
            "coefficients",
            "Coefficients on the rotor annulus area; the shaded band is the prior band on power.",
            _curve_alt(machine),
        ),
        Picture(
            "map",
            "Shaft power over stream speed and rotor speed, in steps; the line is how the machine is run.",
            "Shaft power grows with stream speed and has a ridge along the line on which the machine is run.",
        ),
        Picture(
            "power",
            "Electrical power at the terminals; the shaded band is the prior band, capped at rated power.",
            _power_alt(machine),
        ),
    ]
    separation = tuple(r for r in findings.remarks if r.about == "separation")
    remarks = tuple(dict.fromkeys((*separation, *machine.flow.remarks, *point.remarks)))
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on the machine"))
    return Chapter("machine", "Machine", tuple(blocks))


def _built(machine: MachineFindings) -> Table:
    unit, duct = machine.unit, machine.unit.duct
    exit_diameter = 2 * duct.throat_radius * math.sqrt(duct.exit_area_ratio)
    return facts(
        "The machine as meant",
        [
            (
                "throat diameter",
                fmt.quantity(2 * duct.throat_radius, fmt.LENGTH),
                "smallest inner diameter of the duct",
            ),
            (
                "outer diameter",
                fmt.quantity(2 * outer_radius(machine), fmt.LENGTH),
                "largest diameter of the duct",
            ),
            (
                "exit diameter",
                fmt.quantity(exit_diameter, fmt.LENGTH),
                f"exit area ratio {fmt.number(duct.exit_area_ratio, 2)}",
            ),
            (
                "duct chord",
                fmt.quantity(duct.length, fmt.LENGTH),
                f"section {fmt.quantity(duct.thickness, fmt.SHARE)} thick",
            ),
            (
                "rotor diameter",
                fmt.quantity(2 * float(machine.blades.radius[-1]), fmt.LENGTH),
                f"tip to tip; gap {fmt.quantity(machine.blades.clearance, fmt.SMALL_LENGTH)} to the duct",
            ),
            (
                "annulus area",
                fmt.quantity(machine.flow.annulus_area, fmt.AREA),
                "between hub and duct at the rotor: the area of CP and CT",
            ),
            (
                "hub diameter",
                fmt.quantity(2 * unit.hub.radius, fmt.LENGTH),
                f"{fmt.quantity(unit.hub.radius / duct.throat_radius, fmt.SHARE, 2)} of the throat",
            ),
            ("rows", f"{machine.vanes.count} + {machine.blades.count}", "vanes ahead of the rotor + blades"),
            (
                "rated power",
                fmt.quantity(machine.drive.rated_power, fmt.POWER),
                "electrical power, held in faster water",
            ),
            ("cut-in speed", fmt.fixed(machine.drive.cut_in_speed, fmt.SPEED, 2), "no power below"),
            (
                "drive",
                fmt.quantity(machine.drive.gear_efficiency * machine.drive.generator_efficiency, fmt.SHARE),
                "gear and generator efficiency together",
            ),
            (
                "water",
                fmt.quantity(machine.water.density, fmt.DENSITY, 4),
                f"{machine.water.kind}, {fmt.number(machine.water.temperature - 273.15, 1)}{fmt.THIN}°C",
            ),
        ],
    )


def _design_point(machine: MachineFindings) -> Table:
    p = machine.design_point
    power = fmt.band(p.band, fmt.POWER)
    return facts(
        "The design point",
        [
            ("stream speed", fmt.fixed(p.stream_speed, fmt.SPEED, 2), "cube mean over the capture area"),
            (
                "shaft power",
                power.value,
                f"{power.range}: {signs(p.band.basis)}" if p.band.basis else power.range,
            ),
            (
                "rotor speed",
                fmt.quantity(p.rotor_speed, fmt.ROTATION),
                f"tip-speed ratio {fmt.number(p.tip_speed_ratio, 2)}",
            ),
            ("torque", fmt.quantity(p.torque, fmt.TORQUE), "on the rotor shaft"),
            (
                "thrust",
                fmt.quantity(p.thrust, fmt.FORCE),
                "axial force on the whole machine, at the design point only",
            ),
            ("roll moment", fmt.quantity(p.roll_moment, fmt.TORQUE), "at the design point only; see the states"),
            ("flow rate", fmt.quantity(p.flow_rate, fmt.DISCHARGE), "through the rotor"),
            (
                "head drop",
                fmt.quantity(p.head_drop / GRAVITY, fmt.LENGTH),
                f"of water, taken by the stage; {fmt.quantity(p.head_drop, fmt.HEAD)}",
            ),
            (
                "CH",
                fmt.number(p.head_coefficient, 3),
                "head coefficient, head drop over half the stream speed squared",
            ),
            (
                "u",
                fmt.number(p.speed_ratio, 3),
                "speed ratio, mean axial speed at the rotor over stream speed",
            ),
            ("CP", fmt.number(p.power_coefficient, 3), "power coefficient on the rotor annulus"),
            ("CP exit", fmt.number(p.exit_power_coefficient, 3), "power coefficient on the duct's exit area"),
            (
                "CP frontal",
                fmt.number(frontal_power_coefficient(machine), 3),
                "power coefficient on the duct's outer circle; a good bare rotor of that diameter reaches about "
                "0.40 to 0.45 (from memory)",
            ),
            ("CT", fmt.number(p.thrust_coefficient, 3), "thrust coefficient on the rotor annulus"),
            (
                "efficiency",
                fmt.quantity(p.hydraulic_efficiency, fmt.SHARE),
                "hydraulic: shaft power over the power taken from the head",
            ),
        ],
    )


def frontal_power_coefficient(machine: MachineFindings) -> float:
    """Design shaft power over rho U^3/2 on the circle of the duct's outer diameter [-]."""
    point = machine.design_point
    area = math.pi * outer_radius(machine) ** 2
    return point.shaft_power / (0.5 * machine.water.density * point.stream_speed**3 * area)


def _stream_alt(findings: Findings, machine: MachineFindings) -> str:
    outer = fmt.fixed(2 * outer_radius(machine), fmt.LENGTH, 2)
    where = (
        ""
        if findings.place is None
        else f", its axis {fmt.fixed(findings.place.hub_depth, fmt.LENGTH, 2)} below the surface"
    )
    return (
        f"Side view with flow from the left: a duct of {outer} outer diameter, {machine.vanes.count} vanes "
        f"ahead of a rotor with {machine.blades.count} blades{where}. Lines that pass the rotor are solid."
    )


def _curve_alt(machine: MachineFindings) -> str:
    p = machine.design_point
    power, thrust = fmt.number(p.power_coefficient, 2), fmt.number(p.thrust_coefficient, 2)
    return (
        f"CP and CT over tip-speed ratio at {fmt.fixed(p.stream_speed, fmt.SPEED, 2)}; the design point has "
        f"CP {power} and CT {thrust} at {fmt.number(p.tip_speed_ratio, 2)}."
    )


def _power_alt(machine: MachineFindings) -> str:
    drive = machine.drive
    return (
        "Electrical power over stream speed with its band: "
        f"none below {fmt.fixed(drive.cut_in_speed, fmt.SPEED, 2)}, "
        f"not more than {fmt.quantity(drive.rated_power, fmt.POWER)}."
    )
