"""Which logs pass a machine: kinds, seasons, how often."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

import numpy as np

from racewright.errors import InputError
from racewright.holding.contact_numbers import Floats
from racewright.holding.log_body import Attitude
from racewright.machine.drive_checks import finite, number


@dataclass(frozen=True, slots=True)
class Season:
    """A part of the year with its own water and its own logs.

    Parameters
    ----------
    name : str
    share : float
        Of the year, 0 to 1 [-].
    speed, speed_share : ndarray, shape (b,)
        Stream speeds at the machine, > 0 [m/s], and the share of the season at each, summing to 1 [-].
    exposed : float
        Share of the season that the machine is in the water, 0 to 1 [-].
    """

    name: str
    share: float
    speed: Floats
    speed_share: Floats
    exposed: float = 1.0

    def __post_init__(self) -> None:
        number(f"The share of season {self.name!r}", self.share, 0.0, 1.0)
        number(f"The exposed share of season {self.name!r}", self.exposed, 0.0, 1.0)
        speed = finite(f"The speeds of season {self.name!r}", self.speed)
        share = finite(f"The speed shares of season {self.name!r}", self.speed_share, least=0.0)
        if speed.ndim != 1 or speed.shape != share.shape or speed.size == 0:
            raise InputError(f"season {self.name!r} wants as many speed shares as speeds, one or more")
        if np.any(speed <= 0.0) or np.any(speed > 20.0) or abs(float(share.sum()) - 1.0) > 0.01:
            raise InputError(f"season {self.name!r} wants speeds above 0 up to 20 m/s and shares that sum to 1")
        object.__setattr__(self, "speed", speed)
        object.__setattr__(self, "speed_share", share / share.sum())


@dataclass(frozen=True, slots=True)
class LogKind:
    """Logs of one kind, by their distributions; lengths and diameters are roughly log-normal (from memory, 70 %).

    Parameters
    ----------
    name : str
    attitude : {'floating', 'upright', 'submerged'}
        Upright are dead-heads.
    length, length_spread : float
        Median [m] and standard deviation of its natural logarithm, 0 to 2 [-].
    diameter, diameter_spread : float
        Median [m] and standard deviation of its natural logarithm, 0 to 2 [-].
    link : float
        Correlation of the two logarithms, -1 to 1 [-].
    longest : float
        What fits the channel; longer draws are taken as this long [m].
    density_low, density_high : float
        Evenly drawn between [kg/m3].
    passing : tuple of float
        One a season: logs per second and metre of width, or per square metre of section for submerged ones
        [1/(m s)] or [1/(m2 s)].
    heading_spread : float
        Standard deviation of the axis from the stream, 0 to 2; pieces ride along the flow in mid-channel (Braudrick &
        Grant 2001), the spread is for the user to say [rad].
    """

    name: str
    attitude: Attitude
    length: float
    length_spread: float
    diameter: float
    diameter_spread: float
    longest: float
    density_low: float
    density_high: float
    passing: tuple[float, ...]
    heading_spread: float = 0.5
    link: float = 0.5

    def __post_init__(self) -> None:
        said = f"of log kind {self.name!r}"
        if self.attitude not in get_args(Attitude):
            raise InputError(f"the attitude {said} is {self.attitude!r}; it may be {', '.join(get_args(Attitude))}")
        number(f"The median length {said}", self.length, 0.3, 60.0, "m")
        number(f"The longest length {said}", self.longest, self.length, 60.0, "m")
        number(f"The length's spread {said}", self.length_spread, 0.0, 2.0)
        number(f"The median diameter {said}", self.diameter, 0.02, 4.0, "m")
        number(f"The diameter's spread {said}", self.diameter_spread, 0.0, 2.0)
        number(f"The link {said}", self.link, -1.0, 1.0)
        number(f"The low density {said}", self.density_low, 300.0, 1400.0, "kg/m3")
        number(f"The high density {said}", self.density_high, self.density_low, 1400.0, "kg/m3")
        number(f"The heading's spread {said}", self.heading_spread, 0.0, 2.0, "rad")
        for rate in self.passing:
            number(f"A passing rate {said}", rate, 0.0, 1e3, "1/(m s)")


@dataclass(frozen=True, slots=True)
class LogPopulation:
    """All logs that pass.

    Parameters
    ----------
    kinds : tuple of LogKind
    seasons : tuple of Season
        Shares sum to 1 at most.
    """

    kinds: tuple[LogKind, ...]
    seasons: tuple[Season, ...]

    def __post_init__(self) -> None:
        if not self.kinds or not self.seasons:
            raise InputError("a log population wants one kind and one season at least")
        if sum(s.share for s in self.seasons) > 1.0 + 1e-9:
            raise InputError("the seasons' shares sum to more than the year")
        for kind in self.kinds:
            if len(kind.passing) != len(self.seasons):
                raise InputError(
                    f"log kind {kind.name!r} has {len(kind.passing)} passing rates for {len(self.seasons)} seasons"
                )
