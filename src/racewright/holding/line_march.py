"""A line of any segments in a current: elastic elements marched from the upper end to the lower.

Each element is straight and takes its direction from the tension at its middle; its weight in water (in air above the
surface) and its drag, square-on speed squared, change the tension from one end to the other. Three unknowns, the
tension at the upper end, are found by Newton's method with exact derivatives and halved steps: for fixed loads the
miss at the lower end is the slope of a convex function of them. Where the line lies on the bed its upright tension is
held at zero. Errors fall with the square of the element's length.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LENGTH, STIFFNESS, IN_WATER, IN_AIR, DRAG, MAY_REST = 0, 1, 2, 3, 4, 5
"""Columns of the elements, upper end first: unstretched length [m], EA [N], weight in water and in air [N/m], drag
[N s2/m3], 1 where the line sinks from there to a lower end on the bed."""
SPEED, EAST, NORTH, AT, POWER, DEPTH = 0, 1, 2, 3, 4, 5
"""The flow: speed [m/s] at the height AT [m], its direction [-], exponent [-], depth [m]."""
BLUNT, SHAPED, CHORD, HEIGHT = 0, 1, 2, 5
"""What eases the search: slack limit [N], share of loads that follow the line's own shape [-], then three parts of
speed squared that stand square to the chord [m2/s2] and the chord's height at the element [m], for the rest."""
SUBLAYER = 0.02
"""Below this share of the depth the speed falls straight to zero, so that its slope stays finite [-]."""
_SLACK = 1e-5
"""Tension, over the line's own loads, below which an element counts as slack and shortens [-]. Own choice."""
_EXACT = 1e-11
"""Miss at the lower end at which the search ends, over the line's length [-]."""


@njit(cache=True, error_model="numpy", inline="always")
def _speed(z: float, flow: Floats) -> tuple[float, float]:
    """Speed and its slope over height."""
    if flow[SPEED] == 0.0 or flow[POWER] == 0.0:
        return flow[SPEED], 0.0
    low = SUBLAYER * flow[DEPTH]
    at = min(max(z, low), flow[DEPTH])
    speed = flow[SPEED] * (at / flow[AT]) ** flow[POWER]
    if z < low:
        return speed * max(z, 0.0) / low, (speed / low if z > 0.0 else 0.0)
    return speed, (flow[POWER] * speed / at if z < flow[DEPTH] else 0.0)


@njit(cache=True, error_model="numpy")
def _load(
    tension: Floats,
    z: float,
    row: Floats,
    flow: Floats,
    mild: Floats,
    by: Floats,
    z_by: Floats,
    q: Floats,
    q_by: Floats,
) -> None:
    """Load per length q (3) and its derivatives (3, 4); `by` and `z_by` are those of tension and height."""
    spread = 0.2 * row[LENGTH] + 1e-3
    wet = min(max(0.5 + (flow[DEPTH] - z) / spread, 0.0), 1.0)
    wet_slope = -mild[SHAPED] / spread if 0.0 < wet < 1.0 else 0.0
    chord_wet = min(max(0.5 + (flow[DEPTH] - mild[HEIGHT]) / spread, 0.0), 1.0)
    wet = mild[SHAPED] * wet + (1.0 - mild[SHAPED]) * chord_wet
    lift = row[IN_WATER] - row[IN_AIR]
    q[0], q[1], q[2] = 0.0, 0.0, -row[IN_AIR] - wet * lift
    for k in range(4):
        q_by[0, k], q_by[1, k], q_by[2, k] = 0.0, 0.0, -wet_slope * lift * z_by[k]
    speed, slope = _speed(z, flow)
    for a in range(3):
        q[a] += (1.0 - mild[SHAPED]) * chord_wet * row[DRAG] * mild[CHORD + a]
    c = mild[SHAPED] * row[DRAG] * speed * abs(speed)
    if c == 0.0:
        return
    over = 1.0 / sqrt(tension[0] ** 2 + tension[1] ** 2 + tension[2] ** 2 + mild[BLUNT] ** 2)
    tx, ty, tz = tension[0] * over, tension[1] * over, tension[2] * over
    share = flow[EAST] * tx + flow[NORTH] * ty
    ux, uy, uz = flow[EAST] - share * tx, flow[NORTH] - share * ty, -share * tz
    bare = sqrt(ux * ux + uy * uy + uz * uz)
    if bare == 0.0:
        return
    rate = (2.0 * mild[SHAPED] * row[DRAG] * abs(speed) * slope * wet + c * wet_slope) * bare
    c *= wet
    q[0] += c * bare * ux
    q[1] += c * bare * uy
    q[2] += c * bare * uz
    for k in range(4):
        along = tx * by[0, k] + ty * by[1, k] + tz * by[2, k]
        dx, dy, dz = (by[0, k] - tx * along) * over, (by[1, k] - ty * along) * over, (by[2, k] - tz * along) * over
        turn = flow[EAST] * dx + flow[NORTH] * dy
        ax, ay, az = -turn * tx - share * dx, -turn * ty - share * dy, -turn * tz - share * dz
        grow = (ux * ax + uy * ay + uz * az) / bare
        q_by[0, k] += c * (bare * ax + ux * grow) + rate * ux * z_by[k]
        q_by[1, k] += c * (bare * ay + uy * grow) + rate * uy * z_by[k]
        q_by[2, k] += c * (bare * az + uz * grow) + rate * uz * z_by[k]


