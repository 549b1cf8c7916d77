"""`racewright energy`: a year's energy by speed, month and year, its band by cause."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.energy_table import energy_table
from racewright.cli.progress import progress
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.energy_parts import WANTED, energy_of, parts_of, remarks_of
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.store import Store, cache_folder
from racewright.place.result import Floats
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme
from racewright.supply.result import YearlyEnergy

_KWH = 3.6e6


def show_energy(path: Path, csv: Path | None, case_name: str | None, *, as_json: bool) -> None:
    """Compute and print the energy of one machine of a case; write the table by speed when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = case_of(loaded, case_name)
    at = ("case", name) if name else ("case",)
    for role, table in (("place", case.place), ("machine", case.machine)):
        if table is None:
            message = f"no {role}, so no energy; add a [{role}.NAME] table and {role} = 'NAME' to the case"
            raise loaded.error(message, *at)
    with progress("energy") as tick:
        values = evaluate(loaded, name, case, wanted=WANTED, store=Store(cache_folder(), CLASSES), tick=tick)
    energy, parts = energy_of(values), parts_of(values)
    assert energy is not None  # a case with place and machine has it
    assert parts is not None
    edge, remarks = values["site"].climate.edge, remarks_of(values)
    if csv is not None:
        _write(csv, edge, energy)
    if as_json:
        provenance = {"version": __version__, "command": "energy", "scheme_sha256": scheme_hash(loaded)}
        answer = {
            "case": name,
            "count": case.count,
            "energy": energy,
            "energy_parts": parts,
            "remarks": list(remarks),
        }
        sys.stdout.write(to_json(answer, provenance) + "\n")
    sys.stderr.write(energy_table(energy, parts, remarks, case.count) + "\n")
    if csv is not None:
        sys.stderr.write(f"Bins: {csv}\n")


def _write(csv: Path, edge: Floats, energy: YearlyEnergy) -> None:
    columns = [
        ("speed_from", "m/s", edge[:-1]),
        ("speed_to", "m/s", edge[1:]),
        ("share", "-", energy.share),
        ("power", "W", energy.power),
        ("energy", "kWh", energy.energy / _KWH),
    ]
    write_table(csv, columns)
