"""From a tide to what the machine meets over a year or the 18.6-year cycle."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.climate import climate_from_values
from racewright.place.counted import counted, outage_remarks
from racewright.place.depth_remarks import depth_remarks
from racewright.place.duration import duration_curve, thinned
from racewright.place.guard import within
from racewright.place.result import Calendar, Floats, Site, SpeedClimate
from racewright.place.season import Season
from racewright.place.tide_result import Tide
from racewright.place.tide_rhythm import Slack, SpringNeap, slack, spring_neap
from racewright.place.tide_site_remarks import site_remarks
from racewright.place.tide_stream import TidalStream, stream_of
from racewright.place.tide_turning import Turning, met
from racewright.place.tide_ways import TideWay, misalignment, ways
from racewright.remark import Remark
from racewright.tick import Tick, silent

NODAL_CYCLE = 6798.38 * 86400.0
"""The moon's node once round, 18.61 years [s]."""
SLACK_SPEED = 0.5
"""Below which boats and divers work, default, no source; a licensed crew decides on the day [m/s]."""


@dataclass(frozen=True)
class TidalSite:
    """A tidal place as the machine sees it, over the predicted time.

    Attributes
    ----------
    site : Site
        As other places give it. `site.climate` counts what the machine meets: no speed while it turns, shows its back
        or is out by season; `site.speed_curve` is the water's own.
    water : SpeedClimate
        Of the water, both directions, all the time.
    ways : tuple of TideWay
        Flood and ebb.
    axis : float or None
        On which the mean cube is largest, towards the flood's end, clockwise from true north [rad].
    misalignment : float or None
        Ebb's direction less the flood's turned by half a turn [rad].
    way : {'swings', 'half turn', 'fixed'}
    faces : {'both', 'flood', 'ebb'}
        Directions of which the energy is counted.
    turns : float
        Changes of direction a year [1/yr].
    lost_turning, lost_off_axis, lost_direction : float
        Share of the water's mean cube that goes while the machine turns, by its heading, and with the direction that
        it does not take [-].
    springs : SpringNeap
    slack : Slack
    below_cut_in : float or None
        Share of the time with a counted speed below cut-in; None without one [-].
    yearly_cube : ndarray, shape (m,)
        Mean cube of the water by calendar year, over the mean of all; whole years only, may be empty [-].
    yearly_cube_year : ndarray of int64, shape (m,)
    first, last : int
        Stamps of the prediction [s since 1970-01-01 UTC].
    """

    site: Site
    water: SpeedClimate
    ways: tuple[TideWay, ...]
    axis: float | None
    misalignment: float | None
    way: Literal["swings", "half turn", "fixed"]
    faces: Literal["both", "flood", "ebb"]
    turns: float
    lost_turning: float
    lost_off_axis: float
    lost_direction: float
    springs: SpringNeap
    slack: Slack
    below_cut_in: float | None
    yearly_cube: Floats
    yearly_cube_year: NDArray[np.int64]
    first: int
    last: int


