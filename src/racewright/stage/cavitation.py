"""Cavitation number of the rotor's tip, and the lowest pressure of the through-flow."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.cover import GRAVITY
from racewright.stage.forces import ForcesMany
from racewright.stage.solve import Solved
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]

STANDARD_ATMOSPHERE = 101325.0
"""[Pa]"""


def cavitation_number(
    depth: float,
    relative_speed: float,
    density: float,
    vapour_pressure: float,
    *,
    throat_pressure: float = 0.0,
    atmosphere: float = STANDARD_ATMOSPHERE,
    gravity: float = GRAVITY,
) -> float:
    """Cavitation number sigma = (p_atm + rho g depth + p_throat - p_v)/(rho W^2/2).

    A section cavitates where sigma falls to its -cp_min. In a duct the pressure at the throat is below that of the
    undisturbed water at the same depth; leaving it out flatters.

    Parameters
    ----------
    depth : float
        Below the surface, 0 or more [m].
    relative_speed : float
        W at the tip, > 0: blade speed and axial speed together [m/s].
    density : float
        > 0 [kg/m3].
    vapour_pressure : float
        0 or more [Pa].
    throat_pressure : float
        Static pressure at the section less the undisturbed one at the same depth [Pa].
    atmosphere : float
        101325 by default, the standard atmosphere [Pa].
    gravity : float
        [m/s2]

    Returns
    -------
    float
        Negative where the pressure is below the vapour's already [-].

    Raises
    ------
    InputError
        For values outside these ranges.
    """
    values = (depth, relative_speed, density, vapour_pressure, throat_pressure, atmosphere, gravity)
    if not all(math.isfinite(v) for v in values) or depth < 0.0 or vapour_pressure < 0.0 or atmosphere < 0.0:
        raise InputError("The cavitation number needs finite values and a depth and pressures that are not negative.")
    if relative_speed <= 0.0 or density <= 0.0:
        raise InputError("The cavitation number needs a relative speed and a density above 0.")
    still = atmosphere + density * gravity * depth + throat_pressure - vapour_pressure
    return still / (0.5 * density * relative_speed**2)


def lowest_pressure(stage: Stage, solved: Solved, found: ForcesMany) -> Floats:
    """Lowest static pressure of the through-flow less the undisturbed one at the same depth, shape (p,) [Pa].

    The least of: duct's inner wall and hub; the water before the blades and behind them at every radius, with its
    swirl and the head taken; the axis of the vortex behind the hub. The sections' own suction is not in it: the thin
    row has none to give.
    """
    trial, stream = solved.trial, solved.stream_speed
    rows = trial.rows
    half = 0.5 * stage.water.density * stream**2
    given = 0.5 * stream**2 * (1.0 - trial.debris_load)
    before = np.min(-0.5 * (rows.axial_speed**2 + rows.swirl_in**2), axis=1) + given
    behind = np.min(-0.5 * (rows.axial_speed**2 + rows.swirl_out**2) - rows.head, axis=1) + given
    wall = stage.peaks.lowest(solved.load, trial.flow.speed_ratio) * half
    water = stage.water.density * np.minimum(before, behind)
    return np.asarray(np.minimum(np.minimum(wall, water), found.core.lowest_pressure))
