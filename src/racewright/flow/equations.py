"""The equations of one load: surfaces, edge, wake shape and wake strength, with their exact Jacobian.

Unknowns, in order: strengths of the surfaces (n), psi_edge, wake radii at nodes 1..s, strengths of the s wake
panels. Residuals, in order: psi on the surfaces (over radius), the edge, psi at the wake nodes (over radius),
strength x mean speed + dh on the wake panels. All over the stream speed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.far_wake import far_wake
from racewright.flow.influence import (
    AXIAL,
    PSI,
    RADIAL,
    CylinderInfluence,
    SheetInfluence,
    cylinder_influence,
    sheet_influence,
)
from racewright.flow.surfaces import Surfaces

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Problem:
    """What is fixed at one load.

    Attributes
    ----------
    body : Surfaces
    own : ndarray, shape (n, n)
        psi at the surfaces' targets from their own unit unknowns.
    wake_x : ndarray, shape (s + 1,)
        Axial places of the wake nodes; the first is the edge [length].
    edge_radius : float
        Radius of the edge that sheds the sheet [length].
    head_coefficient : float
        CH, 0 to below 1 [-].
    channel_radius : float
        Radius of the channel's wall, on which psi is that of the stream; 0 without one [length].
    """

    body: Surfaces
    own: Floats
    wake_x: Floats
    edge_radius: float
    head_coefficient: float
    channel_radius: float = 0.0

    def radii(self, unknown: Floats) -> Floats:
        """Wake radii at all nodes, shape (s + 1,)."""
        start = self.body.x.size + 1
        return np.concatenate([[self.edge_radius], unknown[start : start + self.wake_x.size - 1]])


@dataclass(frozen=True)
class _Places:
    """Columns and rows of the system."""

    body: slice
    edge: int
    radius: slice
    sheet: slice
    size: int


@dataclass(frozen=True)
class _State:
    body: Floats
    psi_edge: float
    radius: Floats
    sheet: Floats
    far: float
    wall: float
    far_rate: float
    wall_rate: float


@dataclass(frozen=True)
class _Wake:
    """What the wake's panels and the cylinders that close it and the channel's wall do at some targets."""

    state: _State
    sheet: SheetInfluence
    tail: CylinderInfluence
    wall_tail: CylinderInfluence

    def value(self, column: int) -> Floats:
        """Sum over all of them."""
        closing = self.state.far * self.tail.value(column) + self.state.wall * self.wall_tail.value(column)
        return self.sheet.value(column) @ self.state.sheet + closing

    def by_target(self, column: int) -> Floats:
        """Rate of the sum by the targets' radii."""
        closing = self.state.far * self.tail.by_target(column) + self.state.wall * self.wall_tail.by_target(column)
        return self.sheet.by_target(column) @ self.state.sheet + closing

    def by_edge(self, column: int) -> Floats:
        """Rate by psi_edge, through the strengths of the cylinders."""
        return self.state.far_rate * self.tail.value(column) + self.state.wall_rate * self.wall_tail.value(column)

    def by_radii(self, column: int) -> Floats:
        """Rates by the radii of the free nodes 1..s, shape (targets, s)."""
        first, second = self.sheet.by_ends(column)
        result = second * self.state.sheet
        result[:, :-1] += (first * self.state.sheet)[:, 1:]
        result[:, -1] += self.state.far * self.tail.by_radius(column)
        return result


def system(problem: Problem, unknown: Floats) -> tuple[Floats, Floats]:
    """Residual vector and Jacobian, shapes (n + 1 + 2s,) and square."""
    n, s = problem.body.x.size, problem.wake_x.size - 1
    size = n + 1 + 2 * s
    at = _Places(slice(0, n), n, slice(n + 1, n + 1 + s), slice(n + 1 + s, size), size)
    psi_edge = float(unknown[n])
    ends = far_wake(problem.head_coefficient, psi_edge, problem.channel_radius)
    state = _State(
        body=unknown[at.body],
        psi_edge=psi_edge,
        radius=problem.radii(unknown),
        sheet=unknown[at.sheet],
        far=ends.wake - ends.bypass,
        wall=ends.bypass - 1.0,
        far_rate=ends.wake_rate - ends.bypass_rate,
        wall_rate=ends.bypass_rate,
    )
    error, slope = np.zeros(size), np.zeros((size, size))
    if n:
        _surface_rows(problem, state, at, error, slope)
    _node_rows(problem, state, at, error, slope)
    _strength_rows(problem, state, at, error, slope)
    return error, slope


def _wake(problem: Problem, state: _State, x: Floats, r: Floats) -> _Wake:
    end, radius = float(problem.wake_x[-1]), float(state.radius[-1])
    return _Wake(
        state,
        sheet_influence(x, r, problem.wake_x, state.radius),
        cylinder_influence(x, r, end, radius),
        cylinder_influence(x, r, end, problem.channel_radius),
    )