@njit(cache=True, error_model="numpy")
def march(
    upper: Floats,
    tension: Floats,
    element: Floats,
    flow: Floats,
    mild: Floats,
    by: Floats,
    end: Floats,
    end_by: Floats,
    nodes: Floats,
    pull: Floats,
) -> float:
    """Follow a line down from its upper end; `tension` there (3) is changed to that at the lower end.

    `by`, `end_by` (3, 4): derivatives of tension and position at the lower end with the upper tension's three parts
    and the upper end's height. `nodes` (n + 1, 3), `pull` (n): positions, tension at mid-element. Returns the sum of
    loads [N].
    """
    q, q_by, mid, mid_by = np.empty(3), np.empty((3, 4)), np.empty(3), np.empty((3, 4))
    z_by = np.zeros(4)
    end_by[:] = 0.0
    by[:] = 0.0
    for k in range(3):
        by[k, k], end[k], nodes[0, k] = 1.0, upper[k], upper[k]
    end_by[2, 3] = 1.0
    total, arc = 0.0, 0.0
    for i in range(element.shape[0]):
        row = element[i]
        length, rests = row[LENGTH], row[MAY_REST] > 0.0
        arc += length
        mild[HEIGHT] = upper[2] + (mild[6] - upper[2]) * (arc - 0.5 * length) / mild[7]
        _load(tension, end[2], row, flow, mild, by, end_by[2], q, q_by)
        for a in range(3):
            mid[a] = tension[a] + 0.5 * length * q[a]
            for k in range(4):
                mid_by[a, k] = by[a, k] + 0.5 * length * q_by[a, k]
        first, last = tension[2], tension[2] + length * q[2]
        rests = rests and q[2] < 0.0
        if rests and last < 0.0:
            # mean of the upright tension over the part that hangs
            share = first / (first - last)
            mid[2] = 0.5 * share * first
            for k in range(4):
                mid_by[2, k] = share * by[2, k] + 0.5 * share * share * length * q_by[2, k]
        square = mid[0] ** 2 + mid[1] ** 2 + mid[2] ** 2
        over = 1.0 / sqrt(square + mild[BLUNT] ** 2)
        pull[i] = sqrt(square)
        first_z = end[2]
        for k in range(4):
            z_by[k] = end_by[2, k]
            along = (mid[0] * mid_by[0, k] + mid[1] * mid_by[1, k] + mid[2] * mid_by[2, k]) * over * over
            for a in range(3):
                end_by[a, k] -= length * ((mid_by[a, k] - mid[a] * along) * over + mid_by[a, k] / row[STIFFNESS])
        for a in range(3):
            end[a] -= length * mid[a] * (over + 1.0 / row[STIFFNESS])
        for k in range(4):
            z_by[k] = 0.5 * (z_by[k] + end_by[2, k])
        _load(mid, 0.5 * (first_z + end[2]), row, flow, mild, mid_by, z_by, q, q_by)
        total += length * sqrt(q[0] ** 2 + q[1] ** 2 + q[2] ** 2)
        for a in range(3):
            tension[a] += length * q[a]
            for k in range(4):
                by[a, k] += length * q_by[a, k]
        if rests and tension[2] < 0.0:
            tension[2] = 0.0
            by[2] = 0.0
        for a in range(3):
            nodes[i + 1, a] = end[a]
    return total


@njit(cache=True, error_model="numpy")
def _newton(miss: Floats, slope: Floats, step: Floats) -> bool:
    """Solve slope[:, :3] step = -miss."""
    a, b, c = slope[0, 0], slope[0, 1], slope[0, 2]
    d, e, f = slope[1, 0], slope[1, 1], slope[1, 2]
    g, h, i = slope[2, 0], slope[2, 1], slope[2, 2]
    x, y, z = e * i - f * h, f * g - d * i, d * h - e * g
    det = a * x + b * y + c * z
    if det == 0.0 or not np.isfinite(det):
        return False
    step[0] = -(x * miss[0] + (c * h - b * i) * miss[1] + (b * f - c * e) * miss[2]) / det
    step[1] = -(y * miss[0] + (a * i - c * g) * miss[1] + (c * d - a * f) * miss[2]) / det
    step[2] = -(z * miss[0] + (b * g - a * h) * miss[1] + (a * e - b * d) * miss[2]) / det
    return True


