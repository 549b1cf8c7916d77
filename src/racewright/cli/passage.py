"""`racewright passage`: fish and debris through the machine."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.neighbours_case import neighbours_case, neighbours_figures
from racewright.cli.passage_table import passage_table
from racewright.cli.progress import progress
from racewright.errors import NoAnswerError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.neighbours_findings import NeighboursFindings
from racewright.ledger.neighbours_parts import neighbours_of
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme

WANTED = ("fish", "fish_beside", "debris", "screen", "trade", "site")


def show_passage(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print what fish and debris meet; write strikes by radius when asked.

    Raises
    ------
    NoAnswerError
        No fish of the scheme has an answer at any operating point.
    """
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = neighbours_case(loaded, case_name)
    with progress("passage") as tick:
        values = evaluate(loaded, name, case, wanted=WANTED, store=Store(cache_folder(), CLASSES), tick=tick)
    found = neighbours_of(roles_of(loaded.scheme, name, case), values)
    assert found is not None  # `neighbours_case` gives a case that has them
    every = [at for fish in found.fish for at in fish.at]
    if every and all(at.passage is None for at in every):
        raise NoAnswerError(f"no fish has an answer: {every[0].reason}")
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "passage", "scheme_sha256": scheme_hash(loaded)}
        answer = {"case": name, "neighbours": neighbours_figures(found)}
        sys.stdout.write(to_json(answer, provenance) + "\n")
    sys.stderr.write(passage_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Strikes by radius (CSV): {csv}\n")


def _write(csv: Path, found: NeighboursFindings) -> None:
    """One row for each fish, operating point, row of edges and radius."""
    names = ("fish", "point", "row", "radius", "relative_speed", "chance", "along_axis", "along_water", "dead_low",
             "dead", "dead_high")  # fmt: skip
    units = (
        "order of the names from 1",
        "1 design or 2 fastest water",
        "1 vanes or 2 rotor",
        "m",
        "m/s",
        *(["-"] * 6),
    )
    rows = []
    for k, fish in enumerate(found.fish, start=1):
        for p, at in enumerate(fish.at, start=1):
            if at.passage is None:
                continue
            for r, row in enumerate(at.passage.strike.rows, start=1):
                same = np.ones(row.radius.size)
                rows.append(
                    np.stack(
                        [k * same, p * same, r * same, row.radius, row.relative_speed, row.chance[0],
                         row.chance_axial[0], row.chance_along[0], row.injury_low[0], row.injury[0],
                         row.injury_high[0]]
                    )
                )  # fmt: skip
    table = np.concatenate(rows, axis=1) if rows else np.zeros((len(names), 0))
    write_table(csv, list(zip(names, units, table, strict=True)))
