"""The flow at any head coefficient, between the loads that were solved."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline, PchipInterpolator

from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric

Floats = NDArray[np.float64]

LEAST_LOADS = 5
"""Loads from which a cubic spline is used; fewer are joined by monotone cubics (two by a line)."""


@dataclass(frozen=True)
class FlowAt:
    """Flow through the duct at one load; all but the first over the stream speed or its own mean [-].

    Attributes
    ----------
    head_coefficient : float
        CH.
    far_wake_speed : float
        w.
    speed_ratio : float
        u, mean axial speed over the rotor annulus.
    exit_speed_ratio : float
        Mean axial speed over the exit.
    profile : ndarray, shape (k,)
        Axial speed at `Axisymmetric.station_radius` over its area mean.
    """

    head_coefficient: float
    far_wake_speed: float
    speed_ratio: float
    exit_speed_ratio: float
    profile: Floats


def reach(flow: Axisymmetric) -> float:
    """Highest head coefficient that converged [-]."""
    return float(flow.head_coefficient[flow.converged][-1])


def response_at(flow: Axisymmetric, head_coefficient: float) -> FlowAt:
    """Interpolate the converged loads by a cubic spline over far-wake speed w, in which u is nearly straight.

    Parameters
    ----------
    flow : Axisymmetric
    head_coefficient : float
        CH, 0 to `reach(flow)` [-].

    Raises
    ------
    InputError
        CH is not finite or below 0.
    NoAnswerError
        CH is above the highest load that converged.
    """
    if not math.isfinite(head_coefficient) or head_coefficient < 0.0:
        raise InputError(f"{head_coefficient} must be a finite number, 0 or more; try 0.6", key="head_coefficient")
    highest = reach(flow)
    if head_coefficient > highest:
        raise NoAnswerError(
            f"The flow was solved up to a head coefficient of {highest:.4g}, not to {head_coefficient:.4g}."
        )
    w = math.sqrt(1.0 - head_coefficient)
    known = flow.converged
    table = np.column_stack([flow.speed_ratio, flow.exit_speed_ratio, flow.profile])[known][::-1]
    places = flow.far_wake_speed[known][::-1]
    if places.size == 1:
        values = table[0]
    elif places.size < LEAST_LOADS:
        values = PchipInterpolator(places, table)(w)
    else:
        values = CubicSpline(places, table)(w)
    return FlowAt(head_coefficient, w, float(values[0]), float(values[1]), values[2:])
