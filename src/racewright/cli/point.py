"""`racewright point`: one operating point."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.machine_case import machine_case
from racewright.cli.option import quantity_option
from racewright.cli.progress import progress
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.graph import evaluate
from racewright.ledger.nodes_machine import design_rotor_speed
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.machine.diffuser import diffuser_remarks
from racewright.scheme import load_scheme
from racewright.stage.bands import band_at
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint


def show_point(
    path: Path, stream_speed: str | None, rotor_speed: str | None, case_name: str | None, *, as_json: bool
) -> None:
    """Compute and print one operating point."""
    loaded = load_scheme(path)
    speed = _given(stream_speed, "speed", "--stream-speed", 0.05, 12.0)
    turning = _given(rotor_speed, "rotation", "--rotor-speed", 0.0, 1000.0)
    name, case = machine_case(loaded, case_name)
    with progress("flow through the duct") as tick:
        store = Store(cache_folder(), CLASSES)
        values = evaluate(loaded, name, case, wanted=("rows", "bands"), store=store, tick=tick)
    roles = roles_of(loaded.scheme, name, case)
    keys = {key: roles.plain(key) for key in UNIT_KEYS}
    unit, (vanes, blades) = unit_of(keys), values["rows"]
    speed = unit.design.stream_speed if speed is None else speed
    if turning is None:
        turning = design_rotor_speed(keys, blades) * speed / unit.design.stream_speed
    point = operating_point(unit, vanes, blades, values["flow"], values["water"], speed, turning)
    remarks = (*diffuser_remarks(unit.duct), *point.remarks)
    point = replace(point, band=band_at(point.shaft_power, values["bands"]), remarks=remarks)
    if as_json:
        provenance = {"version": __version__, "command": "point", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"point": point, "water": values["water"]}, provenance) + "\n")
    sys.stderr.write(_table(point) + "\n")


def _given(text: str | None, dimension: str, option: str, low: float, high: float) -> float | None:
    return None if text is None else quantity_option(text, dimension, option, low, high)


def _table(point: OperatingPoint) -> str:
    """The point as a small table in everyday units."""
    rpm = point.rotor_speed * 30.0 / math.pi
    band = f"{point.band.low / 1e3:.2f} to {point.band.high / 1e3:.2f} kW"
    rows = [
        ("stream speed", f"{point.stream_speed:.3f} m/s"),
        ("rotor speed", f"{rpm:.1f} rpm (tip-speed ratio {point.tip_speed_ratio:.3f})"),
        ("shaft power", f"{point.shaft_power / 1e3:.3f} kW (band {band})"),
        ("torque", f"{point.torque:.1f} N m"),
        ("thrust", f"{point.thrust:.0f} N"),
        ("roll moment", f"{point.roll_moment:.1f} N m"),
        ("flow rate", f"{point.flow_rate:.3f} m3/s"),
        ("head coefficient", f"{point.head_coefficient:.4f}"),
        ("power coefficient", f"{point.power_coefficient:.4f} ({point.exit_power_coefficient:.4f} on exit area)"),
        ("hydraulic efficiency", f"{100 * point.hydraulic_efficiency:.1f} %"),
    ]
    lines = [f"{name:>21}  {value}" for name, value in rows]
    lines += [f"{remark.severity:>21}: {remark.text}" for remark in point.remarks]
    return "\n".join(lines)