@njit(cache=True, error_model="numpy")
def hold(
    lower: Floats,
    upper: Floats,
    start: Floats,
    element: Floats,
    flow: Floats,
    chord: Floats,
    stages: Floats,
    nodes: Floats,
    pull: Floats,
    force: Floats,
    stiff: Floats,
) -> tuple[bool, int, float]:
    """Find the tension at the upper end of a line between two points.

    Parameters
    ----------
    lower, upper : ndarray, shape (3,)
        [m]
    start : ndarray, shape (3,)
        First guess of the tension at the upper end, along the line and up; holds the answer afterwards [N].
    element, flow
        See the columns above.
    chord : ndarray, shape (3,)
        Parts of speed squared square to the chord [m2/s2].
    stages : ndarray, shape (m, 2)
        One search after another: times the slack limit, share of drag that follows the shape.
    nodes, pull : ndarray, shapes (n + 1, 3) and (n,)
        Filled: positions from the upper end [m], tension [N].
    force, stiff : ndarray, shapes (2, 3) and (2, 2, 3, 3)
        Filled: force of the line on its lower and upper end [N], stiffness -dF/dr [N/m].

    Returns
    -------
    Whether it was found, marches made, miss at the lower end over the line's length [-].
    """
    length, own, drag = element[:, LENGTH].sum(), 0.0, flow[SPEED] ** 2
    for row in element:
        own += row[LENGTH] * (max(abs(row[IN_WATER]), row[DRAG] * drag) + 1e-12 * row[STIFFNESS])
    mild = np.empty(8)
    mild[CHORD : CHORD + 3] = chord
    mild[6], mild[7] = lower[2], length
    tension, trial, miss = start.copy(), np.empty(3), np.empty(3)
    by, slope, end, step = np.empty((3, 4)), np.empty((3, 4)), np.empty(3), np.empty(3)
    new_by, new_slope, best, here = np.empty((3, 4)), np.empty((3, 4)), 0.0, False
    steps, found = 0, False
    for stage in range(stages.shape[0]):
        mild[BLUNT], mild[SHAPED] = _SLACK * own * stages[stage, 0], stages[stage, 1]
        for a in range(3):
            trial[a] = start[a]
        march(upper, trial, element, flow, mild, by, end, slope, nodes, pull)
        best, found, here = 0.0, False, True
        for a in range(3):
            miss[a] = end[a] - lower[a]
            best += miss[a] ** 2
        for _ in range(60):
            if best <= (_EXACT * length) ** 2:
                found = True
                break
            if not _newton(miss, slope, step):
                break
            share, here = 1.0, False
            for _halved in range(30):
                for a in range(3):
                    tension[a] = start[a] + share * step[a]
                    trial[a] = tension[a]
                march(upper, trial, element, flow, mild, new_by, end, new_slope, nodes, pull)
                steps += 1
                new = (end[0] - lower[0]) ** 2 + (end[1] - lower[1]) ** 2 + (end[2] - lower[2]) ** 2
                if new < (1.0 - 1e-3 * share) * best:
                    here = True
                    break
                share *= 0.5
            if not here:
                break
            by, new_by, slope, new_slope, best = new_by, by, new_slope, slope, new
            for a in range(3):
                start[a], miss[a] = tension[a], end[a] - lower[a]
        found = found or best <= (1e3 * _EXACT * length) ** 2
        if not found:
            break
    if not here:  # the last march was a trial that led away
        for a in range(3):
            trial[a] = start[a]
        march(upper, trial, element, flow, mild, by, end, slope, nodes, pull)
    _ends(start, trial, by, slope, force, stiff)
    return found, steps, sqrt(best) / length


@njit(cache=True, error_model="numpy")
def _ends(top: Floats, bottom: Floats, by: Floats, slope: Floats, force: Floats, stiff: Floats) -> None:
    """Forces and stiffness at both ends: r_low = r_up + D(top, z_up), so d top = D'^-1 (dr_low - dr_up - D_z dz)."""
    unit, column = np.empty(3), np.empty(3)
    force[0], force[1] = bottom, -top
    for b in range(3):
        for end in range(2):
            for a in range(3):
                unit[a] = 0.0
            if end == 0:
                unit[b] = -1.0
            elif b == 2:
                unit[0], unit[1], unit[2] = slope[0, 3], slope[1, 3], slope[2, 3]
            else:
                unit[b] = 1.0
            if not _newton(unit, slope, column):
                column[:] = 0.0
            for a in range(3):
                along = by[a, 0] * column[0] + by[a, 1] * column[1] + by[a, 2] * column[2]
                if end == 1 and b == 2:
                    along += by[a, 3]
                stiff[1, end, a, b] = column[a]
                stiff[0, end, a, b] = -along