def site_from_tide(
    tide: Tide,
    turning: Turning | None,
    *,
    first_year: int,
    period: Literal["year", "nodal cycle"] = "nodal cycle",
    flood_direction: float | None = None,
    speed_factor: float = 1.0,
    cut_in_speed: float | None = None,
    slack_speed: float = SLACK_SPEED,
    step: float = 600.0,
    bin_width: float = 0.1,
    season: Season | None = None,
    depth: float | None = None,
    hub_depth: float | None = None,
    outer_radius: float | None = None,
    tick: Tick = silent,
) -> TidalSite:
    """Predict the stream and count what a one-way machine meets of it.

    Parameters
    ----------
    tide : Tide
        Of speeds, with M2 and S2 told apart.
    turning : Turning or None
        How the machine turns; None is refused where the stream runs both ways.
    first_year : int
        The prediction starts on its 1 January, UTC; 1950 to 2100.
    period : {'year', 'nodal cycle'}
        One calendar year, or 18.61 years.
    flood_direction : float, optional
        About where the flood runs to, clockwise from true north; needed with speeds to east and north [rad].
    speed_factor : float
        Cube-mean speed over the capture area over the recorded speed, 0.05 to 5, default 1 [-].
    cut_in_speed : float, optional
        [m/s]
    slack_speed : float
        0.05 to 3; default `SLACK_SPEED` [m/s].
    step : float
        Between predicted stamps, 60 to 3600, default 600 [s].
    bin_width, season, depth, hub_depth, outer_radius
        As for `site_from_speed`.
    tick : Tick

    Raises
    ------
    InputError
        A tide of levels, one without S2 told from M2, no way of turning, numbers outside their ranges.
    """
    if tide.named("S2") is None and any(row.name == "S2" for row in tide.unseparated):
        raise InputError(
            f"a record that tells what {tide.told_apart / 86400.0:.3g} d without gaps would does not tell springs "
            "from neaps, so no year follows from it; 15 d are the least, 35 d or more are wanted"
        )
    time = _stamps(first_year, period, within("the step", step, 60.0, 3600.0, "s"))
    within("the slack speed", slack_speed, 0.05, 3.0, "m/s")
    if cut_in_speed is not None:
        within("the cut-in speed", cut_in_speed, 0.0, 10.0, "m/s")
    stream = stream_of(tide, time, flood_direction=flood_direction, factor=speed_factor, tick=tick)
    seen = met(stream, turning)
    assert turning is not None  # `met` refuses a stream that turns without it
    weight: Floats = np.full(time.size, float(time[1] - time[0]))
    found = counted(time, seen.speed, weight, depth=None, season=season, start_month=1, bin_width=bin_width)
    both = ways(stream, bin_width)
    years, cube = _by_year(stream, found.calendar)
    result = TidalSite(
        site=Site(
            values=tide.values,
            discharge_curve=None,
            speed_curve=thinned(duration_curve(stream.speed)),
            climate=found.climate,
            standings=(),
            years=float(tide.last - tide.first) * (1.0 - tide.missing) / (365.25 * 86400.0),
            remarks=(),
            calendar=found.calendar,
            outages=found.outages,
            open_climate=found.open_climate,
            open_calendar=found.open_calendar,
            predicted=True,
        ),
        water=climate_from_values(stream.speed, weight, bin_width),
        ways=both,
        axis=stream.axis,
        misalignment=misalignment(both),
        way=turning.way,
        faces=seen.faces,
        turns=seen.turns * 365.25 * 86400.0 / float(time[-1] - time[0]),
        lost_turning=seen.lost_turning,
        lost_off_axis=seen.lost_off_axis,
        lost_direction=seen.lost_direction,
        springs=spring_neap(stream),
        slack=slack(stream, slack_speed),
        below_cut_in=None if cut_in_speed is None else float((seen.speed < cut_in_speed).mean()),
        yearly_cube=cube,
        yearly_cube_year=years,
        first=int(time[0]),
        last=int(time[-1]),
    )
    told = (
        *tide.remarks,
        *site_remarks(result, period),
        *depth_remarks(depth, hub_depth, outer_radius),
        *outage_remarks(found.outages),
    )
    return _with_remarks(result, told)


def _with_remarks(result: TidalSite, told: tuple[Remark, ...]) -> TidalSite:
    return replace(result, site=replace(result.site, remarks=told))


def _stamps(first_year: int, period: str, step: float) -> NDArray[np.int64]:
    if isinstance(first_year, bool) or first_year != int(first_year) or not 1950 <= first_year <= 2100:
        raise InputError(f"the first year is {first_year!r}; wanted 1950 to 2100", key="first_year")
    if period not in ("year", "nodal cycle"):
        raise InputError(f"the period is {period!r}; wanted 'year' or 'nodal cycle'", key="period")
    start, stop = (int(np.datetime64(f"{year}-01-01", "s").astype(np.int64)) for year in (first_year, first_year + 1))
    length = float(stop - start) if period == "year" else NODAL_CYCLE
    count = math.floor(length / step)
    return start + round(step) * np.arange(count, dtype=np.int64)


def _by_year(stream: TidalStream, calendar: Calendar) -> tuple[NDArray[np.int64], Floats]:
    """Mean cube of whole calendar years over the mean of all."""
    year = stream.time.astype("datetime64[s]").astype("datetime64[Y]").astype(np.int64) + 1970
    first = int(year[0])
    total = np.bincount(year - first, weights=stream.speed**3) / np.bincount(year - first)
    whole = calendar.year[calendar.covered > 0.999]
    return whole, total[whole - first] / float((stream.speed**3).mean())
