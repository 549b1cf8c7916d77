"""The same method without a duct: a disc that takes head in an open stream, for checks and for scale."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.channel import AHEAD, wall_places
from racewright.flow.ladder import LADDER, check_loads
from racewright.flow.surfaces import surfaces
from racewright.flow.wake import wake_places, walk
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class BareDisc:
    """Disc of radius 1 at x = 0; speeds over the stream speed, `m` loads.

    Attributes
    ----------
    head_coefficient, speed_ratio : ndarray, shape (m,)
        CH, and the area-mean axial speed at the disc over U [-].
    converged : ndarray of bool, shape (m,)
    wake_x, wake_r : ndarray, shape (s,), (m, s)
        Nodes of the sheet, in disc radii.
    """

    head_coefficient: Floats
    speed_ratio: Floats
    converged: NDArray[np.bool_]
    wake_x: Floats
    wake_r: Floats


def bare_disc(
    head_coefficients: tuple[float, ...] = LADDER,
    *,
    wake_panels: int = 80,
    reach: float = 40.0,
    tick: Tick = silent,
    channel_radius: float | None = None,
    channel_ahead: float = AHEAD,
) -> BareDisc:
    """Flow through a bare disc; momentum theory asks for speed_ratio = (1 + w)/2.

    `reach` is the length of wake solved for, in disc radii, 5 or more; the first panel is 1/100 of a radius.
    `channel_radius` in disc radii puts a rigid round wall about it, `channel_ahead` channel radii of it ahead of
    the disc; behind, it goes as far as the wake, and both are closed by their far state.
    """
    loads = check_loads(head_coefficients)
    none = np.empty(0)
    wake_x = wake_places(0.0, 0.01, reach, wake_panels)
    wall = channel_radius or 0.0
    wall_x = none
    if channel_radius is not None:
        wall_x = wall_places(0.0, 0.0, float(wake_x[-1]), 1.0, channel_radius, channel_ahead)
    body = surfaces(none, none, none, none, wall_x, wall)
    n = body.x.size
    own = body.own() if n else np.empty((0, 0))
    guess = np.concatenate([np.zeros(n), [0.5], np.ones(wake_panels), np.zeros(wake_panels)])
    solutions = walk(body, own, wake_x, 1.0, loads, guess, tick, wall)
    unknown = np.stack([one.unknown for one in solutions])
    return BareDisc(
        head_coefficient=np.array([one.head_coefficient for one in solutions]),
        speed_ratio=2.0 * unknown[:, n],
        converged=np.array([one.converged for one in solutions]),
        wake_x=wake_x,
        wake_r=np.column_stack([np.ones(len(solutions)), unknown[:, n + 1 : n + 1 + wake_panels]]),
    )
