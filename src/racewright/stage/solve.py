"""Many operating points at once: the load that the rows and walls make and the flow that it leaves agree.

The load L is what the flow solver knows as its head coefficient: what the free sheet sees. A free vortex K that
leaves makes the sheet's strength -(dh + K^2/(2 r^2))/Vm, so L = CH of the rows + friction of the walls +
(K/(r_s U))^2 with the sheet's radius taken as that of the trailing edge, and the far wake has w^2 = 1 - L. Where K
differs over the radius it is that of the hub which counts: averaged over the flow, Bernoulli's equation far
downstream keeps of all swirl only what the vortex core behind the hub loses, w pi rho K^2/2. Debris ahead of the rows
adds its own loss.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.flow.response import FlowsAt
from racewright.stage.root import bracketed_root
from racewright.stage.stage_ready import Stage
from racewright.stage.two_rows import TwoRows, two_rows
from racewright.stage.wall_friction import Friction
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

RESIDUAL = 1e-10
"""Largest mismatch of the load at a converged point [-]."""
_SHORT_OF_LIMIT = 1e-4
"""The search ends this share of the closure's range short of the load that stops the flow [-]."""


@dataclass(frozen=True)
class Trial:
    """Rows and flow at p loads, whether or not the loads are those that they make; shape (p,) each.

    Attributes
    ----------
    flow : FlowsAt
    rows : TwoRows
    friction : Friction
    head_coefficient : ndarray
        CH of the rows [-].
    swirl_load : ndarray
        (K/(r_s U))^2 with K along the hub [-].
    debris_load : ndarray
        Head lost in debris over half the stream speed squared [-].
    """

    flow: FlowsAt
    rows: TwoRows
    friction: Friction
    head_coefficient: Floats
    swirl_load: Floats
    debris_load: Floats

    @property
    def load(self) -> Floats:
        """Sum of the parts, shape (p,) [-]."""
        walls = self.friction.duct_load + self.friction.hub_load
        return self.head_coefficient + walls + self.swirl_load + self.debris_load


@dataclass(frozen=True)
class Solved:
    """Operating points that have an answer, q of the p that were asked.

    Attributes
    ----------
    answered : ndarray of bool, shape (p,)
    braking : ndarray of bool, shape (p,)
        True where there is none because the rows give head to the water.
    stream_speed, rotor_speed : ndarray, shape (q,)
        [m/s], [rad/s]
    load, residual : ndarray, shape (q,)
        L and what is left of its mismatch [-].
    trial : Trial
        Rows and flow at the answer.
    """

    answered: Flags
    braking: Flags
    stream_speed: Floats
    rotor_speed: Floats
    load: Floats
    residual: Floats
    trial: Trial

    def spread(self, values: Floats) -> Floats:
        """Values of the answered points, shape (q,), among all that were asked, 0 elsewhere, shape (p,)."""
        every = np.zeros(self.answered.shape)
        every[self.answered] = values
        return every


def trial_at(
    stage: Stage, stream_speed: Floats, rotor_speed: Floats, load: Floats, resistance: Floats | None = None
) -> Trial:
    """Rows and flow at given loads, shape (p,) each; `resistance` of debris over the annulus' dynamic head [-]."""
    at = stage.table.at(load)
    speed = stage.annulus.axial_speed(at.profile, at.speed_ratio * stream_speed)
    rows = two_rows(stage.annulus, stage.vanes, stage.blades, speed, rotor_speed, stage.water.viscosity, stage.reach)
    friction = stage.friction.at(at, stream_speed, stage.water.viscosity)
    debris = np.zeros_like(load) if resistance is None else resistance * at.speed_ratio**2
    swirl = (rows.swirl_hub / (stage.edge_radius * stream_speed)) ** 2
    return Trial(at, rows, friction, rows.head_drop / (0.5 * stream_speed**2), swirl, debris)


def solve_many(
    stage: Stage,
    stream_speed: Floats,
    rotor_speed: Floats,
    *,
    resistance: Floats | None = None,
    tick: Tick = silent,
) -> Solved:
    """Operating points at pairs of stream speed and rotor speed, each the same to the byte as solved alone.

    Parameters
    ----------
    stream_speed, rotor_speed : ndarray, shape (p,)
        > 0 [m/s]; 0 or more [rad/s].
    resistance : ndarray, shape (p,), optional
        Head lost in debris ahead of the rows over the annulus' dynamic head, 0 or more [-].
    tick : callable
        Progress and cancel, called once per trial.

    Raises
    ------
    InputError
        For speeds outside their ranges.
    """
    stream, rotor = _checked(stream_speed, rotor_speed)
    debris = np.zeros_like(stream) if resistance is None else np.asarray(resistance, dtype=np.float64)
    tried = 0

    def excess(index: NDArray[np.int64], load: Floats) -> Floats:
        nonlocal tried
        tick(min(0.99, tried / 14.0))
        tried += 1
        return trial_at(stage, stream[index], rotor[index], load, debris[index]).load - load

    table = stage.table
    every = np.arange(stream.size)
    at_none = excess(every, np.zeros_like(stream))
    if table.closure is None:
        top = table.reach
        at_top = excess(every, np.full_like(stream, top))
    else:
        top = table.limit - _SHORT_OF_LIMIT * (table.limit - table.reach)
        at_top = np.full_like(stream, -1.0)
    braking = at_none < 0.0
    answered = ~braking & (at_top <= 0.0)
    here = np.flatnonzero(answered)
    load = bracketed_root(
        lambda trial: excess(here, trial),
        np.zeros(here.size),
        np.full(here.size, top),
        tolerance=1e-13,
        ends=(at_none[here], at_top[here]),
    )
    found = trial_at(stage, stream[here], rotor[here], load, debris[here])
    tick(1.0)
    return Solved(answered, braking, stream[here], rotor[here], load, found.load - load, found)


def _checked(stream_speed: Floats, rotor_speed: Floats) -> tuple[Floats, Floats]:
    stream, rotor = np.broadcast_arrays(
        np.asarray(stream_speed, dtype=np.float64), np.asarray(rotor_speed, dtype=np.float64)
    )
    for value in stream[~(np.isfinite(stream) & (stream > 0.0))]:
        raise InputError(f"The stream speed must be above 0 m/s; found {value}.")
    for value in rotor[~(np.isfinite(rotor) & (rotor >= 0.0))]:
        raise InputError(f"The rotor speed must be 0 rad/s or more; found {value}.")
    return np.ascontiguousarray(stream), np.ascontiguousarray(rotor)
