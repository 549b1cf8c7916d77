"""Draws of logs that meet a machine: by how often they pass and how wide they sweep."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.holding.contact_numbers import Floats
from racewright.holding.log_body import wetted_height
from racewright.holding.log_population import LogKind, LogPopulation
from racewright.machine.drive_checks import number

YEAR = 8760.0 * 3600.0
"""The energy year of 8760 h [s]."""


@dataclass(frozen=True, slots=True)
class Front:
    """What of the machine is in a log's way.

    Parameters
    ----------
    half_width : float
        > 0 [m].
    cover : float
        Water above its highest point, >= 0 [m].
    height : float
        > 0; taken as wide over all of it, though a round duct is not [m].
    speed_cover : tuple of (float, float)
        Where the water's depth goes with its speed: stream speeds, growing [m/s], and the cover at each, >= 0 [m];
        in a straight line between, held beyond. Empty takes `cover` at every speed.
    """

    half_width: float
    cover: float
    height: float
    speed_cover: tuple[tuple[float, float], ...] = ()

    def __post_init__(self) -> None:
        number("The front's half-width", self.half_width, 0.01, 100.0, "m")
        number("The cover", self.cover, 0.0, 200.0, "m")
        number("The front's height", self.height, 0.01, 200.0, "m")
        for speed, cover in self.speed_cover:
            number("A speed of the cover", speed, 0.0, 20.0, "m/s")
            number("The cover", cover, 0.0, 200.0, "m")
        if any(b[0] <= a[0] for a, b in pairwise(self.speed_cover)):
            raise InputError("The speeds of the cover must grow from one to the next.")

    def cover_at(self, speed: Floats) -> Floats:
        """Water above the highest point at stream speeds [m]."""
        if not self.speed_cover:
            return np.full(speed.shape, self.cover)
        known = np.array(self.speed_cover)
        return np.asarray(np.interp(speed, known[:, 0], known[:, 1]), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class LogDraws:
    """Logs that meet the front, equally likely.

    Attributes
    ----------
    encounters : float
        Expected a year [1/yr].
    encounter_error : float
        Its relative standard error from the pool drawn [-].
    kind, season : ndarray of int, shape (n,)
        Places in the population.
    length, diameter, density, heading, offset, speed, struck_depth : ndarray, shape (n,)
        [m], [m], [kg/m3], [rad], [m], [m/s], [m]; struck_depth counts for upright logs.
    """

    encounters: float
    encounter_error: float
    kind: NDArray[np.intp]
    season: NDArray[np.intp]
    length: Floats
    diameter: Floats
    density: Floats
    heading: Floats
    offset: Floats
    speed: Floats
    struck_depth: Floats


_POOL = 8
"""Logs drawn as they pass for each one kept [-]."""


def draw_logs(population: LogPopulation, front: Front, count: int, random: np.random.Generator) -> LogDraws:
    """Draw logs as they pass, then keep them in proportion to the width in which they meet the front.

    Raises
    ------
    NoAnswerError
        When no log of the population reaches the machine's depth.
    """
    rate = np.array([[p * s.share * s.exposed for p, s in zip(k.passing, population.seasons, strict=True)]
                     for k in population.kinds])  # fmt: skip
    total = float(rate.sum())
    if total <= 0.0:
        raise NoAnswerError("No log passes in any season while the machine is in the water: there is no strike.")
    pool = _POOL * count
    which = random.choice(rate.size, pool, p=(rate / total).ravel())
    kind, season = np.divmod(which, rate.shape[1])
    shape, speed = np.empty((4, pool)), np.empty(pool)
    for i, one in enumerate(population.kinds):
        mine = kind == i
        shape[:, mine] = _shapes(one, int(mine.sum()), random)
    for j, part in enumerate(population.seasons):
        mine = season == j
        passing = part.speed_share * part.speed
        speed[mine] = random.choice(part.speed, int(mine.sum()), p=passing / passing.sum())
    length, diameter, density, heading = shape
    reach, struck = _reach(population, kind, length, diameter, density, front.cover_at(speed), front.height)
    upright = np.array([k.attitude == "upright" for k in population.kinds])[kind]
    swept = np.where(upright, diameter, length * np.abs(np.sin(heading)) + diameter * np.abs(np.cos(heading)))
    weight = reach * (2.0 * front.half_width + swept)
    if not np.any(weight > 0.0):
        least = float(front.cover_at(speed).min())
        raise NoAnswerError(f"No log of the {pool} drawn reaches down to the machine, {least:g} m below the surface.")
    mean = float(weight.mean())
    kept = random.choice(pool, count, p=weight / weight.sum())
    offset = random.uniform(-1.0, 1.0, count) * (front.half_width + 0.5 * swept[kept])
    return LogDraws(
        encounters=total * YEAR * mean,
        encounter_error=float(weight.std()) / mean / pool**0.5,
        kind=kind[kept],
        season=season[kept],
        length=length[kept],
        diameter=diameter[kept],
        density=density[kept],
        heading=heading[kept],
        offset=offset,
        speed=speed[kept],
        struck_depth=struck[kept],
    )


def _shapes(kind: LogKind, count: int, random: np.random.Generator) -> Floats:
    first = random.standard_normal(count)
    second = kind.link * first + (1.0 - kind.link**2) ** 0.5 * random.standard_normal(count)
    length = np.clip(kind.length * np.exp(kind.length_spread * first), 0.3, kind.longest)
    diameter = np.clip(kind.diameter * np.exp(kind.diameter_spread * second), 0.02, np.minimum(0.5 * length, 4.0))
    density = random.uniform(kind.density_low, kind.density_high, count)
    return np.stack([length, diameter, density, kind.heading_spread * random.standard_normal(count)])


def _reach(
    population: LogPopulation,
    kind: NDArray[np.intp],
    length: Floats,
    diameter: Floats,
    density: Floats,
    cover: Floats,
    height: float,
) -> tuple[Floats, Floats]:
    """1 where a log's depth meets the front, 0 where not, the height met [m] for submerged ones; the depth struck."""
    reach, struck = np.zeros(kind.size), np.zeros(kind.size)
    for i, one in enumerate(population.kinds):
        mine = kind == i
        over = cover[mine]
        if one.attitude == "floating":
            table = np.array([wetted_height(share) for share in np.linspace(0.0, 1.0, 201)])
            deep = diameter[mine] * np.interp(density[mine] / 1000.0, np.linspace(0.0, 1.0, 201), table)
            reach[mine] = deep > over
        elif one.attitude == "upright":
            reach[mine] = length[mine] > over
            struck[mine] = 0.5 * (over + np.minimum(length[mine], over + height))
        else:
            reach[mine] = height + diameter[mine]
    return reach, struck
