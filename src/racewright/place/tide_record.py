"""A tidal record: stamps in UTC with a level, a speed along the channel, or speeds to east and north."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.place.guard import finite_array
from racewright.place.result import Floats
from racewright.place.tide_result import TideKind

DAY = 86400.0
"""[s]"""
SHORTEST = 3.0 * DAY
"""Shortest record that is analysed: a few tides; own rule [s]."""
SLOWEST = 3.0 * 3600.0
"""Widest usual interval: four stamps in a semidiurnal tide; own rule [s]."""
MOST = 120_000
"""Stamps that one analysis takes: two years at ten minutes are 105 000, and about a gigabyte of memory."""
FASTEST = 15.0
"""Speed beyond which a unit or a column is wrong; own rule [m/s]."""
HIGHEST = 12_000.0
"""Level beyond which a unit or a column is wrong; own rule [m]."""


@dataclass(frozen=True)
class TideRecord:
    """A checked record.

    Attributes
    ----------
    kind : {'level', 'along', 'east north'}
    time : ndarray of int64, shape (n,)
        Seconds since 1970-01-01 UTC, strictly growing; intervals may vary and there may be gaps.
    value : ndarray, shape (n, 1) or (n, 2)
        Level above any datum [m]; speed along the channel, flood positive; or speed to east and to north [m/s].
    """

    kind: TideKind
    time: NDArray[np.int64]
    value: Floats

    @property
    def speed(self) -> Floats:
        """Magnitude, shape (n,) [m/s, or m for a level]."""
        magnitude: Floats = (
            np.hypot.reduce(self.value, axis=1) if self.kind == "east north" else np.abs(self.value[:, 0])
        )
        return magnitude

    @property
    def span(self) -> float:
        """Time from first to last stamp [s]."""
        return float(self.time[-1] - self.time[0])


def tide_record(
    time: ArrayLike,
    *,
    level: ArrayLike | None = None,
    along: ArrayLike | None = None,
    east: ArrayLike | None = None,
    north: ArrayLike | None = None,
) -> TideRecord:
    """Take columns of a record; give `level`, or `along`, or both `east` and `north`.

    Parameters
    ----------
    time : array_like of int, shape (n,)
        Seconds since 1970-01-01 UTC, strictly growing.
    level : array_like, shape (n,), optional
        Above any datum [m].
    along : array_like, shape (n,), optional
        Along the channel, flood positive, ebb negative, within +-15 m/s [m/s].
    east, north : array_like, shape (n,), optional
        Components towards east and north, within +-15 m/s [m/s].

    Raises
    ------
    InputError
        Columns missing or of unequal length, NaN or infinity, stamps that do not grow, a record shorter than three
        days, usual intervals beyond three hours, more than 120 000 stamps, values out of scale or all equal.
    """
    kind, columns = _columns(level, along, east, north)
    stamp = _stamps(time)
    for name, column in columns.items():
        if column.size != stamp.size:
            raise InputError(f"the record has {stamp.size} stamps but {column.size} values of {name}", key=name)
        most, unit = (HIGHEST, "m") if kind == "level" else (FASTEST, "m/s")
        worst = float(np.abs(column).max())
        if worst > most:
            raise InputError(
                f"{name} reaches {worst:.4g} {unit}; wanted within +-{most:g} {unit}; is the unit right?", key=name
            )
    value: Floats = np.column_stack(list(columns.values()))
    if not (np.ptp(value, axis=0) > 0.0).any():
        raise InputError("the record never changes; wanted a tide")
    return TideRecord(kind, stamp, value)


def _columns(
    level: ArrayLike | None, along: ArrayLike | None, east: ArrayLike | None, north: ArrayLike | None
) -> tuple[TideKind, dict[str, Floats]]:
    given = {
        name: finite_array(name, column)
        for name, column in (("level", level), ("along", along), ("east", east), ("north", north))
        if column is not None
    }
    kinds: dict[tuple[str, ...], TideKind] = {
        ("level",): "level",
        ("along",): "along",
        ("east", "north"): "east north",
    }
    kind = kinds.get(tuple(given))
    if kind is None:
        told = " and ".join(given) or "nothing"
        raise InputError(f"a tidal record was given {told}; wanted level, or along, or both east and north")
    return kind, given


def _stamps(time: ArrayLike) -> NDArray[np.int64]:
    stamp = finite_array("time", time).astype(np.int64)
    if stamp.size > MOST:
        raise InputError(
            f"the record has {stamp.size} stamps; at most {MOST} are analysed: average it to ten minutes or more",
            key="time",
        )
    step = np.diff(stamp)
    if stamp.size < 2 or (step <= 0).any():
        raise InputError("the record's stamps must grow from one to the next", key="time")
    span, usual = float(stamp[-1] - stamp[0]), float(np.median(step))
    if span < SHORTEST:
        raise InputError(
            f"the record is {span / DAY:.3g} d long; wanted at least {SHORTEST / DAY:g} d, 35 d or more for a site",
            key="time",
        )
    if usual > SLOWEST:
        raise InputError(
            f"the usual interval is {usual / 3600.0:.3g} h; a tide wants a stamp every {SLOWEST / 3600.0:g} h or "
            "more often",
            key="time",
        )
    return stamp
