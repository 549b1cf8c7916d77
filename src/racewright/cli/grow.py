"""`racewright grow`: the machine at every size of its growth, and what is claimed of it."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.growth_case import growth_case, growth_figures
from racewright.cli.growth_table import growth_table
from racewright.cli.progress import progress
from racewright.growth.grow import Growth
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.growth_parts import growth_of
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_growth(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print the sizes and the claims; write one row a size when asked.

    Raises
    ------
    InputError
        No growth or no machine in the case.
    NoAnswerError
        A size gives no power.
    """
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = growth_case(loaded, case_name)
    with progress("grow") as tick:
        store = Store(cache_folder(), CLASSES)
        values = evaluate(loaded, name, case, wanted=("growth", "claims"), store=store, tick=tick)
    found = growth_of(roles_of(loaded.scheme, name, case), values)
    if found is None:
        raise loaded.error("a growth wants a machine; add machine = 'NAME' to the case", "case", name)
    if csv is not None:
        _write(csv, found.growth)
    if as_json:
        provenance = {"version": __version__, "command": "grow", "scheme_sha256": scheme_hash(loaded)}
        figures = growth_figures(found)
        answer = {"case": name, "sizes": figures.sizes, "claims": figures.claims, "remarks": figures.remarks}
        sys.stdout.write(to_json(answer, provenance) + "\n")
    sys.stderr.write(growth_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Sizes (CSV): {csv}\n")


def _write(csv: Path, growth: Growth) -> None:
    """One row a size."""
    solved = [page.solved for page in growth.pages]
    columns = (
        ("order", "-", [float(n) for n in range(1, len(solved) + 1)]),
        ("throat_diameter", "m", [s.step.throat_diameter for s in solved]),
        ("stream_speed", "m/s", [s.point.stream_speed for s in solved]),
        ("shaft_power_low", "W", [s.point.band.low for s in solved]),
        ("shaft_power", "W", [s.point.shaft_power for s in solved]),
        ("shaft_power_high", "W", [s.point.band.high for s in solved]),
        ("electrical_power", "W", [s.electrical_power for s in solved]),
        ("rotor_speed", "rad/s", [s.point.rotor_speed for s in solved]),
        ("torque", "N m", [s.point.torque for s in solved]),
        ("thrust", "N", [s.point.thrust for s in solved]),
        ("hydraulic_efficiency", "-", [s.point.hydraulic_efficiency for s in solved]),
        ("reynolds", "-", [s.rotor_reynolds for s in solved]),
    )
    write_table(csv, [(name, unit, np.array(values)) for name, unit, values in columns])
