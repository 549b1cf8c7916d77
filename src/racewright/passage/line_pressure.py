"""Pressure along lines through the machine, less that of the undisturbed water at the same depth."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.machine.row import Row
from racewright.passage.lines import ThroughLines
from racewright.stage.result import OperatingPoint

Floats = NDArray[np.float64]


def line_pressure(vanes: Row, blades: Row, density: float, point: OperatingPoint, lines: ThroughLines) -> Floats:
    """Pressure on the lines less the undisturbed one at the same depth, shape (k, s) [Pa].

    rho (U^2 - V^2)/2 with V of the lines; less rho Cth^2/2 of the swirl, whose r Cth a line keeps from the vanes to
    the rotor and behind it (within the hub's vortex core it turns as a solid); less the stage's head drop from the
    rotor on (losses of the vanes with it), and less what debris ahead of the rows costs from the vanes on. Rows stand
    as discs at the mid-chords of their hub sections.
    """
    before, behind = _swirl(point, lines)
    speed = point.stream_speed
    at_rotor, at_vanes = lines.x >= blades.place_x, lines.x >= vanes.place_x
    core = np.where(at_rotor, np.minimum(1.0, (lines.radius / max(point.hub_core.radius, 1e-9)) ** 2), 1.0)
    turning = core * np.where(at_rotor, behind, np.where(at_vanes, before, 0.0)) / lines.radius
    lost = np.where(at_rotor, point.head_drop, 0.0) + np.where(at_vanes, 0.5 * point.debris_load * speed**2, 0.0)
    head = 0.5 * speed**2 * (1.0 - lines.speed**2) - 0.5 * turning**2 - lost
    return np.asarray(density * head, dtype=np.float64)


def among_rows(vanes: Row, blades: Row, lines: ThroughLines) -> NDArray[np.bool_]:
    """Stations from the vanes' front to the rotor's rear, shape (s,)."""
    front = vanes.place_x - 0.5 * float(vanes.chord.max())
    rear = blades.place_x + 0.5 * float(blades.chord.max())
    return (lines.x >= front) & (lines.x <= rear)


def _swirl(point: OperatingPoint, lines: ThroughLines) -> tuple[Floats, Floats]:
    """r Cth of each line before and behind the rotor, shape (k, 1) [m2/s]."""
    known = point.triangles
    carried = known.radius * known.axial_speed
    flow = np.concatenate([[0.0], np.cumsum(0.5 * (carried[1:] + carried[:-1]) * np.diff(known.radius))])
    before, behind = (
        np.interp(lines.within, flow / flow[-1], known.radius * swirl)[:, None]
        for swirl in (known.swirl_in, known.swirl_out)
    )
    return before, behind
