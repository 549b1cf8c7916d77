"""`racewright map`: the machine over stream speed and rotor speed."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.machine_case import machine_case
from racewright.cli.progress import progress
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.store import Store, cache_folder
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme
from racewright.stage.performance_map import PerformanceMap

_SHOWN_SPEEDS, _SHOWN_RATIOS = 8, 9
"""Rows and columns of the table on the terminal."""


def show_map(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute the map; print it short, as JSON, or write it in full as CSV."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = machine_case(loaded, case_name)
    with progress("map") as tick:
        values = evaluate(loaded, name, case, wanted=("map",), store=Store(cache_folder(), CLASSES), tick=tick)
    found: PerformanceMap = values["map"]
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "map", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"map": found}, provenance) + "\n")
    sys.stderr.write(_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Map (CSV): {csv}\n")


def _write(csv: Path, found: PerformanceMap) -> None:
    shape = found.shaft_power.shape
    speeds = np.broadcast_to(found.stream_speed[:, None], shape)
    ratios = np.broadcast_to(found.tip_speed_ratio, shape)
    columns = [("stream_speed", "m/s", speeds), ("tip_speed_ratio", "-", ratios)]
    columns += [("rotor_speed", "rad/s", ratios * speeds / _tip_radius(found))]
    for key, unit in (
        ("shaft_power", "W"),
        ("torque", "N m"),
        ("thrust", "N"),
        ("roll_moment", "N m"),
        ("flow_rate", "m3/s"),
        ("head_coefficient", "-"),
        ("speed_ratio", "-"),
        ("swirl_exit", "m2/s"),
        ("lowest_pressure", "Pa"),
    ):
        columns.append((key, unit, np.where(found.answered, getattr(found, key), np.nan)))
    columns.append(("closure", "1 where a stated closure answers", np.where(found.closure, 1.0, 0.0)))
    write_table(csv, [(n, u, np.asarray(v, dtype=np.float64).ravel()) for n, u, v in columns])


def _tip_radius(found: PerformanceMap) -> float:
    """Ratio x stream speed / rotor speed of any turning point [m]."""
    ratio, speed = np.meshgrid(found.tip_speed_ratio, found.stream_speed)
    turns = found.answered & (found.rotor_speed > 0.0)
    return float(np.max((ratio * speed)[turns] / found.rotor_speed[turns]))


def _table(found: PerformanceMap) -> str:
    """Shaft power at a few speeds and ratios."""
    rows = np.unique(np.round(np.linspace(0, found.stream_speed.size - 1, _SHOWN_SPEEDS)).astype(int))
    columns = np.unique(np.round(np.linspace(0, found.tip_speed_ratio.size - 1, _SHOWN_RATIOS)).astype(int))
    power = np.where(found.answered, found.shaft_power, 0.0)
    kilo = 1.0 if float(power.max()) < 2000.0 else 1e3
    lines = [
        f"Shaft power, {'W' if kilo == 1.0 else 'kW'}, over stream speed (down) and tip-speed ratio (across);"
        " '-' no answer, '*' on a stated closure of the flow",
        "    m/s " + "".join(f"{found.tip_speed_ratio[j]:>9.2f}" for j in columns),
    ]
    for i in rows:
        cells = (_cell(found, i, j, kilo) for j in columns)
        lines.append(f"{found.stream_speed[i]:>7.2f} " + "".join(f"{cell:>9}" for cell in cells))
    i, j = np.unravel_index(int(np.argmax(power[-1])), (1, power.shape[1]))
    best = found.tip_speed_ratio[j]
    turning = found.rotor_speed[-1, j] * 30.0 / math.pi
    lines.append(
        f"Most power at {found.stream_speed[-1]:.2f} m/s: {power[-1, j] / kilo:.3g} {'W' if kilo == 1.0 else 'kW'}"
        f" at tip-speed ratio {best:.2f}, {turning:.0f} rpm (steps of the map)"
    )
    return "\n".join(lines)


def _cell(found: PerformanceMap, i: int, j: int, kilo: float) -> str:
    if not found.answered[i, j]:
        return "-"
    return f"{found.shaft_power[i, j] / kilo:.3g}" + ("*" if found.closure[i, j] else "")
