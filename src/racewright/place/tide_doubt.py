"""What the speed of a tidal site is unsure by."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.speed_uncertainty import SpeedCause
from racewright.place.tide_predict import predict
from racewright.place.tide_result import Tide

INSTRUMENT = 0.02
"""Relative standard uncertainty of a current meter's speed; default (common practice, no source) [-]."""
FACTOR_STATED, FACTOR_ASSUMED = 0.05, 0.10
"""Of the speed at the machine over that recorded: stated by the user; taken as 1 unasked (own rules) [-]."""
MOST = 12
"""Constituents whose error is carried; by energy, the rest is below their noise [-]."""
HALF_WIDTH = 1.959964
"""95 % half width over standard deviation, normal [-]."""


def tide_causes(tide: Tide, *, instrument: float = INSTRUMENT, factor: float | None = None) -> tuple[SpeedCause, ...]:
    """Relative standard uncertainties of the cube-mean speed, by cause.

    Parameters
    ----------
    tide : Tide
        Of speeds.
    instrument : float
        Relative standard uncertainty of the recorded speed, 0 to 1 [-].
    factor : float, optional
        The same of the speed at the machine over that recorded, 0 to 1; default `FACTOR_ASSUMED` [-].

    Notes
    -----
    Constituents: each amplitude moved by its standard uncertainty, its effect on the cube mean of a year at hourly
    stamps, root of the squares. What the tide leaves over: cube root of the record's mean cube over the tide's.

    Raises
    ------
    InputError
        A tide of levels.
    """
    if tide.kind == "level":
        raise InputError("a record of level has no speed to doubt; wanted a tide of speed")
    within("the instrument's uncertainty", instrument, 0.0, 1.0, "[-]")
    scale = FACTOR_ASSUMED if factor is None else within("the speed factor's uncertainty", factor, 0.0, 1.0, "[-]")
    left = abs(tide.cube_ratio ** (1.0 / 3.0) - 1.0) if tide.cube_ratio is not None else 0.0
    return (
        SpeedCause("current meter", instrument, 1.0),
        SpeedCause("speed factor", scale, 1.0),
        SpeedCause("tidal constituents", min(1.0, _constituents(tide)), 1.0),
        SpeedCause("what the tide leaves over", min(1.0, left), 1.0),
    )


def _constituents(tide: Tide) -> float:
    time = tide.first + 3600 * np.arange(8766, dtype=np.int64)

    def cube_speed(one: Tide) -> float:
        return float(np.cbrt((np.hypot.reduce(predict(one, time), axis=1) ** 3).mean()))

    middle = cube_speed(tide)
    rows = [i for i, row in enumerate(tide.constituents) if row.kept][:MOST]
    if not rows or middle <= 0.0:
        return 1.0
    changes = []
    for i in rows:
        row = tide.constituents[i]
        moved = replace(row, amplitude=row.amplitude + row.amplitude_error / HALF_WIDTH)
        changed = (*tide.constituents[:i], moved, *tide.constituents[i + 1 :])
        changes.append(cube_speed(replace(tide, constituents=changed)) / middle - 1.0)
    return math.sqrt(math.fsum(c * c for c in changes))
