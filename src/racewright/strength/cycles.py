"""Rainflow counting of a series of stress."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
import rainflow  # type: ignore[import-untyped, import-not-found, unused-ignore]
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.strength.door import finite_row
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]
Ends = Literal["half", "repeated"]
_EVERY = 20000


@dataclass(frozen=True, slots=True)
class Cycles:
    """Cycles of a series, in the order in which they close; shape (n,) each.

    Attributes
    ----------
    stress_range : ndarray
        > 0 [as the series].
    mean : ndarray
        Midway between the cycle's ends [as the series].
    count : ndarray
        1 for a whole cycle, 0.5 for half of one [-].
    """

    stress_range: Floats
    mean: Floats
    count: Floats


def rainflow_cycles(stress: ArrayLike, *, ends: Ends = "half", tick: Tick = silent) -> Cycles:
    """Count cycles by the rainflow rule of ASTM E1049-85, 5.4.4.

    Parameters
    ----------
    stress : array_like, shape (n,)
        Two or more finite values in even or uneven time [any one unit].
    ends : {'half', 'repeated'}
        What stays open at the ends of the series: half cycles, or the series is a block that repeats, is turned to
        begin at its largest value (5.4.5) and all its cycles close.
    tick : Tick

    Returns
    -------
    Cycles
        Empty for a constant series.
    """
    series = finite_row("the stress series", stress, "its unit", least=2)
    if ends not in ("half", "repeated"):
        raise InputError(f"the ends are {ends!r}; wanted 'half' or 'repeated'")
    if ends == "repeated":
        first = int(np.argmax(series))
        series = np.concatenate([series[first:], series[: first + 1]])
    turns = reversals(series)
    found: list[tuple[float, float, float]] = []
    for number, (size, mean, count, _start, _end) in enumerate(_extracted(turns)):
        if number % _EVERY == 0:
            tick(min(1.0, 2.0 * number / max(turns.size, 1)))
        found.append((size, mean, count))
    tick(1.0)
    table = np.array(found, dtype=np.float64).reshape(-1, 3)
    return Cycles(*(np.ascontiguousarray(column) for column in table.T))


def reversals(series: Floats) -> Floats:
    """First value, every peak and valley, last value; values that repeat are one."""
    kept: Floats = series[np.concatenate([[True], np.diff(series) != 0.0])]
    if kept.size < 3:
        return kept
    step = np.sign(np.diff(kept))
    turns: Floats = kept[np.concatenate([[True], step[1:] != step[:-1], [True]])]
    return turns


def _extracted(turns: Floats) -> Iterator[tuple[float, float, float, int, int]]:
    """Cycles by the library; a series of one range has its last value doubled, which the library would pass over."""
    values = turns.tolist()
    if len(values) == 2:
        values.append(values[-1])
    cycles: Iterator[tuple[float, float, float, int, int]] = rainflow.extract_cycles(values)
    return cycles
