"""A trunk or a crown held on the lines or the machine."""

from __future__ import annotations

from math import cos, pi, sin

from racewright.holding.debris_load import DebrisLoad, Vector, drag_load
from racewright.holding.debris_table import DragCoefficient, drag_coefficient
from racewright.holding.log_body import Log
from racewright.machine.drive_checks import number


def held_trunk(
    log: Log,
    stream_speed: float,
    point: Vector,
    *,
    heading: float = 0.5 * pi,
    coefficient: DragCoefficient | None = None,
) -> DebrisLoad:
    """Trunk held across the stream, or slanting: cross-flow drag on its wetted side, U^2 sin^2, and on its end.

    Parameters
    ----------
    log : Log
        A floating one is wetted to its draught; held under water it is wetted all over: give it as submerged.
    stream_speed : float
        [m/s]
    point : tuple of float
        Its middle from the machine's reference: x downstream, y across, z up [m].
    heading : float
        Of its axis from the stream; square across when left out, which is the worst [rad].
    coefficient : DragCoefficient, optional
        'trunk across' when left out.
    """
    lean = number("The trunk's heading", heading, -2.0 * pi, 2.0 * pi, "rad")
    c, s = (0.0, 1.0) if log.attitude == "upright" else (cos(lean), sin(lean))
    side = drag_coefficient("trunk across") if coefficient is None else coefficient
    end = drag_coefficient("trunk end-on")
    deep = log.diameter if log.attitude == "upright" else min(log.draught, log.diameter)
    side_area, end_area = log.length * deep, 0.25 * pi * log.diameter**2
    area = side_area * abs(s) + end_area * abs(c)
    low, value, high = (
        (side_area * one * abs(s) ** 3 + end_area * other * abs(c) ** 3) / area
        for one, other in ((side.low, end.low), (side.value, end.value), (side.high, end.high))
    )
    mixed = DragCoefficient(side.name, low, value, high, side.basis, side.edition, side.status)
    across = s * c * (end_area * end.value * abs(c) - side_area * side.value * abs(s)) / (area * value)
    return drag_load("held trunk", area, mixed, stream_speed, log.water_density, point, across)


def held_crown(
    width: float,
    height: float,
    stream_speed: float,
    point: Vector,
    *,
    water_density: float = 1000.0,
    coefficient: DragCoefficient | None = None,
) -> DebrisLoad:
    """Crown of a tree, on the ellipse of its outline.

    Parameters
    ----------
    width, height : float
        Of the outline in the water, > 0 [m].
    stream_speed : float
        [m/s]
    point : tuple of float
        As `held_trunk` [m].
    water_density : float
        [kg/m3]
    coefficient : DragCoefficient, optional
        'crown' when left out; it has no source.
    """
    area = 0.25 * pi * number("The crown's width", width, 0.01, 100.0, "m")
    area *= number("The crown's height", height, 0.01, 100.0, "m")
    used = drag_coefficient("crown") if coefficient is None else coefficient
    return drag_load("held crown", area, used, stream_speed, water_density, point)
