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
from racewright.flow.kernels import cylinder_matrix, panel_matrix
from racewright.flow.surfaces import Surfaces

Floats = NDArray[np.float64]

VALUE, BY_TARGET, BY_FIRST, BY_SECOND = 0, 1, 2, 3
PSI, AXIAL, RADIAL = 0, 1, 2


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
class _Influence:
    """Kernel rows (values and derivatives) of wake panels, closing cylinder and surfaces at targets."""

    sheet: Floats
    tail: Floats
    wall_tail: Floats
    body: Floats

    def total(self, row: int, column: int, state: _State) -> Floats:
        """Sum over all vorticity of one kernel row and column, without the stream."""
        return (
            self.sheet[:, :, row, column] @ state.sheet
            + self.body[:, :, row, column] @ state.body
            + state.far * self.tail[:, row, column]
            + state.wall * self.wall_tail[:, row, column]
        )


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

    def closing(self, tail: Floats, wall_tail: Floats, column: int) -> tuple[Floats, Floats]:
        """What both closing cylinders give at the targets, and its rate by psi_edge."""
        own, wall = tail[:, VALUE, column], wall_tail[:, VALUE, column]
        return self.far * own + self.wall * wall, self.far_rate * own + self.wall_rate * wall


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


def _wake_influence(problem: Problem, state: _State, x: Floats, r: Floats) -> tuple[Floats, Floats, Floats]:
    wake_x, radius = problem.wake_x, state.radius
    ends = np.column_stack([wake_x[:-1], radius[:-1], wake_x[1:], radius[1:]])
    constant = np.zeros(len(ends), dtype=np.int64)
    if problem.channel_radius > 0.0:
        wall_tail = cylinder_matrix(x, r, wake_x[-1], problem.channel_radius, True)
    else:
        wall_tail = np.zeros((x.size, 4, 3))
    tail = cylinder_matrix(x, r, wake_x[-1], radius[-1], True)
    return panel_matrix(x, r, ends, constant, True), tail, wall_tail


def _by_nodes(first: Floats, second: Floats) -> Floats:
    """Derivatives by panel ends to derivatives by the free nodes 1..s."""
    result = second.copy()
    result[:, :-1] += first[:, 1:]
    return result


def _surface_rows(problem: Problem, state: _State, at: _Places, error: Floats, slope: Floats) -> None:
    body = problem.body
    sheet, tail, wall_tail = _wake_influence(problem, state, body.x, body.r)
    count = np.arange(body.x.size)
    on_duct = (count < body.duct_panels).astype(np.float64)
    inside = (count < body.x.size - body.wall_panels).astype(np.float64)
    closing, rate = state.closing(tail, wall_tail, PSI)
    psi = problem.own @ state.body + sheet[:, :, VALUE, PSI] @ state.sheet + closing
    error[at.body] = (psi + inside * 0.5 * body.r**2 - on_duct * state.psi_edge) / body.r
    rows = np.zeros((body.x.size, at.size))
    rows[:, at.body] = problem.own
    rows[:, at.edge] = rate - on_duct
    rows[:, at.radius] = _by_nodes(
        sheet[:, :, BY_FIRST, PSI] * state.sheet, sheet[:, :, BY_SECOND, PSI] * state.sheet
    )
    rows[:, at.radius.stop - 1] += state.far * tail[:, BY_SECOND, PSI]
    rows[:, at.sheet] = sheet[:, :, VALUE, PSI]
    slope[at.body] = rows / body.r[:, None]
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
    sheet, tail, wall_tail = _wake_influence(problem, state, x, r)
    influence = _Influence(sheet, tail, wall_tail, problem.body.influence(x, r, True))
    rows = np.zeros((x.size, at.size))
    rows[:, at.body] = influence.body[:, :, VALUE, PSI]
    rows[:, at.edge] = state.closing(tail, wall_tail, PSI)[1] - 1.0
    moved = _by_nodes(sheet[:, :, BY_FIRST, PSI] * state.sheet, sheet[:, :, BY_SECOND, PSI] * state.sheet)
    free = np.arange(1 - first, x.size)
    off = (influence.total(VALUE, PSI, state) + 0.5 * r**2 - state.psi_edge) / r
    moved[free, free - 1 + first] += (influence.total(BY_TARGET, PSI, state) + r - off)[free]
    rows[:, at.radius] = moved
    rows[:, at.radius.stop - 1] += state.far * tail[:, BY_SECOND, PSI]
    rows[:, at.sheet] = sheet[:, :, VALUE, PSI]
    places = slice(at.edge + first, at.radius.stop)
    error[places] = off
    slope[places] = rows / r[:, None]


def _strength_rows(problem: Problem, state: _State, at: _Places, error: Floats, slope: Floats) -> None:
    wake_x, radius = problem.wake_x, state.radius
    x, r = 0.5 * (wake_x[:-1] + wake_x[1:]), 0.5 * (radius[:-1] + radius[1:])
    sheet, tail, wall_tail = _wake_influence(problem, state, x, r)
    influence = _Influence(sheet, tail, wall_tail, problem.body.influence(x, r, True))
    step_x, step_r = np.diff(wake_x), np.diff(radius)
    length = np.hypot(step_x, step_r)
    each = np.arange(x.size)
    speed = np.zeros(x.size)
    rows = np.zeros((x.size, at.size))
    by_first, by_second = np.zeros((x.size, x.size)), np.zeros((x.size, x.size))
    # the tangent and its derivative by the second node's radius
    for column, along, turn, stream in (
        (AXIAL, step_x / length, -step_x * step_r / length**3, 1.0),
        (RADIAL, step_r / length, step_x**2 / length**3, 0.0),
    ):
        velocity = influence.total(VALUE, column, state) + stream
        by_target = 0.5 * along * influence.total(BY_TARGET, column, state)
        speed += along * velocity
        rows[:, at.edge] += along * state.closing(tail, wall_tail, column)[1]
        rows[:, at.body] += along[:, None] * influence.body[:, :, VALUE, column]
        rows[:, at.sheet] += along[:, None] * sheet[:, :, VALUE, column]
        by_first += along[:, None] * sheet[:, :, BY_FIRST, column] * state.sheet
        by_second += along[:, None] * sheet[:, :, BY_SECOND, column] * state.sheet
        by_first[each, each] += by_target - turn * velocity
        by_second[each, each] += by_target + turn * velocity
        rows[:, at.radius.stop - 1] += along * state.far * tail[:, BY_SECOND, column]
    rows[:, at.radius] += _by_nodes(by_first, by_second)
    rows *= state.sheet[:, None]
    rows[each, at.sheet.start + each] += speed
    error[at.sheet] = state.sheet * speed + 0.5 * problem.head_coefficient
    slope[at.sheet] = rows
