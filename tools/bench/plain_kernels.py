"""The flow's kernels again, on whole arrays of NumPy with SciPy's elliptic integrals: the yardstick of its speed.

Same sums by the same points as `racewright.flow.kernels`, written as one would without a compiler: the pairs of
target and panel are sorted by distance, each kind is evaluated in one sweep over all of its points, and summed.
Targets and sources must lie off the axis.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from unittest.mock import patch

import numpy as np
from numpy.typing import NDArray
from scipy.special import ellipe, ellipkm1

Floats = NDArray[np.float64]

POINTS = {count: np.polynomial.legendre.leggauss(count) for count in (4, 8, 16)}
VALUES, TARGET_RATES, ALL_RATES = 3, 5, 8
RISING, FALLING = 1, 2
BLOCK = 32
"""Targets of one block: the fastest of 8, 16, 32, 64 and all, on the machine this was written on."""
_K = np.arange(14)
_SERIES = np.concatenate([[1.0], np.cumprod((1.25 + _K) * (0.75 + _K) / ((2.0 + _K) * (1.0 + _K)))])
"""F(5/4, 3/4; 2; z) in powers of z, to 1e-17 at z = 1/16."""


@contextmanager
def plain_kernels() -> Iterator[None]:
    """The flow solver with these kernels in place of the compiled ones."""
    flow = "racewright.flow"
    with (
        patch(f"{flow}.influence.panel_sums", panel_sums),
        patch(f"{flow}.influence.cylinder_rows", cylinder_rows),
        patch(f"{flow}.surfaces.panel_sums", panel_sums),
        patch(f"{flow}.profile.field_sum", field_sum),
    ):
        yield


def legendre(e: Floats) -> tuple[Floats, Floats]:
    """Q_1/2(1 + e) and its slope: elliptic integrals, and where these cancel (e above 3) a power series."""
    w = 1.0 + e
    q, dq = np.empty_like(e), np.empty_like(e)
    near = e <= 3.0
    en = e[near]
    square = 2.0 / (2.0 + en)
    k = np.sqrt(square)
    first = ellipkm1(0.5 * en * square)
    q[near] = (2.0 / k - k) * first - 2.0 / k * ellipe(square)
    dq[near] = 0.5 * (w[near] * q[near] - k * first) / (en * (2.0 + en))
    wf = w[~near]
    z = 1.0 / (wf * wf)
    scale = 0.5 * np.pi / (2.0 * wf * np.sqrt(2.0 * wf))
    f = np.polynomial.polynomial.polyval(z, _SERIES)
    q[~near] = scale * f
    dq[~near] = -scale / wf * np.polynomial.polynomial.polyval(z, _SERIES * (1.5 + 2.0 * np.arange(_SERIES.size)))
    return q, dq


def rings(dx: Floats, dr: Floats, r: Floats, rows: int) -> list[Floats]:
    """psi, ux, ur of unit rings, then their rates in the order of `kernels.ALL_RATES`, as many as asked for."""
    p = r - dr
    s, t = 1.0 / r, 1.0 / p
    st = s * t
    e = 0.5 * (dx * dx + dr * dr) * st
    q, dq = legendre(e)
    w = 1.0 + e
    h = np.sqrt(r * p) * (0.5 / np.pi)
    wx, drst = dx * st, dr * st
    wr = drst - e * s
    g, h1 = h * q, h * dq
    gr, hx = 0.5 * g * s + h1 * wr, h1 * wx
    found = [g, gr * s, -hx * s]
    if rows == VALUES:
        return found
    h2 = h * (0.75 * q - 2.0 * w * dq) / (e * (2.0 + e))
    h2x = h2 * wx
    grr = h1 * w * s * s + h2 * wr * wr - (0.25 * g * s + gr) * s
    found += [grr * s, (1.5 * hx * s - h2x * wr) * s]
    if rows == TARGET_RATES:
        return found
    wp = -drst - e * t
    grp = 0.25 * g * st + h1 * (0.5 * (wr * t - wp * s) - t * t) + h2 * wr * wp
    return [*found, 0.5 * g * t + h1 * wp, grp * s, (0.5 * hx * t - h2x * wp) * s]


def panel_sums(xt: Floats, rt: Floats, ends: Floats, rows: int) -> Floats:
    """As `kernels.panel_sums`, in blocks of targets that stay in the processor's cache."""
    blocks = range(0, xt.size, BLOCK)
    found = [_block(xt[i : i + BLOCK], rt[i : i + BLOCK], ends, rows) for i in blocks]
    return np.concatenate(found, axis=2) if found else np.empty((2, rows, 0, len(ends)))


def _block(xt: Floats, rt: Floats, ends: Floats, rows: int) -> Floats:
    chord_x, chord_r = ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1]
    length = np.hypot(chord_x, chord_r)
    mx, mr = xt[:, None] - 0.5 * (ends[:, 0] + ends[:, 2]), rt[:, None] - 0.5 * (ends[:, 1] + ends[:, 3])
    far = np.hypot(mx, mr) / length
    result = np.empty((2, rows, xt.size, len(ends)))
    for which, count in ((far > 4.0, 4), ((far > 1.5) & (far <= 4.0), 8)):
        points, weights = POINTS[count]
        i, j = np.nonzero(which)
        s = 0.5 * points[:, None]
        dx, dr = mx[i, j] - s * chord_x[j], mr[i, j] - s * chord_r[j]
        weight = 0.5 * weights * np.array([[1.0], [1.0]])
        weight[1] *= 0.5 + s[:, 0]
        for row, values in enumerate(rings(dx, dr, rt[i], rows)):
            result[:, row, i, j] = (weight @ values) * length[j]
    i, j = np.nonzero(far <= 1.5)
    pair, t, s, weight = _close(mx[i, j], mr[i, j], chord_x[j], chord_r[j], length[j])
    foot = 0.5 - t - s
    dx, dr = mx[i, j][pair] + foot * chord_x[j][pair], mr[i, j][pair] + foot * chord_r[j][pair]
    on = np.hypot(dx + s * chord_x[j][pair], dr + s * chord_r[j][pair]) < 1e-7 * length[j][pair]
    dx, dr = np.where(on, -s * chord_x[j][pair], dx), np.where(on, -s * chord_r[j][pair], dr)
    for row, values in enumerate(rings(dx, dr, rt[i][pair], rows)):
        part = weight * values * length[j][pair]
        result[0, row, i, j] = np.bincount(pair, part, i.size)
        result[1, row, i, j] = np.bincount(pair, (t + s) * part, i.size)
    return result


