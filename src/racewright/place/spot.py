"""A speed climate estimated from a few measured speeds: a shape scaled to them, with a wide band."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from racewright.errors import InputError
from racewright.place.climate import climate_from_values
from racewright.place.depth_remarks import depth_remarks
from racewright.place.guard import within
from racewright.place.result import DurationCurve, Floats, Site, SpeedClimate
from racewright.place.shape import Shape
from racewright.place.spot_remarks import spot_remarks
from racewright.remark import Remark

STAGES = {"low": (0.70, 0.99), "middle": (0.30, 0.70), "high": (0.02, 0.30)}
"""Exceedance of the flow that a word for it stands for (rule of this program) [-]."""

LEAST_ERROR = 0.10
"""Relative standard error of speed on spot speeds alone is at least this (rule of this program, no source) [-]."""

PRIOR_SCATTER, PRIOR_WORTH = 0.15, 4
"""Scatter of a spot speed about the shape before any is seen [-], and how many degrees of freedom that is worth (rule
of this program, no source). It keeps a second spot that happens to lie close, or far, from ruling the band."""

_GRID = np.linspace(0.5, 1999.5, 2000) / 2000.0


@dataclass(frozen=True)
class SpotSpeed:
    """One measured speed.

    Attributes
    ----------
    time : int
        [s since 1970-01-01 UTC]
    speed : float
        At the machine's place, over its capture area, above 0 to 15 [m/s].
    often, seldom : float
        Exceedance of the day's flow lies between these, seldom <= often, 0.001 to 0.999; equal when it is known
        from a gauge [-].
    """

    time: int
    speed: float
    often: float
    seldom: float

    def __post_init__(self) -> None:
        within("a spot speed", self.speed, 0.01, 15.0, "m/s")
        within("a spot's smaller exceedance", self.seldom, 0.001, 0.999, "[-]")
        within("a spot's larger exceedance", self.often, self.seldom, 0.999, "[-]")


def spot_at(time: int, speed: float, stage: str) -> SpotSpeed:
    """A spot speed with a word for the flow: 'low', 'middle' or 'high' (see `STAGES`)."""
    if stage not in STAGES:
        raise InputError(f"the flow is called {stage!r}; wanted 'low', 'middle', 'high' or an exceedance")
    seldom, often = STAGES[stage]
    return SpotSpeed(time, speed, often, seldom)


@dataclass(frozen=True)
class SpotClimate:
    """A climate estimated from spot speeds; never a record.

    Attributes
    ----------
    climate : SpeedClimate
    speed_curve : DurationCurve
        [m/s]
    median_speed : float
        Speed at exceedance 0.5 [m/s].
    residual : ndarray, shape (n,)
        ln(spot speed / estimate) of each spot [-].
    scatter_error, flow_error, shape_error : float
        Relative standard errors of speed: from the spots' scatter, from the flow being known only roughly, from the
        shape [-].
    relative_standard : float
        Root of their squares, at least `LEAST_ERROR` [-].
    low_factor, high_factor : float
        exp of minus and plus two standard errors: multiply every speed by them for a band of about 95 % [-].
    basis : str
        Where the shape comes from.
    remarks : tuple of Remark
    """

    climate: SpeedClimate
    speed_curve: DurationCurve
    median_speed: float
    residual: Floats
    scatter_error: float
    flow_error: float
    shape_error: float
    relative_standard: float
    low_factor: float
    high_factor: float
    basis: str
    remarks: tuple[Remark, ...]


def spot_climate(spots: tuple[SpotSpeed, ...], shape: Shape, bin_width: float = 0.1) -> SpotClimate:
    """Scale a speed-duration curve so that it passes through the spot speeds in the mean of their logarithms.

    Parameters
    ----------
    spots : tuple of SpotSpeed
        One or more.
    shape : Shape
        `shape.FlowShape` or `shape.WeibullShape`.
    bin_width : float
        Of the climate, default 0.1 m/s [m/s].

    Raises
    ------
    InputError
        No spots; a shape without speed at a spot's exceedance.

    Notes
    -----
    Scatter error: standard deviation of the log residuals, pooled with `PRIOR_SCATTER`, over sqrt(n), widened by
    t(97.5 %, PRIOR_WORTH + n - 1) / 2 so that two of it cover 95 % with few spots. Flow error: half the range of ln
    speed over a spot's exceedances over sqrt(3), the mean of all spots (taken as common to all). Shape error: half
    the change of ln of the cube-mean speed between the shape's two ends, each scaled to the spots anew.
    """
    if not spots:
        raise InputError("there are no spot speeds; give one or more")
    v = np.log(np.array([s.speed for s in spots]))
    residual, scale = _scaled(spots, v, shape)
    scatter = _scatter_error(residual)
    spans = [abs(_log_ratio(shape, s.seldom) - _log_ratio(shape, s.often)) for s in spots]
    flow = float(np.mean(spans)) / math.sqrt(12.0)
    ends = [_cube_mean(_scaled(spots, v, end)[1] * end.ratio(_GRID)) for end in shape.ends()]
    bend = 0.5 * abs(math.log(ends[1] / ends[0]))
    relative = max(LEAST_ERROR, math.sqrt(scatter**2 + flow**2 + bend**2))
    speed = scale * shape.ratio(_GRID)
    return SpotClimate(
        climate=climate_from_values(speed, np.ones_like(speed), bin_width),
        speed_curve=DurationCurve(speed, _GRID.copy()),
        median_speed=scale,
        residual=residual,
        scatter_error=scatter,
        flow_error=flow,
        shape_error=bend,
        relative_standard=relative,
        low_factor=math.exp(-2.0 * relative),
        high_factor=math.exp(2.0 * relative),
        basis=shape.basis,
        remarks=tuple(
            spot_remarks(
                np.array([s.time for s in spots], dtype=np.float64),
                np.array([0.5 * (s.often + s.seldom) for s in spots]),
                relative,
                shape.basis,
            )
        ),
    )


def site_from_spots(
    found: SpotClimate,
    *,
    depth: float | None = None,
    hub_depth: float | None = None,
    outer_radius: float | None = None,
) -> Site:
    """The site as the machine sees it, by estimate; without record, years or months.

    Parameters
    ----------
    found : SpotClimate
    depth, hub_depth, outer_radius : float, optional
        As for `site_from_speed` [m].
    """
    return Site(
        values=0,
        discharge_curve=None,
        speed_curve=found.speed_curve,
        climate=found.climate,
        standings=(),
        years=0.0,
        remarks=(*found.remarks, *depth_remarks(depth, hub_depth, outer_radius)),
    )


def _scaled(spots: tuple[SpotSpeed, ...], log_speed: Floats, shape: Shape) -> tuple[Floats, float]:
    """Log residuals and the median speed [m/s] of a shape scaled to the spots."""
    away = log_speed - np.array([_mean_log_ratio(shape, spot) for spot in spots])
    return away - away.mean(), math.exp(float(away.mean()))


def _scatter_error(residual: Floats) -> float:
    """Standard error of the scale from the spots' scatter about the shape [-]."""
    n = residual.size
    freedom = PRIOR_WORTH + n - 1
    spread = math.sqrt((PRIOR_WORTH * PRIOR_SCATTER**2 + float(np.sum(residual**2))) / freedom)
    return max(1.0, 0.5 * float(stdtrit(freedom, 0.975))) * spread / math.sqrt(n)


def _mean_log_ratio(shape: Shape, spot: SpotSpeed) -> float:
    """Mean of ln ratio over a spot's range of exceedance."""
    ratio = shape.ratio(np.linspace(spot.seldom, spot.often, 9))
    if not (ratio > 0.0).all():
        raise InputError(
            f"the shape has no speed at exceedance {spot.often:g}, where {spot.speed:g} m/s was measured"
        )
    return float(np.log(ratio).mean())


def _log_ratio(shape: Shape, exceedance: float) -> float:
    return math.log(float(shape.ratio(np.array([exceedance]))[0]))


def _cube_mean(speed: Floats) -> float:
    return float(np.cbrt(np.mean(speed**3)))
