"""`racewright tethers`: how the machine is held, what its lines and anchors carry, which sizes that asks for."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright import __version__
from racewright.cli.block_text import block_text
from racewright.cli.encode import to_json
from racewright.cli.holding_answer import tethers_printed
from racewright.cli.holding_case import holding_findings
from racewright.dossier.chapters import held_short
from racewright.ledger.chain import scheme_hash
from racewright.ledger.holding_findings import AtDepth
from racewright.ledger.holding_parts import HELD_NODES, HoldingFindings
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme

Floats = NDArray[np.float64]


def show_tethers(path: Path, case_name: str | None, csv: Path | None, *, every: bool, as_json: bool) -> None:
    """Compute and print the holding of a case, `every` table in full; write its poses and tensions when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, found = holding_findings(loaded, case_name, HELD_NODES, "tethers")
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "tethers", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "tethers": tethers_printed(found)}, provenance) + "\n")
    sys.stderr.write(block_text(held_short.whole(found) if every else held_short.short(found)) + "\n")
    if csv is not None:
        sys.stderr.write(f"Poses and slow tensions: {csv}\n")


def _write(csv: Path, found: HoldingFindings) -> None:
    """One row a depth, state and speed; what did not settle is blank."""
    depths = found.held.depths
    names = depths[0].intact.states
    told = "; ".join(f"{k} {state}" for k, state in enumerate(names))

    def every(name: str) -> Floats:
        return np.concatenate([np.asarray(getattr(one.intact, name), dtype=np.float64).ravel() for one in depths])

    def spread(values: Callable[[AtDepth], Floats]) -> Floats:
        """A value of each depth, by state and speed of it."""
        return np.concatenate([np.broadcast_to(values(one), one.intact.settled.shape).ravel() for one in depths])

    def numbers(one: AtDepth) -> Floats:
        return np.array([[float(names.index(state))] for state in one.intact.states])

    columns = [
        ("depth", "m", spread(lambda one: np.array(one.depth))),
        ("turned", "rad", spread(lambda one: np.array(one.intact.points[0][-1].heading))),
        ("state", told.replace(",", " "), spread(numbers)),
        ("stream_speed", "m/s", spread(lambda one: one.intact.stream_speed)),
        *((key, "m", every(key)) for key in ("cover", "bed_clearance", "offset", "knock_down")),
        *((key, "rad", every(key)) for key in ("roll", "pitch", "yaw")),
    ]
    for n, line in enumerate(depths[0].intact.lines):
        slow = np.concatenate([one.intact.tension[:, :, n].ravel() for one in depths])
        columns.append((f"slow_tension_{line.replace(' ', '_').replace(',', '_')}", "N", slow))
    columns.append(("feasible", "1 where nothing stands against it", every("feasible")))
    write_table(csv, columns)