def _surface_rows(problem: Problem, state: _State, at: _Places, error: Floats, slope: Floats) -> None:
    body = problem.body
    wake = _wake(problem, state, body.x, body.r)
    count = np.arange(body.x.size)
    on_duct = (count < body.duct_panels).astype(np.float64)
    inside = (count < body.x.size - body.wall_panels).astype(np.float64)
    psi = problem.own @ state.body + wake.value(PSI)
    error[at.body] = (psi + inside * 0.5 * body.r**2 - on_duct * state.psi_edge) / body.r
    rows = slope[at.body]
    rows[:, at.body] = problem.own
    rows[:, at.edge] = wake.by_edge(PSI) - on_duct
    rows[:, at.radius] = wake.by_radii(PSI)
    rows[:, at.sheet] = wake.sheet.value(PSI)
    rows /= body.r[:, None]
    if not body.duct_panels:
        return
    columns, weights = edge_weights(body, problem.wake_x)
    known = np.concatenate([state.body, state.sheet])
    error[at.edge] = weights @ known[columns]
    slope[at.edge, np.where(columns < at.edge, columns, columns + at.sheet.start - at.edge)] = weights


def edge_weights(body: Surfaces, wake_x: Floats) -> tuple[NDArray[np.int64], Floats]:
    """The trailing-edge condition as columns and weights over (body strengths, sheet strengths), sum = 0.

    The strengths of both sides together are that of the sheet there: equal pressure across the sheet at the
    edge. Each is carried on to the edge by a line through its two nearest panels.
    """
    d, n = body.duct_panels, body.x.size
    length = np.hypot(body.ends[:d, 2] - body.ends[:d, 0], body.ends[:d, 3] - body.ends[:d, 1])
    columns = np.array([0, 1, d - 1, d - 2, n, n + 1], dtype=np.int64)
    weights = np.empty(6)
    for place, (near, next_one), sign in (
        (0, length[:2], 1.0),
        (2, length[[-1, -2]], 1.0),
        (4, np.diff(wake_x[:3]), -1.0),
    ):
        share = near / (near + next_one)
        weights[place : place + 2] = sign * (1.0 + share), -sign * share
    return columns, weights


def _node_rows(problem: Problem, state: _State, at: _Places, error: Floats, slope: Floats) -> None:
    """psi = psi_edge at nodes 1..s; without surfaces also at the edge itself, which then fixes psi_edge."""
    first = 1 if problem.body.duct_panels else 0
    x, r = problem.wake_x[first:], state.radius[first:]
    wake, body = _wake(problem, state, x, r), problem.body.influence(x, r)
    off = (wake.value(PSI) + body.value(PSI) @ state.body + 0.5 * r**2 - state.psi_edge) / r
    by_target = wake.by_target(PSI) + body.by_target(PSI) @ state.body + r - off
    moved = wake.by_radii(PSI)
    free = np.arange(1 - first, x.size)
    moved[free, free - 1 + first] += by_target[free]
    places = slice(at.edge + first, at.radius.stop)
    error[places] = off
    rows = slope[places]
    rows[:, at.body] = body.value(PSI)
    rows[:, at.edge] = wake.by_edge(PSI) - 1.0
    rows[:, at.radius] = moved
    rows[:, at.sheet] = wake.sheet.value(PSI)
    rows /= r[:, None]


def _strength_rows(problem: Problem, state: _State, at: _Places, error: Floats, slope: Floats) -> None:
    wake_x, radius = problem.wake_x, state.radius
    x, r = 0.5 * (wake_x[:-1] + wake_x[1:]), 0.5 * (radius[:-1] + radius[1:])
    wake, body = _wake(problem, state, x, r), problem.body.influence(x, r)
    step_x, step_r = np.diff(wake_x), np.diff(radius)
    length = np.hypot(step_x, step_r)
    each = np.arange(x.size)
    speed = np.zeros(x.size)
    rows = slope[at.sheet]
    own = np.zeros((x.size, x.size))
    # the tangent and its derivative by the second node's radius
    for column, along, turn, stream in (
        (AXIAL, step_x / length, -step_x * step_r / length**3, 1.0),
        (RADIAL, step_r / length, step_x**2 / length**3, 0.0),
    ):
        velocity = wake.value(column) + body.value(column) @ state.body + stream
        by_target = 0.5 * along * (wake.by_target(column) + body.by_target(column) @ state.body)
        speed += along * velocity
        rows[:, at.edge] += along * wake.by_edge(column)
        rows[:, at.body] += along[:, None] * body.value(column)
        rows[:, at.sheet] += along[:, None] * wake.sheet.value(column)
        own += along[:, None] * wake.by_radii(column)
        own[each, each] += by_target + turn * velocity
        own[each[1:], each[:-1]] += (by_target - turn * velocity)[1:]
    rows[:, at.radius] += own
    rows *= state.sheet[:, None]
    rows[each, at.sheet.start + each] += speed
    error[at.sheet] = state.sheet * speed + 0.5 * problem.head_coefficient
