"""The record of a campaign: the same model at several blockages, load by load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from racewright.trials.load_points import LoadPoint, load_points, shared_correlation
from racewright.trials.record_series import partner
from racewright.trials.result import Reading
from racewright.trials.unbounded_record import RecordReading

OTHER_WALL = 0.1
"""Relative difference from which two blockages count as two for the record. Own choice."""


@dataclass(frozen=True)
class Record:
    """What one load has of a record.

    Attributes
    ----------
    readings : tuple of RecordReading
        This load and the other series at its tip-speed ratio; empty where they do not reach there.
    shared : tuple of float
        Correlation of the errors of CP and CT between them [-].
    along : bool
        Whether every load of the curve has a record.
    why : str
        Why there is none; empty where there is.
    """

    readings: tuple[RecordReading, ...]
    shared: tuple[float, float]
    along: bool
    why: str


def records(readings: Sequence[Reading], blockages: Sequence[float], clean: Sequence[bool]) -> dict[int, Record]:
    """The record of every clean reading, one for all windows of a load; empty with one blockage alone.

    Parameters
    ----------
    readings : sequence of Reading
    blockages : sequence of float
        Rotor annulus over channel [-].
    clean : sequence of bool
        Whether a reading is of the clean machine.
    """
    groups = blockage_groups(blockages)
    curves: dict[int, list[int]] = {}
    for k, group in enumerate(groups):
        if clean[k]:
            curves.setdefault(group, []).append(k)
    if len(curves) < 2:
        return {}
    points = {g: load_points([readings[k] for k in own]) for g, own in curves.items()}
    share = {g: float(np.mean([blockages[k] for k in own])) for g, own in curves.items()}
    found: dict[int, Record] = {}
    for g, own in curves.items():
        loads = [(p, _load(p, g, points, share)) for p in points[g]]
        along = all(one.readings for _p, one in loads)
        for point, one in loads:
            for member in point.members:
                found[own[member]] = replace(one, along=along)
    return found


def _load(point: LoadPoint, g: int, points: Mapping[int, Sequence[LoadPoint]], share: Mapping[int, float]) -> Record:
    """One load beside the other series."""
    beside = [(h, partner(point, points[g], points[h])) for h in points if h != g]
    known = [(h, p) for h, p in beside if p is not None]
    if not known:
        why = f"the other series have no load near a tip-speed ratio of {point.tip_speed_ratio:.3f}"
        return Record((), (0.0, 0.0), False, why)
    everyone = [(g, point), *known]
    told = tuple(
        RecordReading(
            share[h], p.value[0], max(p.value[1], 0.0), point.tip_speed_ratio, p.uncertainty(0), p.uncertainty(1)
        )
        for h, p in everyone
    )
    pairs = [(a, b) for i, (_g, a) in enumerate(everyone) for _h, b in everyone[:i]]
    shared = [float(np.mean([shared_correlation(a, b, k) for a, b in pairs])) for k in (0, 1)]
    return Record(told, (shared[0], shared[1]), True, "")


def blockage_groups(blockages: Sequence[float]) -> list[int]:
    """Which group of about equal blockage each belongs to, the least first."""
    found = [0] * len(blockages)
    group, first = -1, 0.0
    for k in sorted(range(len(blockages)), key=lambda j: blockages[j]):
        if group < 0 or blockages[k] > (1.0 + OTHER_WALL) * first:
            group, first = group + 1, blockages[k]
        found[k] = group
    return found
