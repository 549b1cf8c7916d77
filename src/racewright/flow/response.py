"""The flow at a head coefficient between the loads of the ladder, by cubic splines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class FlowAt:
    """The flow at one load: CH, w, u, exit speed ratio [-], and the profile at `flow.station_radius` [-]."""

    head_coefficient: float
    far_wake_speed: float
    speed_ratio: float
    exit_speed_ratio: float
    profile: Floats


def reach(flow: Axisymmetric) -> float:
    """Highest usable head coefficient: the last load up to which every load converged [-]."""
    good = np.cumprod(flow.converged.astype(np.int64)).astype(bool)
    if not good[0]:
        raise NoAnswerError("The flow did not converge at its lightest load.")
    return float(flow.head_coefficient[good][-1])


def response_at(flow: Axisymmetric, head_coefficient: float) -> FlowAt:
    """Flow at `head_coefficient` (0 to `reach(flow)`); NoAnswerError above it."""
    if not np.isfinite(head_coefficient) or head_coefficient < 0.0:
        raise InputError(f"A head coefficient is not negative; found {head_coefficient}.")
    top = reach(flow)
    if head_coefficient > top:
        raise NoAnswerError(
            f"A head coefficient of {head_coefficient:.3f} is above the flow's reach, {top:.3f}."
        )
    ladder = flow.head_coefficient

    def at(values: Floats) -> Floats:
        return np.asarray(CubicSpline(ladder, values, axis=0)(head_coefficient), dtype=np.float64)

    return FlowAt(
        head_coefficient,
        float(np.sqrt(1.0 - head_coefficient)),
        float(at(flow.speed_ratio)),
        float(at(flow.exit_speed_ratio)),
        at(flow.profile),
    )
