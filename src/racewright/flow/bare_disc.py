"""The same method without a duct: a disc that takes head in an open stream, for checks and for scale."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

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
) -> BareDisc:
    """Flow through a bare disc; momentum theory asks for speed_ratio = (1 + w)/2.

    `reach` is the length of wake solved for, in disc radii, 5 or more; the first panel is 1/100 of a radius.
    """
    loads = check_loads(head_coefficients)
    none = np.empty(0)
    body = surfaces(none, none, none, none)
    wake_x = wake_places(0.0, 0.01, reach, wake_panels)
    guess = np.concatenate([[0.5], np.ones(wake_panels), np.zeros(wake_panels)])
    solutions = walk(body, np.empty((0, 0)), wake_x, 1.0, loads, guess, tick)
    unknown = np.stack([one.unknown for one in solutions])
    return BareDisc(
        head_coefficient=np.array([one.head_coefficient for one in solutions]),
        speed_ratio=2.0 * unknown[:, 0],
        converged=np.array([one.converged for one in solutions]),
        wake_x=wake_x,
        wake_r=np.column_stack([np.ones(len(solutions)), unknown[:, 1 : 1 + wake_panels]]),
    )
