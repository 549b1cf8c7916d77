"""Constituents by name, and which of them a record of some length can tell apart.

Speeds, nodal factors and equilibrium arguments are those of the library `utide` (MIT licence), which is loaded when
first needed.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.result import Floats
from racewright.place.tide_result import TideKind, Unseparated

HOUR = 3600.0
"""[s]"""
LONG_PERIOD = 10.0 * 86400.0
"""Periods beyond this are left out of speeds unless named: weather fills them; own rule [s]."""
PAIRS = (("S2", "M2"), ("N2", "M2"), ("O1", "K1"), ("K2", "S2"), ("P1", "K1"), ("Q1", "O1"))
"""Constituents of weight, each with the larger neighbour that it must be told from."""
RATIOS = {"K2": ("S2", 0.2720), "P1": ("K1", 0.3309)}
"""Amplitude of the equilibrium tide over that of the neighbour (tidal potential, from memory) [-]."""


@cache
def table() -> Any:
    """The library's table of constituents; `name`, `freq` in cycles per hour, `df` the least separation."""
    from utide import ut_constants

    return ut_constants.const


@cache
def index() -> dict[str, int]:
    """Place of each constituent in the table."""
    return {str(name): place for place, name in enumerate(table().name)}


def angular_speed(name: str) -> float:
    """Of a constituent [rad/s].

    Raises
    ------
    InputError
        A name that the table does not have.
    """
    place = index().get(name)
    if place is None:
        raise InputError(
            f"{name!r} is no known constituent; wanted names such as M2, S2, N2, K1, O1, M4", key="constituents"
        )
    return 2.0 * math.pi * float(table().freq[place]) / HOUR


def apart(one: str, other: str) -> float:
    """Length of record in which two constituents drift apart by one cycle (Rayleigh's criterion) [s]."""
    return 2.0 * math.pi / abs(angular_speed(one) - angular_speed(other))


def separable(span: float, kind: TideKind) -> tuple[str, ...]:
    """Constituents that a record of length `span` [s] tells from their larger neighbours, by the library's own order.

    In records of speed those slower than ten days are left out.
    """
    const = table()
    least = HOUR / span
    chosen: NDArray[np.bool_] = const.df >= least
    if kind != "level":
        chosen = chosen & (const.freq > HOUR / LONG_PERIOD)
    return tuple(str(name) for name in const.name[chosen])


def unseparated(span: float, fitted: tuple[str, ...], *, infer: bool) -> tuple[Unseparated, ...]:
    """Constituents of `PAIRS` that are not among `fitted` because the record is shorter than `apart`."""
    found = []
    for name, neighbour in PAIRS:
        wanted = apart(name, neighbour)
        if name not in fitted and span < wanted:
            stands_in = infer and RATIOS.get(name, ("", 0.0))[0] in fitted
            found.append(Unseparated(name, neighbour, wanted, stands_in))
    return tuple(found)


def arguments(days: Floats, names: tuple[str, ...], latitude: float, *, nodal: bool) -> tuple[Floats, Floats, Floats]:
    """Nodal factor [-], nodal angle and equilibrium argument [rad] of constituents, each shape (n, c).

    Parameters
    ----------
    days : ndarray, shape (n,)
        Days since 1970-01-01 UTC.
    names : tuple of str
        c of them.
    latitude : float
        [rad]; within 5 degrees of the equator the library takes 5 degrees.
    nodal : bool
        False gives factors 1 and angles 0.

    Notes
    -----
    The library's factors come from the tidal potential's satellites. It has none for Mf and Mm (factor 1), where
    simple formulas have up to 1.46.
    """
    from utide.harmonics import FUV

    place = np.array([index()[name] for name in names])
    ordinal = np.asarray(days, dtype=np.float64) + 719163.0
    f, u, v = FUV(ordinal, ordinal[0], place, math.degrees(latitude) or 1e-9, [False, not nodal, False, False])
    turn = 2.0 * math.pi
    return np.asarray(f, dtype=np.float64), turn * np.asarray(u), turn * np.asarray(v)
