"""`racewright size`: a first size by rules, solved once, as a table to put into the scheme."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.option import quantity_option
from racewright.cli.progress import progress
from racewright.errors import InputError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.inputs import case_of
from racewright.ledger.roles import roles_of
from racewright.scheme import load_scheme
from racewright.scheme.place_tables import WaterTable
from racewright.stage.proposal import Proposal
from racewright.stage.result import OperatingPoint
from racewright.stage.sizing import alternatives
from racewright.stage.sizing_solve import SizedMachine, sized_machine
from racewright.uncertainty import Band
from racewright.water import properties

_SHAPES = ("mild", "middle", "wide")


@dataclass(frozen=True)
class Sized:
    """A proposal whose diameter the solved stage has settled.

    Attributes
    ----------
    proposal : Proposal
        At the settled diameter; its `expected_power` stays that of the rules.
    point : OperatingPoint
        At the design stream speed and rotor speed.
    wanted_power, electrical_power : float
        Of one machine: asked for; found [W].
    band : Band
        Electrical power found, with its prior band [W].
    tried_diameter, tried_power : ndarray, shape (n,)
        Throat diameters solved, and electrical powers found [m], [W].
    """

    proposal: Proposal
    point: OperatingPoint
    wanted_power: float
    electrical_power: float
    band: Band
    tried_diameter: NDArray[np.float64]
    tried_power: NDArray[np.float64]


def show_size(
    path: Path,
    power: str,
    stream_speed: str,
    depth: str | None,
    duct: str,
    drive_efficiency: float,
    case_name: str | None,
    *,
    as_json: bool,
) -> None:
    """Propose three sizes, solve one, print it as a scheme table."""
    loaded = load_scheme(path)
    wanted = quantity_option(power, "power", "--power", 50.0, 5e7)
    speed = quantity_option(stream_speed, "speed", "--stream-speed", 0.3, 6.0)
    deep = None if depth is None else quantity_option(depth, "length", "--depth", 0.2, 1000.0)
    if duct not in _SHAPES:
        raise InputError(f"{duct!r} is none of {', '.join(map(repr, _SHAPES))}", key="--duct")
    if not 0.3 <= drive_efficiency <= 1.0:
        raise InputError(
            f"{drive_efficiency:g} is out of range; it must lie between 0.3 and 1", key="--drive-efficiency"
        )
    name, case = case_of(loaded, case_name)
    keys = roles_of(loaded.scheme, name, case).plain("place.water") or WaterTable().model_dump()
    water = properties(keys["temperature"], "sea" if keys["kind"] == "sea" else "fresh")
    found = alternatives(wanted, speed, water, depth=deep, drive_efficiency=drive_efficiency)
    with progress("solving the proposal") as tick:
        solved = sized_machine(found[_SHAPES.index(duct)], water, tick=tick)
    if as_json:
        provenance = {"version": __version__, "command": "size", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"proposals": list(found), "solved": _sized(solved)}, provenance) + "\n")
    else:
        sys.stdout.write(scheme_table(solved) + "\n")
    sys.stderr.write(_told(found, solved) + "\n")


def _sized(solved: SizedMachine) -> Sized:
    return Sized(
        solved.proposal,
        solved.point,
        solved.wanted_power,
        solved.electrical_power,
        solved.band,
        solved.tried_diameter,
        solved.tried_power,
    )


def scheme_table(solved: SizedMachine) -> str:
    """The machine as tables of a scheme, lengths to the millimetre or four digits."""
    unit, proposal = solved.unit, solved.proposal
    duct, hub, design = unit.duct, unit.hub, unit.design
    lines = [
        "# A first size by rules, solved once: not a design. Put it into the scheme and work on it.",
        "[machine.proposed]",
        'description = "first size"',
        "",
        "[machine.proposed.duct]",
        f"throat_diameter = {_length(2.0 * duct.throat_radius)}",
        f"exit_area_ratio = {duct.exit_area_ratio:g}",
        f"length = {_length(duct.length)}",
        f"thickness = {duct.thickness:g}",
        "",
        "[machine.proposed.hub]",
        f"diameter = {_length(2.0 * hub.radius)}",
        f"nose_x = {_length(hub.nose_x)}",
        f"nose_length = {_length(hub.nose_length)}",
        f"cylinder_length = {_length(hub.cylinder_length)}",
        f"tail_length = {_length(hub.tail_length)}",
    ]
    for key, row in (("vanes", unit.vanes), ("rotor", unit.blades)):
        lines += [
            "",
            f"[machine.proposed.{key}]",
            f"count = {row.count}",
            f"place_x = {_length(row.place_x)}",
            f"hub_chord = {_length(row.hub_chord)}",
            f"tip_chord = {_length(row.tip_chord)}",
            f"thickness = {row.thickness:g}",
            *([f"clearance = {row.clearance:.4g}"] if key == "rotor" else []),
        ]
    lines += [
        "",
        "[machine.proposed.design]",
        f'stream_speed = "{design.stream_speed:g} m/s"',
        f"head_coefficient = {design.head_coefficient:g}",
        f"tip_speed_ratio = {design.tip_speed_ratio:g}",
        "",
        "[machine.proposed.drive]",
        "gear_efficiency = 1",
        f"generator_efficiency = {proposal.drive_efficiency:g}  # gear, generator and converter together",
        f'cut_in_speed = "{min(0.7, 0.4 * design.stream_speed):.2g} m/s"  # own rule; your generator decides',
        f'rated_power = "{proposal.wanted_power / proposal.machines:.6g} W"',
    ]
    return "\n".join(lines)


def _length(metres: float) -> str:
    """A length to four digits, at least to a tenth of a millimetre."""
    return f'"{round(metres, 4) + 0.0:.6g} m"'


def _told(found: tuple[Proposal, ...], solved: SizedMachine) -> str:
    lines = [
        "By rules, for each duct:",
        f"{'duct':>8} {'machines':>9} {'throat m':>9} {'overall m':>10} {'length m':>9} {'kW each':>8} {'CP exit':>8}"
        f" {'rpm':>6}",
    ]
    for p in found:
        lines.append(
            f"{p.shape:>8} {p.machines:>9d} {p.throat_diameter:>9.3f} {p.overall_diameter:>10.3f} {p.length:>9.3f}"
            f" {p.expected_power.value / 1e3:>8.2f} {p.exit_power_coefficient:>8.3f} {p.rotor_speed * 9.5493:>6.0f}"
        )
    band, p = solved.band, solved.proposal
    lines += [
        f"Solved, {p.shape} duct: {2.0 * solved.unit.duct.throat_radius:.3f} m in the throat give"
        f" {solved.electrical_power / 1e3:.3g} kW electrical each ({band.low / 1e3:.3g} to {band.high / 1e3:.3g} kW,"
        f" {band.basis}); wanted {solved.wanted_power / 1e3:.3g} kW each"
        f" of {p.machines}, {p.wanted_power / 1e3:.4g} kW in all.",
        *(f"{r.severity}: {r.text}" for r in p.remarks),
        "A first size is no design and no basis for building: strength, moorings, electrics and permits are the work"
        " of licensed people under local codes.",
    ]
    return "\n".join(lines)
