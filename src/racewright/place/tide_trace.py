"""A record beside its tide, small enough to draw: day by day, and one week at springs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.result import Floats
from racewright.place.tide_predict import predict
from racewright.place.tide_record import DAY, TideRecord
from racewright.place.tide_result import Tide
from racewright.place.tide_stream import component

WHOLE_DAY = 0.8
"""Share of a day's usual stamps from which the day is shown; own rule [-]."""
WEEK = 7.0 * DAY
"""[s]"""
MOST = 2016
"""Stamps of the week at most: every five minutes."""


@dataclass(frozen=True)
class TideTrace:
    """Level, or speed on the axis with flood positive, recorded and of the tide with its mean [m or m/s].

    Attributes
    ----------
    day : ndarray of int64, shape (d,)
        Start of each day that is recorded well enough [s since 1970-01-01 UTC].
    recorded_high, recorded_low, tide_high, tide_low : ndarray, shape (d,)
        Of each day.
    left_over : ndarray, shape (d,)
        Mean of what the tide does not explain.
    week_time : ndarray of int64, shape (w,)
        Stamps of the week about the strongest recorded day.
    week_recorded, week_tide : ndarray, shape (w,)
    """

    day: NDArray[np.int64]
    recorded_high: Floats
    recorded_low: Floats
    tide_high: Floats
    tide_low: Floats
    left_over: Floats
    week_time: NDArray[np.int64]
    week_recorded: Floats
    week_tide: Floats


def tide_trace(tide: Tide, record: TideRecord, axis: float | None = None) -> TideTrace:
    """Lay the record beside the tide fitted to it.

    Parameters
    ----------
    tide : Tide
        Fitted to `record`.
    record : TideRecord
    axis : float or None
        Towards the flood's end, clockwise from true north; needed with speeds to east and north [rad].

    Raises
    ------
    InputError
        No axis where one is needed.
    """
    recorded, model = (_on_axis(value, axis) for value in (record.value, predict(tide, record.time)))
    number = record.time // int(DAY)
    start = np.flatnonzero(np.concatenate(([True], np.diff(number) != 0)))
    count = np.diff(np.concatenate((start, [number.size])))
    kept = count >= WHOLE_DAY * DAY / float(np.median(np.diff(record.time)))
    high, low = (f.reduceat(recorded, start)[kept] for f in (np.maximum, np.minimum))
    tide_high, tide_low = (f.reduceat(model, start)[kept] for f in (np.maximum, np.minimum))
    day = number[start][kept] * int(DAY)
    strongest = int(day[np.argmax(tide_high - tide_low)]) if day.size else int(record.time[0])
    about = np.abs(record.time - (strongest + 0.5 * DAY)) <= 0.5 * WEEK
    thin = max(1, int(about.sum()) // MOST)
    return TideTrace(
        day=day,
        recorded_high=high,
        recorded_low=low,
        tide_high=tide_high,
        tide_low=tide_low,
        left_over=(np.add.reduceat(recorded - model, start) / count)[kept],
        week_time=record.time[about][::thin],
        week_recorded=recorded[about][::thin],
        week_tide=model[about][::thin],
    )


def _on_axis(value: Floats, axis: float | None) -> Floats:
    if value.shape[1] == 1:
        return value[:, 0]
    if axis is None:
        raise InputError("speeds to east and north want an axis to be drawn on", key="axis")
    return component(value[:, 0], value[:, 1], axis)
