"""What the search found in a run's cells, as one file of plain arrays: readings are made of it anew in moments."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.records.forced import force
from racewright.trials.cell_sums import COLUMNS
from racewright.trials.channel import Span
from racewright.trials.result import Refusal
from racewright.trials.ripple import Spectrum
from racewright.trials.search import Found
from racewright.trials.window import Window
from racewright.trials.zeros import TareCells

ENDING = ".windows.npz"
_SERIES = 5
"""Rows of a window's series."""


def keep_found(path: Path, found: Found, channels: int) -> None:
    """Write to `NAME.part`, force it to disk, then give it its name.

    Parameters
    ----------
    path : Path
    found : Found
    channels : int
        How many channels the windows have [-].
    """
    windows = found.windows
    refused = [asdict(one) for one in found.refusals]
    part = path.with_name(path.name + ".part")
    try:
        with part.open("wb") as stream:
            np.savez(
                stream,
                allow_pickle=False,
                first=np.array([w.first for w in windows], np.int64),
                size=np.array([w.cells for w in windows], np.int64),
                power=np.array([w.mean_power for w in windows], np.float64),
                totals=np.array([w.totals for w in windows], np.float64).reshape(-1, channels, COLUMNS),
                **_joined("series", [w.series for w in windows]),
                **_joined("ripple", [_flat(w.ripple) for w in windows]),
                refused=np.frombuffer(json.dumps(refused).encode(), np.uint8),
                tares=np.array([(t.start, t.end) for t in found.tares.tares], np.float64).reshape(-1, 2),
                still=found.tares.still,
                moving=found.tares.moving,
                blocks=found.blocks,
                cells=np.array(found.cells, np.int64),
            )
            stream.flush()
            os.fsync(stream.fileno())
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    part.rename(path)
    force(path.parent)


def kept_found(path: Path) -> Found:
    """The same again, to the last bit."""
    with np.load(path, allow_pickle=False) as file:
        told = {name: file[name] for name in file.files}
    series, ripple = _parted("series", told), _parted("ripple", told)
    columns = (told["first"].tolist(), told["size"].tolist(), told["totals"], series, told["power"].tolist(), ripple)
    windows = tuple(
        Window(first, size, totals, values.reshape(_SERIES, -1), power, _spectrum(orders))
        for first, size, totals, values, power, orders in zip(*columns, strict=True)
    )
    refused = [
        Refusal(one["start"], one["end"], tuple(one["reasons"])) for one in json.loads(told["refused"].tobytes())
    ]
    tares = TareCells(tuple(Span(*one) for one in told["tares"].tolist()), told["still"], told["moving"])
    return Found(windows, tuple(refused), tares, told["blocks"], int(told["cells"]))


def _flat(found: Spectrum) -> NDArray[np.float64]:
    return np.concatenate([found.amplitude, found.floor, found.stands])


def _spectrum(flat: NDArray[np.float64]) -> Spectrum:
    """Amplitudes are twice as many as floors and thresholds."""
    return Spectrum(*np.split(flat, (flat.size // 2, 3 * flat.size // 4)))


def _joined(name: str, parts: Sequence[NDArray[np.float64]]) -> dict[str, Any]:
    """Arrays of different length one behind the other, and where each ends."""
    ends = np.cumsum([one.size for one in parts], dtype=np.int64)
    return {name: np.concatenate([np.empty(0), *(one.ravel() for one in parts)]), f"{name}_ends": ends}


def _parted(name: str, told: dict[str, NDArray[Any]]) -> list[NDArray[np.float64]]:
    ends = told[f"{name}_ends"].tolist()
    return [told[name][first:last] for first, last in zip([0, *ends], ends, strict=False)]
