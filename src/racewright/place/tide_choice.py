"""Which constituents a record with gaps determines."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from racewright.errors import InputError
from racewright.place.tide_constants import angular_speed, apart, separable
from racewright.place.tide_record import DAY, SHORTEST, TideRecord

MOST_CONDITION = 20.0
"""Largest over smallest singular value of the cosines and sines at the stamps; without gaps 1.2 to 1.5. At 100 the
error of a prediction outside the record was a tenth of the tide, at 3500 twice the tide (own trials) [-]."""
STAMPS = 4000
"""Stamps at most that the condition is worked out on."""
SHORTER = 0.8
"""Factor on the length by which constituents are left out, until the record determines what is left."""


def condition(record: TideRecord, names: tuple[str, ...]) -> float:
    """Of mean, cosines and sines of the constituents at the record's stamps [-]."""
    since = (record.time - record.time[0]).astype(np.float64)[:: max(1, record.time.size // STAMPS)]
    if since.size < 2 * len(names) + 1:
        return float("inf")
    turn = np.outer(since, [angular_speed(name) for name in names])
    waves = np.hstack((np.ones((since.size, 1)), np.sqrt(2.0) * np.cos(turn), np.sqrt(2.0) * np.sin(turn)))
    return float(np.linalg.cond(waves))


def chosen(record: TideRecord) -> tuple[tuple[str, ...], float]:
    """Constituents that the record determines, and the length of a record without gaps that would give as many [s].

    Raises
    ------
    InputError
        So many gaps that not even three days' worth is determined.
    """
    span = record.span
    while span >= SHORTEST:
        names = separable(span, record.kind)
        if condition(record, names) <= MOST_CONDITION:
            return names, span
        span *= SHORTER
    raise InputError("the record's gaps leave no tide determined; wanted stamps spread over the time", key="time")


def named(record: TideRecord, names: tuple[str, ...]) -> tuple[str, ...]:
    """Constituents as the user names them, all known and determined by the record.

    Raises
    ------
    InputError
        Unknown names, one named twice, two closer than the record tells apart, too many for its gaps.
    """
    if len(set(names)) != len(names):
        raise InputError("a constituent is named twice", key="constituents")
    for one, other in pairwise(sorted(names, key=angular_speed)):
        if apart(one, other) > 1.001 * record.span:
            raise InputError(
                f"{one} and {other} come apart in {apart(one, other) / DAY:.4g} d; the record is "
                f"{record.span / DAY:.4g} d long: leave one of them out",
                key="constituents",
            )
    if condition(record, names) > MOST_CONDITION:
        raise InputError(
            "the record's gaps do not let these constituents be told apart; name fewer", key="constituents"
        )
    return names
