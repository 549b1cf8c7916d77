"""The site: a record, a histogram or a rated transect turned into what the machine meets."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.climate import climate_from_shares
from racewright.place.counted import counted, outage_remarks
from racewright.place.depth_remarks import depth_remarks
from racewright.place.duration import duration_curve, quantile, thinned
from racewright.place.placement import Placement
from racewright.place.profile import RIVER_N
from racewright.place.rating import Rating
from racewright.place.reach import Reach, ReachFlow, flow_at
from racewright.place.remarks import gauged_remarks, placement_remarks, record_remarks, river_remarks
from racewright.place.result import DurationCurve, Floats, Series, Site, Standing
from racewright.place.season import Season
from racewright.place.span import span_of
from racewright.place.transect import Transect
from racewright.remark import Remark

STANDINGS = (("low water (Q95)", 0.95), ("median", 0.50), ("high water (Q5)", 0.05))
"""Label and exceedance of each standing."""


def site_from_discharge(
    series: Series,
    rating: Rating,
    transect: Transect,
    position: float,
    *,
    hub_depth: float | None = None,
    hub_height: float | None = None,
    outer_radius: float,
    capture_radius: float,
    profile_n: float = RIVER_N,
    speed_factor: float | None = None,
    bin_width: float = 0.1,
    season: Season | None = None,
    start_month: int = 1,
    gauged: tuple[float, float] | None = None,
) -> Site:
    """Turn a discharge record at a rated transect into speed at the machine.

    Each value goes discharge, level, area, mean speed, depth-mean speed at the position, cube mean over the
    capture area. While the duct is aground or its top out of the water the machine stands still: the speed
    curve and the standings then show the water's own speed over the wet part of the capture area, but the
    climate, from which energy is computed, counts zero.

    Parameters
    ----------
    series : Series
        Discharge, at least 19 values [m3/s].
    rating, transect
        On one datum.
    position : float
        Distance across the transect [m].
    hub_depth, hub_height : float, optional
        Axis below the surface, or above the bed; exactly one [m].
    outer_radius, capture_radius : float
        The duct's largest radius, for cover and clearance; the disc over which speed is averaged [m].
    profile_n : float
        The vertical profile's exponent is 1/n; default `RIVER_N` [-].
    speed_factor : float, optional
        Measured depth-mean speed at the position over the section mean; else `lateral.local_ratio` [-].
    bin_width : float
        Of the climate, default 0.1 m/s [m/s].
    season : Season, optional
        When the machine is out; the climate counts no speed then.
    start_month : int
        First month of the year for the spread from year to year, 1 to 12, default 1 (calendar years).
    gauged : tuple of float, optional
        Least and greatest discharge among the gaugings behind the rating, beyond which it is extrapolated [m3/s].

    Raises
    ------
    InputError
        A record of speed, too few values, numbers outside their ranges, a rating below the transect's bed.
    """
    if series.kind != "discharge":
        raise InputError(f"a record of {series.kind} was given where a discharge record is wanted")
    placement = Placement(position, outer_radius, capture_radius, hub_depth, hub_height)
    reach = Reach(rating, transect, placement, profile_n, speed_factor)
    span = span_of(series)
    discharge_curve, standings = _ranked(reach, series, span.weight)
    flow = flow_at(reach, series.value)
    remarks = [
        *record_remarks(series, span),
        *placement_remarks(reach, flow, span.weight, standings),
        *river_remarks(reach, flow, span.weight),
        *gauged_remarks(gauged, series.value, span.weight),
    ]
    found = counted(
        series.time,
        np.where(flow.afloat, flow.speed, 0.0),
        span.weight,
        depth=flow.depth,
        season=season,
        start_month=start_month,
        bin_width=bin_width,
    )
    return Site(
        values=int(series.value.size),
        discharge_curve=discharge_curve,
        speed_curve=thinned(duration_curve(flow.speed, span.weight)),
        climate=found.climate,
        standings=standings,
        years=span.years,
        remarks=(*remarks, *outage_remarks(found.outages)),
        calendar=found.calendar,
        outages=found.outages,
        open_climate=found.open_climate,
        open_calendar=found.open_calendar,
        fastest=_fastest(series, flow),
        lowest=_standing("lowest water", series.value, flow, int(np.argmin(flow.level))),
    )


def site_from_speed(
    series: Series,
    *,
    depth: float | None = None,
    hub_depth: float | None = None,
    outer_radius: float | None = None,
    bin_width: float = 0.1,
    season: Season | None = None,
    start_month: int = 1,
) -> Site:
    """Take a record of speed measured at the machine's place as the cube mean over its capture area.

    Parameters
    ----------
    series : Series
        Speed, at least 19 values [m/s].
    depth, hub_depth, outer_radius : float, optional
        Least depth of water, axis below the surface, the duct's largest radius: give all three to have cover
        and clearance checked [m].
    bin_width : float
        Of the climate, default 0.1 m/s [m/s].
    season : Season, optional
        When the machine is out, without a least depth; the climate counts no speed then.
    start_month : int
        As for `site_from_discharge`.

    Raises
    ------
    InputError
        A record of discharge, too few values, a duct that does not fit into the depth.
    """
    if series.kind != "speed":
        raise InputError(f"a record of {series.kind} was given where a speed record is wanted")
    span = span_of(series)
    found = counted(
        series.time,
        series.value,
        span.weight,
        depth=None,
        season=season,
        start_month=start_month,
        bin_width=bin_width,
    )
    return Site(
        values=int(series.value.size),
        discharge_curve=None,
        speed_curve=thinned(duration_curve(series.value, span.weight)),
        climate=found.climate,
        standings=(),
        years=span.years,
        remarks=(
            *record_remarks(series, span),
            *depth_remarks(depth, hub_depth, outer_radius),
            *outage_remarks(found.outages),
        ),
        calendar=found.calendar,
        outages=found.outages,
        open_climate=found.open_climate,
        open_calendar=found.open_calendar,
    )


def site_from_histogram(
    edge: ArrayLike,
    share: ArrayLike,
    *,
    depth: float | None = None,
    hub_depth: float | None = None,
    outer_radius: float | None = None,
) -> Site:
    """Take a histogram of the cube-mean speed over the capture area.

    Parameters
    ----------
    edge, share : array_like, shapes (b+1,), (b,)
        As for `climate.climate_from_shares` [m/s], [-].
    depth, hub_depth, outer_radius : float, optional
        As for `site_from_speed` [m].
    """
    text = "A histogram does not say how long the record behind it is; about ten years are wanted (from memory)."
    return Site(
        values=0,
        discharge_curve=None,
        speed_curve=None,
        climate=climate_from_shares(edge, share),
        standings=(),
        years=0.0,
        remarks=(Remark("note", text, "record length"), *depth_remarks(depth, hub_depth, outer_radius)),
    )


def _ranked(reach: Reach, series: Series, weight: Floats) -> tuple[DurationCurve, tuple[Standing, ...]]:
    """Thinned duration curve of discharge and the standings; the whole curve, as long as the record, is let go."""
    curve = duration_curve(series.value, weight)
    return thinned(curve), _standings(reach, curve)


def _standings(reach: Reach, curve: DurationCurve) -> tuple[Standing, ...]:
    """Depths and speed at Q95, Q50 and Q5."""
    discharge = np.array([quantile(curve, exceedance) for _, exceedance in STANDINGS])
    flow = flow_at(reach, discharge)
    return tuple(_standing(label, discharge, flow, i) for i, (label, _) in enumerate(STANDINGS))


def _fastest(series: Series, flow: ReachFlow) -> Standing | None:
    """The fastest value that the climate counts, the machine in all year; None where it is never afloat."""
    if not flow.afloat.any():
        return None
    return _standing("fastest water", series.value, flow, int(np.argmax(np.where(flow.afloat, flow.speed, -1.0))))


def _standing(label: str, discharge: Floats, flow: ReachFlow, i: int) -> Standing:
    """One value of the flow at the machine."""
    return Standing(
        label=label,
        discharge=float(discharge[i]),
        level=float(flow.level[i]),
        depth=float(flow.depth[i]),
        cover=float(flow.cover[i]),
        clearance=float(flow.clearance[i]),
        speed=float(flow.speed[i]),
    )
