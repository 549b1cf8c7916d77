"""Flood and ebb apart: direction, share of time and energy, speeds; and how far they are out of line."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.place.climate import climate_from_values
from racewright.place.duration import duration_curve, thinned
from racewright.place.result import DurationCurve, Floats, SpeedClimate
from racewright.place.tide_stream import FULL_TURN, TidalStream


@dataclass(frozen=True)
class TideWay:
    """Flood or ebb of the water, whatever the machine takes of it.

    Attributes
    ----------
    name : {'flood', 'ebb'}
    direction : float or None
        That the stream runs to, weighted by its cube, clockwise from true north; None where it is not known [rad].
    spread : float or None
        Standard deviation of the direction, weighted by the cube [rad].
    time_share, cube_share : float
        Of all time, and of the whole mean cube [-].
    mean_speed, cube_speed, peak : float
        Mean, cube root of the mean cube, and largest speed while it runs [m/s].
    climate : SpeedClimate
        Shares of the time that it runs.
    curve : DurationCurve
        Speeds, by share of all time; thinned.
    """

    name: Literal["flood", "ebb"]
    direction: float | None
    spread: float | None
    time_share: float
    cube_share: float
    mean_speed: float
    cube_speed: float
    peak: float
    climate: SpeedClimate
    curve: DurationCurve


def ways(stream: TidalStream, bin_width: float) -> tuple[TideWay, ...]:
    """Flood and ebb, each only where the stream runs that way at all."""
    flood = stream.along > 0.0
    found = []
    names: tuple[tuple[Literal["flood", "ebb"], NDArray[np.bool_]], ...] = (("flood", flood), ("ebb", ~flood))
    for name, part in names:
        if part.any():
            found.append(_way(stream, name, part, bin_width))
    return tuple(found)


def misalignment(found: tuple[TideWay, ...]) -> float | None:
    """Ebb's direction less the flood's turned by half a turn, -pi to pi; None where one is not known [rad]."""
    if len(found) != 2 or found[0].direction is None or found[1].direction is None:
        return None
    return (found[1].direction - found[0].direction) % FULL_TURN - math.pi


def _way(stream: TidalStream, name: Literal["flood", "ebb"], part: NDArray[np.bool_], bin_width: float) -> TideWay:
    speed, share = stream.speed[part], float(part.mean())
    climate = climate_from_values(speed, np.ones_like(speed), bin_width)
    curve = thinned(duration_curve(speed), 501)
    direction, spread = _direction(stream, part)
    return TideWay(
        name=name,
        direction=direction,
        spread=spread,
        time_share=share,
        cube_share=float((speed**3).sum() / (stream.speed**3).sum()),
        mean_speed=climate.mean_speed,
        cube_speed=climate.mean_cube_speed,
        peak=float(speed.max()),
        climate=climate,
        curve=DurationCurve(value=curve.value, exceedance=share * curve.exceedance),
    )


def _direction(stream: TidalStream, part: NDArray[np.bool_]) -> tuple[float | None, float | None]:
    if stream.east is None or stream.north is None:
        return None, None
    east, north, weight = stream.east[part], stream.north[part], stream.speed[part] ** 3
    heading: Floats = np.arctan2(east, north)
    middle = float(np.angle((weight * np.exp(1j * heading)).sum()))
    off = (heading - middle + math.pi) % FULL_TURN - math.pi
    return middle % FULL_TURN, float(np.sqrt((weight @ off**2) / weight.sum()))
