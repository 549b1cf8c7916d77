"""Stamps of a local clock, with its changes in spring and autumn, to even intervals in UTC."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta, tzinfo
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.even_series import EvenSeries, Floats, gaps_in
from racewright.supply.time_grid import TimeGrid, Whole, offsets_at, seconds

_ZERO = datetime(1970, 1, 1)
_LONGEST = 40_000_000


def even_series(
    stamp: ArrayLike,
    value: ArrayLike,
    zone: tzinfo,
    *,
    interval: int | None = None,
    stamps_at: Literal["start", "end"] = "start",
) -> EvenSeries:
    """Put readings of a meter that shows local time onto even intervals in UTC.

    In the hour that comes twice in autumn the rows of the first pass come first; a row that does not follow the one
    before it, or lies whole intervals after it in the second pass only, belongs to the second. A row that stands
    alone there is else taken for the first pass, and counted. Stamps that no clock of the zone showed are left out
    and counted. Nothing is filled.

    Parameters
    ----------
    stamp : array_like of int, shape (n,)
        What the clock showed [s since 1970-01-01 local], in the order of the record.
    value : array_like, shape (n,)
        Mean power of the interval, >= 0, finite [W].
    zone : tzinfo
        With its clock changes, such as a zoneinfo.ZoneInfo; `datetime.UTC` for stamps in UTC.
    interval : int, optional
        1 to 86400 [s]; the median distance of stamps when not given.
    stamps_at : {'start', 'end'}
        Whether a stamp names the start of its interval or its end, as many meters do.

    Raises
    ------
    InputError
        Fewer than two rows, unlike lengths, not finite or negative values, stamps that go back other than at a clock
        change, an interval out of range.
    """
    local, power = _door(stamp, value)
    if interval is None:
        forward = np.diff(local)
        interval = int(np.median(forward[forward > 0])) if (forward > 0).any() else 0
    if not 1 <= interval <= 86400:
        raise InputError(f"stamps lie {interval} s apart; wanted intervals of 1 to 86400 s")
    utc, kept, unsure = _to_utc(local, zone, interval)
    clock = local[kept]
    if utc.size < 2:
        raise InputError("fewer than two stamps exist in this zone; wanted a record")
    back = np.flatnonzero(np.diff(utc) < 0)
    if back.size:
        raise InputError(
            f"row {int(np.flatnonzero(kept)[back[0] + 1]) + 1} goes back in time: {_shown(clock[back[0] + 1])} after "
            f"{_shown(clock[back[0]])}, and no clock was set back there; sort the rows, or check the zone"
        )
    if stamps_at not in ("start", "end"):
        raise InputError(f"stamps stand at {stamps_at!r}; wanted 'start' or 'end'")
    return _on_grid(
        utc - interval if stamps_at == "end" else utc,
        power[kept],
        interval,
        int(np.count_nonzero(~kept)),
        unsure,
    )


def _door(stamp: ArrayLike, value: ArrayLike) -> tuple[Whole, Floats]:
    given, power = np.asarray(stamp), np.array(value, dtype=np.float64)
    if given.ndim != 1 or given.shape != power.shape or given.size < 2:
        raise InputError(f"stamps {given.shape} and values {power.shape}; wanted two rows of one length, 2 or more")
    if given.dtype.kind not in "iu":
        raise InputError("stamps must be whole seconds since 1970-01-01, as the clock showed them")
    bad = np.flatnonzero(~(np.isfinite(power) & (power >= 0.0)))
    if bad.size:
        raise InputError(f"row {int(bad[0]) + 1} holds {power[bad[0]]} W; wanted finite powers of 0 or more")
    if int(np.abs(given).max()) > 7_258_118_400:
        raise InputError("stamps lie beyond the years 1740 to 2200; wanted seconds, not milliseconds")
    return given.astype(np.int64), power


def _to_utc(local: Whole, zone: tzinfo, interval: int) -> tuple[Whole, NDArray[np.bool_], int]:
    """UTC of the stamps that exist, which those are, and how many of them might be an hour later."""
    first, second = _offsets(local, zone, 0), _offsets(local, zone, 1)
    utc = local - first
    kept = offsets_at(utc, zone) == first
    twice = kept & (first != second)
    later = local - second
    clock, often = np.unique(local[twice], return_counts=True)
    alone = set(clock[often == 1].tolist())
    unsure, last = 0, None
    for i in np.flatnonzero(kept).tolist():
        if (
            twice[i]
            and last is not None
            and (utc[i] <= last or _fits_later(utc[i] - last, later[i] - last, interval))
        ):
            utc[i] = later[i]
        elif twice[i]:
            unsure += int(local[i]) in alone
        last = utc[i]
    found: Whole = utc[kept]
    return found, kept, unsure


def _fits_later(first: int, second: int, interval: int) -> bool:
    """Only the second pass is a whole number of intervals after the row before."""
    return first % interval != 0 and second % interval == 0


def _offsets(local: Whole, zone: tzinfo, fold: int) -> Whole:
    def one(t: int) -> int:
        return seconds((_ZERO + timedelta(seconds=t)).replace(tzinfo=zone, fold=fold).utcoffset(), zone)

    return np.fromiter((one(t) for t in local.tolist()), dtype=np.int64, count=local.size)


def _on_grid(utc: Whole, power: Floats, interval: int, nowhere: int, unsure: int) -> EvenSeries:
    phases, often = np.unique(utc % interval, return_counts=True)
    phase = int(phases[int(np.argmax(often))])
    place = np.floor((utc - phase) / interval + 0.5).astype(np.int64)
    shift = float(np.abs(utc - phase - place * interval).max())
    first, count = int(place[0]), int(place[-1] - place[0]) + 1
    if count > _LONGEST:
        raise InputError(f"the record spans {count} intervals of {interval} s; wanted at most {_LONGEST}")
    grid = TimeGrid(first * interval + phase, interval, count)
    new = np.concatenate(([True], np.diff(place) > 0))
    value = np.full(count, np.nan)
    value[place[new] - first] = power[new]
    same = power[~new] == value[place[~new] - first]
    repeated, clashing = int(np.count_nonzero(same)), int(np.count_nonzero(~same))
    gaps = gaps_in(grid, value)
    found = EvenSeries(grid, value, gaps, repeated, clashing, nowhere, unsure, shift)
    return replace(found, remarks=_remarks(found))


def _remarks(found: EvenSeries) -> tuple[Remark, ...]:
    told = []
    if found.gaps:
        longest = max(gap.duration for gap in found.gaps)
        text = (
            f"{len(found.gaps)} gap(s), {100.0 * (1.0 - found.recorded):.2g} % of the time, the longest "
            f"{longest / 3600.0:.3g} h."
        )
        told.append(Remark("caution", text, "gaps"))
    if found.repeated:
        told.append(Remark("note", f"{found.repeated} row(s) stood there twice and were left out.", "repeats"))
    if found.clashing:
        text = f"{found.clashing} row(s) give another value for an interval that has one; the first was kept."
        told.append(Remark("warning", text, "repeats"))
    if found.nowhere:
        text = (
            f"{found.nowhere} stamp(s) lie in the hour that the zone's clocks skip in spring and were left out: "
            "perhaps the meter keeps one offset all year; then give that offset instead of the zone."
        )
        told.append(Remark("warning", text, "clock change"))
    if found.unsure:
        text = (
            f"{found.unsure} stamp(s) in the hour that comes twice in autumn have no second; taken for the first "
            f"pass."
        )
        told.append(Remark("caution", text, "clock change"))
    if found.largest_shift > 0.0:
        text = f"Stamps were moved by up to {found.largest_shift:g} s onto even intervals."
        told.append(Remark("note", text, "uneven stamps"))
    return tuple(told)


def _shown(stamp: int) -> str:
    return (_ZERO + timedelta(seconds=int(stamp))).isoformat(" ")
