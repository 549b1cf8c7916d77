"""Harmonic analysis of a record of level or speed, with errors and what the record is too short for."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any, Literal

import numpy as np

from racewright.errors import InputError
from racewright.place.gaps import gaps_of
from racewright.place.guard import within
from racewright.place.result import Series
from racewright.place.span import weigh
from racewright.place.tide_choice import chosen, named
from racewright.place.tide_constants import unseparated
from racewright.place.tide_predict import predict
from racewright.place.tide_record import DAY, TideRecord
from racewright.place.tide_remarks import tide_remarks
from racewright.place.tide_result import Tide
from racewright.place.tide_solve import rows_of, solved
from racewright.place.tide_table import form_factor


def tide(
    record: TideRecord,
    latitude: float,
    *,
    constituents: tuple[str, ...] | None = None,
    nodal: bool = True,
    infer: bool = True,
    trend: bool = False,
    method: Literal["least squares", "robust"] = "least squares",
) -> Tide:
    """Fit tidal constituents to a record.

    Parameters
    ----------
    record : TideRecord
        From `tide_record`; intervals may vary and there may be gaps.
    latitude : float
        -pi/2 to pi/2, positive north [rad].
    constituents : tuple of str, optional
        Names; default those that the record's length and gaps let be told apart, for speeds without those slower
        than ten days.
    nodal : bool
        Take the 18.6-year factors out; default True. False for made-up tides of constant amplitude.
    infer : bool
        Let K2 and P1 follow S2 and K1 by the equilibrium tide's ratio where the record is too short to tell them
        apart; default True; used only where constituents are not named.
    trend : bool
        Fit a straight line beside the mean; default False.
    method : {'least squares', 'robust'}
        'robust' gives storms less weight.

    Returns
    -------
    Tide

    Raises
    ------
    InputError
        A latitude out of range, an unknown constituent or one named twice, named ones that the
        record cannot separate, gaps that leave nothing determined.

    Examples
    --------
    Thirty days of a stream of 2 m/s, every half hour:

    >>> import numpy as np
    >>> from racewright.place import tide, tide_record
    >>> time = 1_767_225_600 + 1800 * np.arange(30 * 48)
    >>> along = 2.0 * np.cos(1.405189e-4 * (time - time[0]))
    >>> found = tide(tide_record(time, along=along), 1.0, nodal=False)
    >>> round(found.named("M2").amplitude, 3)
    2.0
    >>> [row.name for row in found.unseparated]
    ['K2', 'P1']

    Notes
    -----
    Fitted by the open library `utide` (harmonic analysis with nodal factors at each stamp). Errors are half widths
    of 95 % intervals from the residual's spectrum about each constituent; where many stamps are uneven, from white
    noise.
    """
    within("the latitude", latitude, -0.5 * math.pi, 0.5 * math.pi, "rad")
    if method not in ("least squares", "robust"):
        raise InputError(f"the method is {method!r}; wanted 'least squares' or 'robust'", key="method")
    names, told = (named(record, constituents), record.span) if constituents else chosen(record)
    short = unseparated(told, names, infer=infer and constituents is None)
    inferred = tuple(row.name for row in short if row.inferred)
    found, coloured = solved(record, latitude, names, inferred, nodal=nodal, trend=trend, method=method)
    rows = rows_of(found, inferred, record.kind)
    two = record.kind == "east north"
    span, gaps = weigh(record.time), gaps_of(Series("speed", record.time, record.speed))
    fitted = Tide(
        kind=record.kind,
        latitude=latitude,
        nodal=nodal,
        first=int(record.time[0]),
        last=int(record.time[-1]),
        values=int(record.time.size),
        missing=span.missing,
        longest_gap=gaps.longest,
        told_apart=told,
        constituents=rows,
        unseparated=short,
        mean=(float(found.umean), float(found.vmean)) if two else (float(found.mean),),
        trend=_trend(found, two=two) if trend else ((0.0, 0.0) if two else (0.0,)),
        residual=None,
        explained=None,
        cube_ratio=None,
        form_factor=form_factor(rows),
        remarks=(),
    )
    return _judged(fitted, record, coloured=coloured)


def _trend(found: Any, *, two: bool) -> tuple[float, ...]:
    """Slopes per second."""
    return (float(found.uslope) / DAY, float(found.vslope) / DAY) if two else (float(found.slope) / DAY,)


def _judged(fitted: Tide, record: TideRecord, *, coloured: bool) -> Tide:
    """With residual, explained variance, cube ratio and remarks."""
    model = predict(fitted, record.time)
    middle = 0.5 * (record.time[0] + record.time[-1])
    line = (record.time - middle)[:, None] * np.array(fitted.trend)
    left = record.value - model - line
    about = record.value - line
    about = about - about.mean(axis=0)
    variance = float((about**2).sum())
    cube = None
    if record.kind != "level":
        size = np.sqrt((model**2).sum(axis=1))
        cube = float((record.speed**3).mean() / (size**3).mean()) if size.any() else None
    done = replace(
        fitted,
        residual=float(np.sqrt((left**2).sum(axis=1).mean())),
        explained=1.0 - float((left**2).sum()) / variance,
        cube_ratio=cube,
    )
    return replace(done, remarks=tide_remarks(done, coloured=coloured))