def _close(
    mx: Floats, mr: Floats, chord_x: Floats, chord_r: Floats, length: Floats
) -> tuple[NDArray[np.intp], Floats, Floats, Floats]:
    """Points of close pairs: which pair, foot t, signed distance s from it over the length, weight."""
    t = np.clip(0.5 + (mx * chord_x + mr * chord_r) / length**2, 0.0, 1.0)
    nearest = 0.5 * np.round(2.0 * t)
    t = np.where(np.abs(t - nearest) < 1e-9, nearest, t)
    d = np.hypot(mx - (t - 0.5) * chord_x, mr - (t - 0.5) * chord_r) / length
    d = np.where(d < 1e-7, 0.0, d)
    pairs, places, weights = [], [], []
    points8, weights8 = 0.5 + 0.5 * POINTS[8][0], 0.5 * POINTS[8][1]
    tau = 0.5 + 0.5 * POINTS[16][0]
    for total, sign in ((1.0 - t, 1.0), (t, -1.0)):
        on = np.flatnonzero((d == 0.0) & (total > 0.0))
        pairs.append(np.repeat(on, 16))
        places.append((sign * total[on, None] * tau**3).ravel())
        weights.append((1.5 * total[on, None] * tau**2 * POINTS[16][1]).ravel())
        left = np.flatnonzero((d > 0.0) & (total > 0.0))
        start, step = np.zeros(left.size), d[left]
        while left.size:
            stop = np.where(start + step > 0.75 * total[left], total[left], start + step)
            pairs.append(np.repeat(left, 8))
            places.append((sign * (start[:, None] + (stop - start)[:, None] * points8)).ravel())
            weights.append(((stop - start)[:, None] * weights8).ravel())
            more = stop < total[left]
            left, start, step = left[more], stop[more], np.maximum(step, stop)[more]
    pair = np.concatenate(pairs)
    return pair, t[pair], np.concatenate(places), np.concatenate(weights)


def cylinder_rows(xt: Floats, rt: Floats, x0: float, radius: float, rows: int) -> Floats:
    """As `kernels.cylinder_rows`."""
    b = np.abs(x0 - xt)
    gap = np.hypot(b, rt - radius)
    last = 400.0 * (radius + rt)
    touching = gap < 1e-7 * radius
    first = np.flatnonzero(touching)
    tau = 0.5 + 0.5 * POINTS[16][0]
    targets = [np.repeat(first, 16)]
    places = [(b[first, None] + 0.1 * radius * tau**3).ravel()]
    weights = [np.tile(0.15 * radius * tau**2 * POINTS[16][1], first.size)]
    start, step = np.where(touching, b + 0.1 * radius, b), np.where(touching, 0.1 * radius, gap)
    end = start.copy()
    left = np.arange(xt.size)
    while (left := left[start[left] < last[left]]).size:
        here = step[left]
        targets.append(np.repeat(left, 8))
        places.append((start[left, None] + here[:, None] * (0.5 + 0.5 * POINTS[8][0])).ravel())
        weights.append((0.5 * here[:, None] * POINTS[8][1]).ravel())
        start[left] += here
        step[left] = np.maximum(here, 0.5 * (start - b + gap)[left])
        end = start
    target, dx, weight = np.concatenate(targets), -np.concatenate(places), np.concatenate(weights)
    found = rings(dx, rt[target] - radius, rt[target], rows)
    result = np.array([np.bincount(target, weight * values, xt.size) for values in found])
    square = radius * radius / (8.0 * end * end)
    result[0] += square * rt * rt
    result[1] += 2.0 * square
    result[2] -= 2.0 * square * rt / end
    if rows == ALL_RATES:
        result[4] -= 2.0 * square / end
        result[5] += 2.0 * square * rt * rt / radius
        result[6] += 4.0 * square / radius
        result[7] -= 4.0 * square * rt / end / radius
    behind = xt > x0
    inside = np.where(rt < radius, 1.0, np.where(rt == radius, 0.5, 0.0))
    result[0] = np.where(behind, 0.5 * np.minimum(rt, radius) ** 2 - result[0], result[0])
    result[1] = np.where(behind, inside - result[1], result[1])
    return result


def field_sum(
    xt: Floats, rt: Floats, ends: Floats, shapes: NDArray[np.int64], strength: Floats, far: Floats
) -> Floats:
    """As `kernels.field_sum`."""
    plain, weighted = panel_sums(xt, rt, ends, VALUES)
    shaped = np.where(shapes == RISING, weighted, np.where(shapes == FALLING, plain - weighted, plain))
    result = shaped @ strength
    for x0, radius, one in far:
        result += one * cylinder_rows(xt, rt, x0, radius, VALUES)
    return np.asarray(result.T)
