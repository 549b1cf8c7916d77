"""The free wake of one load by Newton's method, and the walk up a ladder of loads."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.equations import Problem, system
from racewright.flow.surfaces import Surfaces
from racewright.tick import Tick

Floats = NDArray[np.float64]

TOLERANCE = 1e-9
"""Largest scaled residual that counts as converged. Round-off leaves 1e-12, so nothing is lost by it."""
STEPS = 15
HALVINGS = 5
NARROWEST = 0.05
"""Least radius of the sheet over that of its edge. A duct that clogs draws it in as its flow goes to nothing."""


@dataclass(frozen=True)
class Solution:
    """One load, all over the stream speed.

    Attributes
    ----------
    head_coefficient : float
    unknown : ndarray
        As `equations.system` orders it.
    residual : float
    iterations : int
    """

    head_coefficient: float
    unknown: Floats
    residual: float
    iterations: int

    @property
    def converged(self) -> bool:
        """True where the residual met the tolerance."""
        return self.residual < TOLERANCE


def wake_places(edge_x: float, first: float, reach: float, panels: int) -> Floats:
    """Axial places of the wake nodes: panels grow in a constant ratio from `first` and cover `reach`."""
    low, high = 1.0, 3.0
    for _ in range(80):
        ratio = 0.5 * (low + high)
        covered = first * float(np.sum(ratio ** np.arange(panels)))
        low, high = (ratio, high) if covered < reach else (low, ratio)
    return edge_x + np.concatenate([[0.0], np.cumsum(first * low ** np.arange(panels))])


def walk(
    body: Surfaces,
    own: Floats,
    wake_x: Floats,
    edge_radius: float,
    loads: Floats,
    guess: Floats,
    tick: Tick,
    channel_radius: float = 0.0,
) -> list[Solution]:
    """Solve the loads in turn, each from a line through the two before it; stop at the first that fails.

    A load that fails is tried again from loads half-way to it, down to 1/32 of its step. For one that fails
    for good the last state that converged stands, with the residual of the last trial.
    """
    found: list[Solution] = []
    steps: list[Solution] = []
    for number, load in enumerate(loads):
        tick(number / loads.size)
        pending = [float(load)]
        least = (float(load) - steps[-1].head_coefficient) / 2**HALVINGS if steps else 0.0
        while pending:
            target = pending[-1]
            problem = Problem(body, own, wake_x, edge_radius, target, channel_radius)
            answer = newton(problem, _start(steps, target, guess, problem))
            gap = target - steps[-1].head_coefficient if steps else 0.0
            if answer.converged:
                steps.append(answer)
                pending.pop()
            elif gap > 1.5 * least:
                pending.append(target - 0.5 * gap)
            else:
                known = steps[-1].unknown if steps else answer.unknown
                return [
                    *found,
                    Solution(float(load), known, max(answer.residual, TOLERANCE), answer.iterations),
                ]
        found.append(steps[-1])
    tick(1.0)
    return found


def newton(problem: Problem, guess: Floats) -> Solution:
    """Newton's method from a guess; a step is halved while it pinches the sheet or raises the residual."""
    unknown = guess
    error, slope = system(problem, unknown)
    size = float(np.max(np.abs(error)))
    for taken in range(STEPS + 1):
        if size < TOLERANCE or taken == STEPS:
            break
        try:
            step = np.linalg.solve(slope, -error)
        except np.linalg.LinAlgError:
            break
        better = False
        for halving in range(HALVINGS):
            trial = unknown + 0.5**halving * step
            if not np.all(problem.radii(trial) > NARROWEST * problem.edge_radius):
                continue
            new_error, new_slope = system(problem, trial)
            new_size = float(np.max(np.abs(new_error)))
            if new_size < size:
                unknown, error, slope, size, better = trial, new_error, new_slope, new_size, True
                break
        if not better:
            break
    return Solution(problem.head_coefficient, unknown, size, taken)


def _start(steps: list[Solution], load: float, guess: Floats, problem: Problem) -> Floats:
    """On the line in w through the last two states; from one state, its strengths moved with the far wake."""
    if not steps:
        return guess
    near = steps[-1]
    w, w1 = np.sqrt(1.0 - load), np.sqrt(1.0 - near.head_coefficient)
    if len(steps) == 1:
        start = near.unknown.copy()
        start[problem.body.x.size + problem.wake_x.size :] += w - w1
        return start
    before = steps[-2]
    part = (w - w1) / (w1 - np.sqrt(1.0 - before.head_coefficient))
    start = near.unknown + part * (near.unknown - before.unknown)
    return start if np.all(problem.radii(start) > NARROWEST * problem.edge_radius) else near.unknown
