"""`racewright tethers`: how the machine is held, what its lines and anchors carry, which sizes that asks for."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.block_text import block_text
from racewright.cli.encode import to_json
from racewright.cli.holding_answer import tethers_printed
from racewright.cli.holding_case import holding_findings
from racewright.dossier.chapters import held
from racewright.ledger.chain import scheme_hash
from racewright.ledger.holding_parts import HELD_NODES, HoldingFindings
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_tethers(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print the holding of a case; write its poses and tensions when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, found = holding_findings(loaded, case_name, HELD_NODES, "tethers")
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "tethers", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "tethers": tethers_printed(found)}, provenance) + "\n")
    sys.stderr.write(block_text(held.blocks(found)) + "\n")
    if csv is not None:
        sys.stderr.write(f"Poses and slow tensions: {csv}\n")


def _write(csv: Path, found: HoldingFindings) -> None:
    """One row a depth, state and speed; what did not settle is blank."""
    depths = found.held.depths
    shape = depths[0].intact.settled.shape
    states = "; ".join(f"{k} {state}" for k, state in enumerate(depths[0].intact.states))

    def every(name: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        return np.concatenate([np.asarray(getattr(one.intact, name), dtype=np.float64).ravel() for one in depths])

    speeds = [np.broadcast_to(one.intact.stream_speed, shape).ravel() for one in depths]
    columns = [
        ("depth", "m", np.repeat([one.depth for one in depths], shape[0] * shape[1])),
        ("state", states.replace(",", " "), np.tile(np.repeat(np.arange(float(shape[0])), shape[1]), len(depths))),
        ("stream_speed", "m/s", np.concatenate(speeds)),
        *((key, "m", every(key)) for key in ("cover", "bed_clearance", "offset", "knock_down")),
        *((key, "rad", every(key)) for key in ("roll", "pitch", "yaw")),
    ]
    for n, line in enumerate(depths[0].intact.lines):
        slow = np.concatenate([one.intact.tension[:, :, n].ravel() for one in depths])
        columns.append((f"slow_tension_{line.replace(' ', '_').replace(',', '_')}", "N", slow))
    columns.append(("feasible", "1 where nothing stands against it", every("feasible")))
    write_table(csv, columns)
