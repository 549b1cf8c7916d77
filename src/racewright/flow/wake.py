"""The free vortex sheet behind a duct's trailing edge or a bare disc's edge: one load by Newton's method."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.kernels import cylinder_matrix, panel_matrix
from racewright.flow.surfaces import Surfaces

Floats = NDArray[np.float64]

TOLERANCE = 1e-9
STEPS = 25


@dataclass(frozen=True)
class Solution:
    """One load; strengths over the stream speed.

    Attributes
    ----------
    strength : ndarray, shape (panels,)
        Sheet strength of the surfaces (azimuthal vorticity positive when it drives flow downstream inside).
    psi_edge : float
        Stream function on duct and wake.
    radius, wake_strength : ndarray, shape (s,), (s - 1,)
        Wake node radii (the first is the edge) and panel strengths.
    residual : float
    iterations : int
    """

    strength: Floats
    psi_edge: float
    radius: Floats
    wake_strength: Floats
    residual: float
    iterations: int

    def vector(self) -> Floats:
        """All unknowns in one array."""
        return np.concatenate([self.strength, [self.psi_edge], self.radius[1:], self.wake_strength])


def far_strength(head_coefficient: float) -> float:
    """Sheet strength / U far downstream, w - 1, where w = sqrt(1 - CH)."""
    return float(np.sqrt(1.0 - head_coefficient)) - 1.0


def wake_places(edge_x: float, first: float, reach: float, panels: int) -> Floats:
    """Axial places of the wake nodes: panels grow in a constant ratio from `first` until `reach` is covered."""
    low, high = 1.0, 2.0
    for _ in range(80):
        ratio = 0.5 * (low + high)
        covered = first * float(np.sum(ratio ** np.arange(panels)))
        low, high = (ratio, high) if covered < reach else (low, ratio)
    return edge_x + np.concatenate([[0.0], np.cumsum(first * low ** np.arange(panels))])


def solve(
    body: Surfaces, own: Floats, wake_x: Floats, edge_radius: float, head_coefficient: float, guess: Floats
) -> Solution:
    """Newton's method from the guess; a step is halved while it would fold the sheet or raise the residual.

    The residuals are: psi - psi_edge at the mid-points of the duct, psi on the hub, the jump of pressure at
    the trailing edge, psi - psi_edge at the wake nodes, and strength x mean speed + dh on the wake panels.
    """
    unknown = guess.copy()
    error, slope = _system(body, own, wake_x, edge_radius, head_coefficient, unknown)
    size = float(np.max(np.abs(error)))
    taken = 0
    for taken in range(1, STEPS + 1):
        step = np.linalg.solve(slope, -error)
        scale = 1.0
        while True:
            trial = unknown + scale * step
            if np.all(_radii(body, wake_x, edge_radius, trial) > 0.2 * edge_radius):
                error, slope = _system(body, own, wake_x, edge_radius, head_coefficient, trial)
                new_size = float(np.max(np.abs(error)))
                if new_size < max(0.9 * size, TOLERANCE) or scale < 0.02:
                    break
            if scale < 0.02:
                break
            scale *= 0.5
        unknown, size = trial, float(np.max(np.abs(error)))
        if size < TOLERANCE:
            break
    bodies, panels = body.x.size, wake_x.size - 1
    return Solution(
        strength=unknown[:bodies],
        psi_edge=float(unknown[bodies]),
        radius=_radii(body, wake_x, edge_radius, unknown),
        wake_strength=unknown[bodies + 1 + panels :],
        residual=size,
        iterations=taken,
    )


def _radii(body: Surfaces, wake_x: Floats, edge_radius: float, unknown: Floats) -> Floats:
    start = body.x.size + 1
    return np.concatenate([[edge_radius], unknown[start : start + wake_x.size - 1]])


def _system(
    body: Surfaces, own: Floats, wake_x: Floats, edge_radius: float, head_coefficient: float, unknown: Floats
) -> tuple[Floats, Floats]:
    """Residual vector and its Jacobian."""
    m, n, d = body.x.size, wake_x.size - 1, body.duct_panels
    radius = _radii(body, wake_x, edge_radius, unknown)
    gamma, psi_edge, sheet = unknown[:m], unknown[m], unknown[m + 1 + n :]
    far = far_strength(head_coefficient)
    ends = np.column_stack([wake_x[:-1], radius[:-1], wake_x[1:], radius[1:]])
    flat = np.zeros(n, dtype=np.int64)
    size = m + 1 + 2 * n
    error, slope = np.zeros(size), np.zeros((size, size))
    shape_columns = slice(m + 1, m + 1 + n)
    sheet_columns = slice(m + 1 + n, size)

    def to_nodes(first: Floats, second: Floats) -> Floats:
        """Derivatives by panel ends to derivatives by the free nodes 1..n."""
        result = second.copy()
        result[:, :-1] += first[:, 1:]
        return result

    if m:
        part = panel_matrix(body.x, body.r, ends, flat, True)
        tail = cylinder_matrix(body.x, body.r, wake_x[-1], radius[-1], True)
        on_duct = (np.arange(m) < d).astype(float)
        scale = 1.0 / np.maximum(body.r, 0.05 * edge_radius)
        psi = own @ gamma + part[:, :, 0, 0] @ sheet + far * tail[:, 0, 0] + 0.5 * body.r**2
        error[:m] = (psi - on_duct * psi_edge) * scale
        rows = np.zeros((m, size))
        rows[:, :m] = own
        rows[:, m] = -on_duct
        rows[:, shape_columns] = to_nodes(part[:, :, 2, 0] * sheet, part[:, :, 3, 0] * sheet)
        rows[:, m + n] += far * tail[:, 3, 0]
        rows[:, sheet_columns] = part[:, :, 0, 0]
        slope[:m] = rows * scale[:, None]

    # psi at the nodes; a bare disc needs node 0 for its psi_edge, a duct has the trailing-edge condition instead
    first_node = 1 if d else 0
    node_x, node_r = wake_x[first_node:], radius[first_node:]
    rows_at = slice(m + 1 - (0 if d else 1), m + 1 + n)
    part = panel_matrix(node_x, node_r, ends, flat, True)
    tail = cylinder_matrix(node_x, node_r, wake_x[-1], radius[-1], True)
    onto = body.influence(node_x, node_r, True)
    psi = part[:, :, 0, 0] @ sheet + onto[:, :, 0, 0] @ gamma + far * tail[:, 0, 0] + 0.5 * node_r**2
    psi_r = part[:, :, 1, 0] @ sheet + onto[:, :, 1, 0] @ gamma + far * tail[:, 1, 0] + node_r
    rows = np.zeros((node_x.size, size))
    rows[:, :m] = onto[:, :, 0, 0]
    rows[:, m] = -1.0
    moved = to_nodes(part[:, :, 2, 0] * sheet, part[:, :, 3, 0] * sheet)
    free = np.arange(node_x.size) if d else np.arange(1, node_x.size)
    moved[free, free if d else free - 1] += psi_r[free]
    rows[:, shape_columns] = moved
    rows[:, m + n] += far * tail[:, 3, 0]
    rows[:, sheet_columns] = part[:, :, 0, 0]
    error[rows_at] = (psi - psi_edge) / node_r
    slope[rows_at] = rows / node_r[:, None]

    # strength times mean speed on the panels
    mid_x, mid_r = 0.5 * (wake_x[:-1] + wake_x[1:]), 0.5 * (radius[:-1] + radius[1:])
    part = panel_matrix(mid_x, mid_r, ends, flat, True)
    tail = cylinder_matrix(mid_x, mid_r, wake_x[-1], radius[-1], True)
    onto = body.influence(mid_x, mid_r, True)
    step_x, step_r = np.diff(wake_x), np.diff(radius)
    length = np.hypot(step_x, step_r)
    along = np.stack([step_x / length, step_r / length])
    turn = np.stack([-step_x * step_r, step_x**2]) / length**3
    speed = np.zeros(n)
    speed_gamma, speed_sheet = np.zeros((n, m)), np.zeros((n, n))
    by_target, by_first, by_second = np.zeros(n), np.zeros((n, n)), np.zeros((n, n))
    by_turn, by_last = np.zeros(n), np.zeros(n)
    for c in (1, 2):
        direction = along[c - 1]
        total = part[:, :, 0, c] @ sheet + onto[:, :, 0, c] @ gamma + far * tail[:, 0, c] + (1.0 if c == 1 else 0.0)
        speed += direction * total
        by_turn += turn[c - 1] * total
        speed_gamma += direction[:, None] * onto[:, :, 0, c]
        speed_sheet += direction[:, None] * part[:, :, 0, c]
        by_target += direction * (
            part[:, :, 1, c] @ sheet + onto[:, :, 1, c] @ gamma + far * tail[:, 1, c]
        )
        by_first += direction[:, None] * part[:, :, 2, c] * sheet
        by_second += direction[:, None] * part[:, :, 3, c] * sheet
        by_last += direction * far * tail[:, 3, c]
    each = np.arange(n)
    by_first[each, each] += 0.5 * by_target - by_turn
    by_second[each, each] += 0.5 * by_target + by_turn
    rows = np.zeros((n, size))
    rows[:, :m] = speed_gamma
    rows[:, shape_columns] = to_nodes(by_first, by_second)
    rows[:, m + n] += by_last
    rows[:, sheet_columns] = speed_sheet
    rows *= sheet[:, None]
    rows[each, m + 1 + n + each] += speed
    error[sheet_columns] = sheet * speed + 0.5 * head_coefficient
    slope[sheet_columns] = rows

    if d:
        error[m] = gamma[0] + gamma[d - 1] - sheet[0]
        slope[m, [0, d - 1]] = 1.0
        slope[m, m + 1 + n] = -1.0
    return error, slope
