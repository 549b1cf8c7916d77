"""`racewright strength`: stresses, frequencies and fatigue of the machine's parts."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.machine_case import machine_case
from racewright.cli.progress import progress
from racewright.cli.strength_table import strength_table
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.strength_findings import StrengthFindings
from racewright.ledger.strength_parts import STRENGTH_NAMES, strength_of
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_strength(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print every check; write the stresses at vanes and blades when asked.

    Raises
    ------
    InputError
        The machine has no strength table.
    """
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = machine_case(loaded, case_name)
    machine = case.machine or ""
    if machine in loaded.scheme.machine and loaded.scheme.machine[machine].strength is None:
        message = "no strength to compute; add a [machine.NAME.strength] table with the materials of its parts"
        raise loaded.error(message, "machine", machine)
    with progress("strength") as tick:
        store = Store(cache_folder(), CLASSES)
        values = evaluate(loaded, name, case, wanted=STRENGTH_NAMES, store=store, tick=tick)
    found = strength_of(roles_of(loaded.scheme, name, case), values)
    assert found is not None  # the machine has a strength table
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "strength", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "strength": found}, provenance) + "\n")
    sys.stderr.write(strength_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Roots of vanes and blades (CSV): {csv}\n")


def _write(csv: Path, found: StrengthFindings) -> None:
    """One row for each held end of vane and blade in each state."""
    roots = found.stresses.roots
    columns = [
        ("part", "1 vane or 2 blade", [1.0 if root.part == "vane" else 2.0 for root in roots]),
        ("end", "1 hub or 2 duct", [1.0 if root.end == "hub" else 2.0 for root in roots]),
    ]
    for key, unit in (
        ("stream_speed", "m/s"),
        ("rotor_speed", "rad/s"),
        ("axial_force", "N"),
        ("tangential_force", "N"),
        ("axial_bending", "N m"),
        ("tangential_bending", "N m"),
        ("pull", "N"),
        ("highest_stress", "Pa"),
        ("lowest_stress", "Pa"),
    ):
        columns.append((key, unit, [getattr(root, key) for root in roots]))
    for key, unit in (("factored_stress", "Pa"), ("design_strength", "Pa"), ("use", "-")):
        columns.append((key, unit, [getattr(root.check, key) for root in roots]))
    write_table(csv, [(name, unit, np.asarray(values, dtype=np.float64)) for name, unit, values in columns])
