"""A reduction as rows of the campaign's store."""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import attrgetter

import numpy as np
from numpy.typing import NDArray

from racewright.records.campaign.reading_columns import ReadingColumns
from racewright.records.campaign.store import SpanRow, ZeroRow
from racewright.trials.result import Reading, Reduction

QUANTITIES = (
    ("stream_speed", "m/s"),
    ("mean_speed", "m/s"),
    ("turbulence_intensity", "-"),
    ("torque", "N m"),
    ("rotor_speed", "rad/s"),
    ("thrust", "N"),
    ("power", "W"),
    ("temperature", "K"),
    ("depth", "m"),
)
"""Means of a reading that the store keeps, with their units."""
COEFFICIENTS = ("power_coefficient", "torque_coefficient", "thrust_coefficient", "tip_speed_ratio")
NUMBERS = ("blockage", "froude_number", "chord_reynolds", "cavitation_number", "frontal_power_coefficient")
AS_DEFINED = "power_as_defined"
"""CP before the cube mean is corrected, as the store names it."""
_quantities, _numbers = attrgetter(*(key for key, _unit in QUANTITIES)), attrgetter(*NUMBERS)
_coefficients = attrgetter(*COEFFICIENTS)
_interval = attrgetter("value", "standard_uncertainty", "degrees_of_freedom")


def rows_of(reduction: Reduction) -> tuple[list[SpanRow], ReadingColumns, list[ZeroRow]]:
    """Spans in order of time, the readings' quantities by span, and the zeros of the tares."""
    both = [(r.start, r.end, True, "") for r in reduction.readings]
    both += [(r.start, r.end, False, "; ".join(r.reasons)) for r in reduction.refusals]
    both.sort(key=lambda one: one[0])
    steady = np.flatnonzero(np.array([one[2] for one in both], np.bool_))
    zeros = [(z.channel, z.time, z.value, z.standard_error, z.raw) for z in reduction.zeros]
    return both, _columns(steady, reduction.readings), zeros


def _columns(spans: NDArray[np.int64], readings: Sequence[Reading]) -> ReadingColumns:
    """Readings in order of time and the spans that they are of; a number that a rig has not is left out."""
    n = len(readings)
    plain = np.array([_quantities(one) for one in readings], np.float64).reshape(n, len(QUANTITIES))
    numbers = np.array([_numbers(one.numbers) for one in readings], np.float64).reshape(n, len(NUMBERS))
    told = [[_interval(found) for found in _coefficients(one)] for one in readings]
    intervals = np.array(told, np.float64).reshape(n, len(COEFFICIENTS), 3)
    defined = np.array([one.power_coefficient.as_defined for one in readings], np.float64).reshape(n, 1)
    value = np.concatenate((plain, numbers, intervals[:, :, 0], defined), axis=1)
    error, freedom = np.full(value.shape, math.nan), np.full(value.shape, math.nan)
    own = slice(len(QUANTITIES) + len(NUMBERS), -1)
    error[:, own] = intervals[:, :, 1]
    freedom[:, own] = np.where(np.isfinite(intervals[:, :, 2]), intervals[:, :, 2], math.nan)
    names = (*(key for key, _unit in QUANTITIES), *NUMBERS, *COEFFICIENTS, AS_DEFINED)
    units = (*(unit for _key, unit in QUANTITIES), *("-" for _k in range(len(names) - len(QUANTITIES))))
    return ReadingColumns(spans, names, units, value, error, freedom)
