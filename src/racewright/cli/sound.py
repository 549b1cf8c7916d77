"""`racewright sound`: levels of the machine by band and distance, beside the ambient, against thresholds."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.neighbours_case import neighbours_case
from racewright.cli.progress import progress
from racewright.cli.sound_table import sound_table
from racewright.errors import NoAnswerError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.neighbours_findings import SoundAt
from racewright.ledger.store import Store, cache_folder
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_sound(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print the sound of the machine; write every band when asked.

    Raises
    ------
    InputError
        The case's neighbours have no sound table.
    NoAnswerError
        Neither operating point has an answer.
    """
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, case = neighbours_case(loaded, case_name)
    if loaded.scheme.neighbours[case.neighbours or ""].sound is None:
        message = "no sound to compute; add a [neighbours.NAME.sound] table"
        raise loaded.error(message, "neighbours", case.neighbours or "")
    with progress("sound") as tick:
        values = evaluate(loaded, name, case, wanted=("sound",), store=Store(cache_folder(), CLASSES), tick=tick)
    found: tuple[SoundAt, ...] = values["sound"]
    if all(at.level is None for at in found):
        raise NoAnswerError(f"no operating point has an answer: {found[0].reason}")
    if csv is not None:
        _write(csv, found)
    if as_json:
        provenance = {"version": __version__, "command": "sound", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "sound": found}, provenance) + "\n")
    sys.stderr.write(sound_table(found) + "\n")
    if csv is not None:
        sys.stderr.write(f"Bands (CSV): {csv}\n")


def _write(csv: Path, found: tuple[SoundAt, ...]) -> None:
    """One row for each operating point, distance and band."""
    names = ("stream_speed", "distance", "frequency", "source_level", "received", "ambient", "excess")
    units = ("m/s", "m", "Hz", "dB re 1 uPa m", "dB re 1 uPa", "dB re 1 uPa", "dB")
    parts = []
    for at in found:
        if at.level is None:
            continue
        one, shape = at.level, at.level.received.shape
        columns = (
            np.full(shape, at.stream_speed), np.broadcast_to(one.distance[:, None], shape),
            np.broadcast_to(one.frequency, shape), np.broadcast_to(one.source_level, shape), one.received,
            np.broadcast_to(one.ambient, shape), one.excess,
        )  # fmt: skip
        parts.append(np.stack([column.ravel() for column in columns]))
    write_table(csv, list(zip(names, units, np.concatenate(parts, axis=1), strict=True)))
