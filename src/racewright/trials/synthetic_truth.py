"""The truth beside an invented record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.trials.synthetic_machine import Model

Floats = NDArray[np.float64]
INVENTED = "invented data: made by a formula with a seed, nothing here was measured"
"""Label that every invented record carries."""


@dataclass(frozen=True)
class Truth:
    """What was true over one chunk, by cells of half a second.

    Attributes
    ----------
    label : str
        Says that it is invented.
    start : float
        [s]
    cube, rotor_speed, torque, thrust, loss : ndarray
        Mean cube of the speed at the machine [m3/s3], rotor speed [rad/s], shaft torque [N m], thrust [N],
        share of torque lost to leaves [-].
    zero_torque : ndarray
        Wander of the torque's zero [N m].
    """

    label: str
    start: float
    cube: Floats
    rotor_speed: Floats
    torque: Floats
    thrust: Floats
    loss: Floats
    zero_torque: Floats


TRUTH_CELL = 0.5
"""Length of the truth's cells [s]."""


@dataclass(frozen=True)
class RunTruth:
    """What was true over a span.

    Attributes
    ----------
    label : str
        Says that it is invented.
    stream_speed : float
        Cube mean at the machine [m/s].
    rotor_speed : float
        [rad/s]
    tip_speed_ratio, power_coefficient, thrust_coefficient : float
        The coefficients are the built machine's curves at that ratio, leaves taken off [-].
    design_power_coefficient : float
        The design's curve at that ratio [-].
    loss : float
        Mean share of the torque lost to leaves [-].
    """

    label: str
    stream_speed: float
    rotor_speed: float
    tip_speed_ratio: float
    power_coefficient: float
    thrust_coefficient: float
    design_power_coefficient: float
    loss: float


def truth_over(model: Model, truths: Sequence[Truth], start: float, end: float) -> RunTruth:
    """Put the truth of some chunks together over a span [s]; `model` as built."""
    time = np.concatenate([t.start + TRUTH_CELL * (np.arange(t.cube.size) + 0.5) for t in truths])
    inside = (time > start) & (time < end)
    if not inside.any():
        raise InputError(f"no truth was kept between {start:g} s and {end:g} s")
    cube, rotor, loss = (
        float(np.concatenate([getattr(t, name) for t in truths])[inside].mean())
        for name in ("cube", "rotor_speed", "loss")
    )
    speed = float(np.cbrt(cube))
    ratio = rotor * model.tip_radius / speed
    at = np.array([ratio])
    return RunTruth(
        INVENTED, speed, rotor, ratio, float(model.power_built(at)[0]) * (1.0 - loss),
        float(model.thrust_built(at)[0]) * (1.0 - 0.3 * loss), float(model.power(at)[0]), loss,
    )  # fmt: skip
