"""A tide from a table of constituents that somebody else found."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import finite_array, within
from racewright.place.result import Floats
from racewright.place.tide_constants import angular_speed
from racewright.place.tide_record import FASTEST, HIGHEST
from racewright.place.tide_result import Tide, TideConstituent, TideKind
from racewright.remark import Remark

FULL_TURN = 2.0 * math.pi


def tide_from_table(
    names: Sequence[str],
    amplitude: ArrayLike,
    phase: ArrayLike,
    latitude: float,
    *,
    kind: TideKind,
    minor: ArrayLike | None = None,
    inclination: ArrayLike | None = None,
    mean: tuple[float, ...] | None = None,
    nodal: bool = True,
) -> Tide:
    """Take published constants as they stand: all are used in prediction, none has an error.

    Parameters
    ----------
    names : sequence of str, c of them
        'M2', 'S2', ...
    amplitude : array_like, shape (c,)
        Of level [m], of speed along, or the larger half axis, >= 0 [m/s].
    phase : array_like, shape (c,)
        Lag on the equilibrium tide at Greenwich, UTC [rad].
    latitude : float
        Positive north [rad].
    kind : {'level', 'along', 'east north'}
    minor, inclination : array_like, shape (c,), optional
        Smaller half axis, positive anticlockwise [m/s]; larger one anticlockwise from east [rad]. Needed for
        'east north', and only there.
    mean : tuple of float, optional
        Mean level, or residual current; default 0 [m or m/s].
    nodal : bool
        Constants hold for the mean of the 18.6-year cycle, as published ones do; default True.

    Raises
    ------
    InputError
        Columns of unequal length, unknown or repeated names, numbers not finite or out of range.
    """
    within("the latitude", latitude, -0.5 * math.pi, 0.5 * math.pi, "rad")
    if len(set(names)) != len(names):
        raise InputError("a constituent is named twice", key="constituents")
    if (kind == "east north") != (minor is not None and inclination is not None):
        raise InputError("smaller half axis and inclination belong with speeds to east and north, and only there")
    most = HIGHEST if kind == "level" else FASTEST
    size = _column("amplitude", amplitude, len(names), 0.0, most)
    lag = _column("phase", phase, len(names), -FULL_TURN, FULL_TURN) % FULL_TURN
    none = np.zeros(len(names))
    thin = none if minor is None else _column("minor", minor, len(names), -most, most)
    lean = none if inclination is None else _column("inclination", inclination, len(names), -FULL_TURN, FULL_TURN)
    energy = size**2 + thin**2
    if not energy.any():
        raise InputError("every amplitude is 0; wanted a tide", key="amplitude")
    middle = mean if mean is not None else (0.0,) * (2 if kind == "east north" else 1)
    if len(middle) != (2 if kind == "east north" else 1):
        raise InputError(f"the mean has {len(middle)} numbers; wanted one for each component", key="mean")
    rows = tuple(
        TideConstituent(
            name=name,
            origin="table",
            angular_speed=angular_speed(name),
            amplitude=float(size[i]),
            amplitude_error=0.0,
            minor=float(thin[i]),
            minor_error=0.0,
            inclination=float(lean[i]),
            inclination_error=0.0,
            phase=float(lag[i]),
            phase_error=0.0,
            signal_to_noise=None,
            share=float(energy[i] / energy.sum()),
            kept=True,
        )
        for i, name in enumerate(names)
    )
    text = "The constituents come from a table: their errors, and what the tide leaves over, are not known."
    return Tide(
        kind=kind,
        latitude=latitude,
        nodal=nodal,
        first=0,
        last=0,
        values=0,
        missing=0.0,
        longest_gap=0.0,
        told_apart=0.0,
        constituents=tuple(sorted(rows, key=lambda row: -row.share)),
        unseparated=(),
        mean=tuple(float(m) for m in finite_array("the mean", middle)),
        trend=(0.0,) * len(middle),
        residual=None,
        explained=None,
        cube_ratio=None,
        form_factor=form_factor(rows),
        remarks=(Remark("caution", text, "tidal record"),),
    )


def form_factor(rows: Sequence[TideConstituent]) -> float | None:
    """(K1 + O1) / (M2 + S2); None where one of them is missing or inferred [-]."""
    size = {row.name: row.amplitude for row in rows if row.origin != "inferred"}
    if not {"K1", "O1", "M2", "S2"} <= size.keys():
        return None
    whole = size["M2"] + size["S2"]
    return (size["K1"] + size["O1"]) / whole if whole > 0.0 else None


def form_word(factor: float) -> str:
    """'semidiurnal' below 0.25, 'mixed, mainly semidiurnal' to 1.5, 'mixed, mainly diurnal' to 3, 'diurnal'.

    Limits of Pugh 1987, Tides, Surges and Mean Sea-Level.
    """
    steps = (
        (0.25, "semidiurnal"),
        (1.5, "mixed, mainly semidiurnal"),
        (3.0, "mixed, mainly diurnal"),
        (math.inf, "diurnal"),
    )
    return next(word for limit, word in steps if factor < limit)


def _column(name: str, values: ArrayLike, count: int, low: float, high: float) -> Floats:
    column = finite_array(name, values)
    if column.size != count:
        raise InputError(f"there are {count} names but {column.size} values of {name}", key=name)
    if column.min() < low or column.max() > high:
        told = f"{column.min():.4g} to {column.max():.4g}"
        raise InputError(f"{name} runs from {told}; wanted {low:.4g} to {high:.4g}", key=name)
    return column
