"""Availability of a machine from its parts and waits, with a band and the parts to blame."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.uncertainty import Band
from racewright.upkeep.parts import YEAR, MachinePart
from racewright.upkeep.standstill import PartNumbers, Standstill, standstills


@dataclass(frozen=True, slots=True)
class PartRow:
    """What one kind of part does in a year of calendar time.

    Attributes
    ----------
    name : str
    failures, planned : float
        Failures and planned replacements [1/yr].
    mean_wait, mean_stop : float
        For a failure: wait for the part, and standstill altogether, on average [s].
    lost_share : float
        Of the year, machine standing for this part [-].
    low, high : float
        Availability with this part's rate, wait and mending at their worse ends, and at their better ends [-].
    parts_cost : float
        New parts [currency/yr].
    """

    name: str
    failures: float
    planned: float
    mean_wait: float
    mean_stop: float
    lost_share: float
    low: float
    high: float
    parts_cost: float


@dataclass(frozen=True, slots=True)
class PartsAvailability:
    """Share of time that the machine is able to run, in the long run.

    Attributes
    ----------
    share : Band
        Each part moved to the ends of its range alone, joined by root of squares on each side [-].
    worst, best : float
        All parts at their worse, and at their better ends together [-].
    failures : float
        Of all parts [1/yr].
    parts_cost : float
        [currency/yr]
    rows : tuple of PartRow
        Most lost time first.
    remarks : tuple of Remark
    """

    share: Band
    worst: float
    best: float
    failures: float
    parts_cost: float
    rows: tuple[PartRow, ...]
    remarks: tuple[Remark, ...]


def parts_availability(parts: tuple[MachinePart, ...]) -> PartsAvailability:
    """Availability of one machine.

    Parts fail only while the machine runs, and it stands while any is out: availability = 1 / (1 + standstill for
    each running second, all parts added up). For one part without spares this is T / (T + wait + mending), whatever
    the spread of times.

    Parameters
    ----------
    parts : tuple of MachinePart
        Each named once; none gives 1.

    Raises
    ------
    InputError
        A part named twice.
    """
    names = [part.name for part in parts]
    if len(set(names)) != len(names):
        raise InputError(f"a part is named twice in {', '.join(names)}")
    middle = standstills([_at(part, 0) for part in parts])
    share = _share(middle)
    rows, down, up = [], 0.0, 0.0
    for part, one in zip(parts, middle, strict=True):
        low, high = (
            _share(standstills([_at(other, end if other is part else 0) for other in parts])) for end in (1, -1)
        )
        down, up = down + (share - low) ** 2, up + (high - share) ** 2
        rows.append(_row(part, one, share, low, high))
    worst, best = (_share(standstills([_at(part, end) for part in parts])) for end in (1, -1))
    basis = "failure rates, waits and mending of the parts, each alone; root of squares"
    return PartsAvailability(
        share=Band(max(share - math.sqrt(down), worst), share, min(share + math.sqrt(up), best), basis),
        worst=worst,
        best=best,
        failures=math.fsum(row.failures for row in rows),
        parts_cost=math.fsum(row.parts_cost for row in rows),
        rows=tuple(sorted(rows, key=lambda row: -row.lost_share)),
        remarks=_remarks(rows, parts),
    )


def _share(found: Sequence[Standstill]) -> float:
    return 1.0 / (1.0 + math.fsum(one.whole for one in found))


def _at(part: MachinePart, end: int) -> PartNumbers:
    """With all numbers of a part at an end: 1 worse, 0 as given, -1 better."""

    def pick(band: Band) -> float:
        return (band.low, band.value, band.high)[end + 1]

    return PartNumbers(part, pick(part.failure_rate), pick(part.mend_time), pick(part.wait))


def _row(part: MachinePart, one: Standstill, share: float, low: float, high: float) -> PartRow:
    yearly = share * YEAR
    wait = one.waiting / one.failures if one.failures else 0.0
    return PartRow(
        name=part.name,
        failures=one.failures * yearly,
        planned=one.planned * yearly,
        mean_wait=wait,
        mean_stop=wait + part.mend_time.value if one.failures else 0.0,
        lost_share=one.whole * share,
        low=low,
        high=high,
        parts_cost=(one.failures + one.planned) * yearly * part.price,
    )


def _remarks(rows: list[PartRow], parts: tuple[MachinePart, ...]) -> tuple[Remark, ...]:
    text = (
        "Mean of many years; a single year of few failures may lie far off. Work on the machine waits for safe "
        "water and for people who may do it: put that into the times."
    )
    told = [Remark("caution", text, "availability")]
    if rows:
        most = max(rows, key=lambda row: row.lost_share)
        if most.lost_share > 0.02:
            held = next(part.held for part in parts if part.name == most.name)
            text = (
                f"{most.name} costs most: {100.0 * most.lost_share:.2g} % of the year, {most.failures:.2g} failures "
                f"at {most.mean_stop / 86400.0:.3g} days, {held} spare(s) on site."
            )
            told.append(Remark("note", text, "parts"))
    return tuple(told)
