"""Ring-vortex kernels: stream function, velocity and their derivatives, over panels and a far cylinder.

The Stokes stream function at (x, r) of a ring vortex of unit circulation at (x', p) is
G = sqrt(r p) Q(w) / (2 pi), Q the Legendre function Q_1/2, w = 1 + e, e = ((x-x')^2 + (r-p)^2)/(2 r p)
(Lamb, Hydrodynamics, art. 161, in Legendre form). Every derivative follows from Q, Q' and Legendre's
equation, so one elliptic evaluation by the arithmetic-geometric mean serves all of them. The mean runs a fixed
number of rounds, so that a loop over the points of a quadrature has no branch in it and compiles to vectors.

Sums over a panel are taken plain and weighted by t, the place along it from 0 to 1: they give a strength that is
constant or linear, and what moving either end does.
"""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_X4, _W4 = np.polynomial.legendre.leggauss(4)
_X8, _W8 = np.polynomial.legendre.leggauss(8)
_X16, _W16 = np.polynomial.legendre.leggauss(16)
CONSTANT, RISING, FALLING = 0, 1, 2
"""Strength along a panel: one; linear from zero to one; linear from one to zero."""
VALUES, TARGET_RATES, ALL_RATES = 3, 5, 8
"""Rows of a kernel: psi, ux, ur; also d/dr of ux and ur (that of psi is r ux); also d/dp of psi, ux, ur."""
_BUFFER = 1024
"""Most points of one panel or cylinder: 24 halvings on either side, or 57 lengths growing by half, with 8 each."""


@njit(cache=True, error_model="numpy")
def _mean(b: float) -> tuple[float, float]:
    """Arithmetic-geometric mean of 1 and b, and the sum of 2^(n-1) c_n^2 over its rounds n = 2 to 8, b > 1e-11.

    The first round's c_1 = (1 - b)/2 is left to the caller, who knows it without the difference.
    """
    a, b = 0.5 * (1.0 + b), sqrt(b)
    total, power = 0.0, 2.0
    for _ in range(7):
        c = 0.5 * (a - b)
        a, b = 0.5 * (a + b), sqrt(a * b)
        total += power * c * c
        power *= 2.0
    return a, total


@njit(cache=True, error_model="numpy", inline="always")
def legendre(e: float) -> tuple[float, float, float]:
    """Q_1/2(w) and its first and second derivative at w = 1 + e, e > 0."""
    w = 1.0 + e
    inverse = 1.0 / (e * (2.0 + e))
    square = 2.0 * e * inverse
    k, b = sqrt(square), sqrt(e * e * inverse)
    c = 0.5 * square / (1.0 + b)
    a, rest = _mean(b)
    first = 0.5 * pi / a
    q = first * (c * c + rest) * k * (2.0 + e)
    dq = 0.5 * (w * q - k * first) * inverse
    return q, dq, (0.75 * q - 2.0 * w * dq) * inverse


@njit(cache=True, error_model="numpy")
def ring_values(count: int, at: Floats, r: float, out: Floats) -> None:
    """psi, ux, ur at radius r >= 0 of unit rings; at = (dx, dr) to each, dr apart from r for close rings."""
    psi, axial, radial, dx, dr = out[0], out[1], out[2], at[0], at[1]
    over = 1.0 / r if r > 0.0 else 0.0
    for i in range(count):
        x, d = dx[i], dr[i]
        p = r - d
        near, far = x * x + d * d, x * x + (r + p) * (r + p)
        inverse = 1.0 / far
        b = sqrt(near * inverse)
        lead = 2.0 * p * inverse / (1.0 + b)
        c = lead * r
        a, rest = _mean(b)
        scale = 0.25 / (a * sqrt(far))
        total = c * c + rest
        psi[i] = scale * far * total
        scale /= near
        turn = d * (r + p)
        axial[i] = scale * (2.0 * p * p * (x * x - turn) * inverse + total * (x * x + turn))
        radial[i] = scale * x * (4.0 * p * p * r * inverse - 0.5 * (far + near) * (c * lead + rest * over))


@njit(cache=True, error_model="numpy")
def _rates(count: int, at: Floats, r: float, out: Floats) -> None:
    """The eight rows of unit rings at radius r > 0, in the order of ALL_RATES."""
    psi, axial, radial, axial_r, radial_r = out[0], out[1], out[2], out[3], out[4]
    psi_p, axial_p, radial_p, dx, dr = out[5], out[6], out[7], at[0], at[1]
    s = 1.0 / r
    for i in range(count):
        x, d = dx[i], dr[i]
        p = r - d
        t = 1.0 / p
        st = s * t
        e = 0.5 * (x * x + d * d) * st
        q, dq, ddq = legendre(e)
        h = sqrt(r * p) * (0.5 / pi)
        g, h1, h2 = h * q, h * dq, h * ddq
        wx, wr, wp = x * st, d * st - e * s, -d * st - e * t
        gx, gr = h1 * wx, 0.5 * g * s + h1 * wr
        grr = -0.25 * g * s * s + h1 * (wr * s + ((1.0 + e) * s - wr) * s) + h2 * wr * wr
        grp = 0.25 * g * st + h1 * (0.5 * (wp * s + wr * t) - t * t - wp * s) + h2 * wr * wp
        psi[i] = g
        axial[i] = gr * s
        radial[i] = -gx * s
        axial_r[i] = (grr - gr * s) * s
        radial_r[i] = (0.5 * h1 * wx * s - h2 * wx * wr + gx * s) * s
        psi_p[i] = 0.5 * g * t + h1 * wp
        axial_p[i] = grp * s
        radial_p[i] = (0.5 * h1 * wx * t - h2 * wx * wp) * s


@njit(cache=True, error_model="numpy")
def _unit(count: int, at: Floats, r: float, rows: int, out: Floats) -> None:
    if rows == VALUES:
        ring_values(count, at, r, out)
    else:
        _rates(count, at, r, out)


@njit(cache=True, error_model="numpy")
def _place(at: Floats, i: int, of: tuple[float, ...], t: float, s: float, weight: float) -> None:
    """Write the point at t + s: of = dx, dr of the target from the panel's place t, its chord, its length."""
    at[0, i], at[1, i], at[2, i], at[3, i] = of[0] - s * of[2], of[1] - s * of[3], t + s, weight * of[4]


@njit(cache=True, error_model="numpy")
def _side(at: Floats, count: int, of: tuple[float, ...], t: float, span: float) -> int:
    """Write points from t over the signed span, crowding to t as the distance over the length asks."""
    d = sqrt(of[0] * of[0] + of[1] * of[1]) / of[4]
    total, sign = abs(span), 1.0 if span > 0.0 else -1.0
    start, step = 0.0, d
    if d == 0.0:
        for i in range(16):
            tau = 0.5 + 0.5 * _X16[i]
            _place(at, count + i, of, t, sign * total * tau**3, 1.5 * tau * tau * total * _W16[i])
        return count + 16 if total > 0.0 else count
    while start < total:
        stop = start + step
        if stop > 0.75 * total:
            stop = total
        for i in range(8):
            s = start + (0.5 + 0.5 * _X8[i]) * (stop - start)
            _place(at, count + i, of, t, sign * s, 0.5 * _W8[i] * (stop - start))
        count += 8
        start, step = stop, max(step, stop)
    return count


@njit(cache=True, error_model="numpy")
def _points(at: Floats, of: tuple[float, ...], far: float) -> int:
    """Write the points for a target within 4 lengths of a panel's middle; of as in `_place` from there."""
    if far > 1.5:
        for i in range(8):
            _place(at, i, of, 0.5, 0.5 * _X8[i], 0.5 * _W8[i])
        return 8
    mx, mr, ex, er, length = of
    t = min(1.0, max(0.0, 0.5 + (mx * ex + mr * er) / (length * length)))
    if min(t, abs(t - 0.5), 1.0 - t) < 1e-9:
        t = 0.5 * round(2.0 * t)
    fx, fr = mx - (t - 0.5) * ex, mr - (t - 0.5) * er
    if fx * fx + fr * fr < 1e-14 * length * length:
        fx, fr = 0.0, 0.0
    foot = (fx, fr, ex, er, length)
    return _side(at, _side(at, 0, foot, t, 1.0 - t), foot, t, -t)


@njit(cache=True, error_model="numpy")
def _laid(ends: Floats) -> Floats:
    """Middle, chord and length of the panels, shape (5, panels)."""
    laid = np.empty((5, ends.shape[0]))
    laid[0], laid[1] = 0.5 * (ends[:, 0] + ends[:, 2]), 0.5 * (ends[:, 1] + ends[:, 3])
    laid[2], laid[3] = ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1]
    laid[4] = np.sqrt(laid[2] ** 2 + laid[3] ** 2)
    return laid


@njit(cache=True, error_model="numpy")
def _row(sums: Floats, x: float, r: float, laid: Floats, at: Floats, out: Floats) -> None:
    """Fill `sums` (2, rows, panels) for one target; where it lies on a panel, the mean of both sides.

    Four points serve every panel; those within four lengths are then done again with as many as they need.
    """
    rows, panels = sums.shape[1], sums.shape[2]
    sums[:, :, :] = 0.0
    for i in range(4):
        s, weight = 0.5 * _X4[i], 0.5 * _W4[i]
        for j in range(panels):
            at[0, j] = x - laid[0, j] - s * laid[2, j]
            at[1, j] = r - laid[1, j] - s * laid[3, j]
        _unit(panels, at, r, rows, out)
        for k in range(rows):
            for j in range(panels):
                part = weight * laid[4, j] * out[k, j]
                sums[0, k, j] += part
                sums[1, k, j] += (0.5 + s) * part
    for j in range(panels):
        mx, mr, length = x - laid[0, j], r - laid[1, j], laid[4, j]
        far = sqrt(mx * mx + mr * mr) / length
        if far <= 4.0:
            count = _points(at, (mx, mr, laid[2, j], laid[3, j], length), far)
            _unit(count, at, r, rows, out)
            for k in range(rows):
                plain, weighted = 0.0, 0.0
                for i in range(count):
                    part = at[3, i] * out[k, i]
                    plain += part
                    weighted += at[2, i] * part
                sums[0, k, j], sums[1, k, j] = plain, weighted


@njit(cache=True, error_model="numpy")
def panel_sums(xt: Floats, rt: Floats, ends: Floats, rows: int) -> Floats:
    """Plain and weighted sums of every panel (x1, r1, x2, r2) at every target: (2, rows, targets, panels)."""
    result = np.empty((2, rows, xt.size, ends.shape[0]))
    sums = np.empty((2, rows, ends.shape[0]))
    most = max(_BUFFER, ends.shape[0])
    at, out, laid = np.empty((4, most)), np.empty((8, most)), _laid(ends)
    for i in range(xt.size):
        _row(sums, xt[i], rt[i], laid, at, out)
        for part in range(2):
            for row in range(rows):
                for j in range(ends.shape[0]):
                    result[part, row, i, j] = sums[part, row, j]
    return result


@njit(cache=True, error_model="numpy")
def _cylinder(result: Floats, xt: float, rt: float, x0: float, radius: float, at: Floats, out: Floats) -> None:
    """Fill `result` (8 or 3 rows) for one target."""
    rows, b = result.size, abs(x0 - xt)
    gap = sqrt(b * b + (rt - radius) ** 2)
    last = 400.0 * (radius + rt)
    start, step, count = b, gap, 0
    if gap < 1e-7 * radius:
        step = 0.1 * radius
        for i in range(16):
            tau = 0.5 + 0.5 * _X16[i]
            at[0, i], at[3, i] = -b - step * tau**3, 1.5 * tau * tau * step * _W16[i]
        start, count = b + step, 16
    while start < last:
        for i in range(8):
            at[0, count + i], at[3, count + i] = -start - (0.5 + 0.5 * _X8[i]) * step, 0.5 * _W8[i] * step
        count += 8
        start += step
        step = max(step, 0.5 * (start - b + gap))
    at[1, :count] = rt - radius
    _unit(count, at, rt, rows, out)
    for k in range(rows):
        result[k] = 0.0
        for i in range(count):
            result[k] += at[3, i] * out[k, i]
    square = radius * radius / (8.0 * start * start)
    result[0] += square * rt * rt
    result[1] += 2.0 * square
    result[2] -= 2.0 * square * rt / start
    if rows == ALL_RATES:
        result[4] -= 2.0 * square / start
        result[5:] += square / radius * np.array([2.0 * rt * rt, 4.0, -4.0 * rt / start])
    if xt > x0:
        inside = 1.0 if rt < radius else (0.5 if rt == radius else 0.0)
        result[0] = 0.5 * min(rt, radius) ** 2 - result[0]
        result[1] = inside - result[1]


@njit(cache=True, error_model="numpy")
def cylinder_rows(xt: Floats, rt: Floats, x0: float, radius: float, rows: int) -> Floats:
    """Semi-infinite cylinder x >= x0 of unit strength: shape (rows, targets); p is its radius, rates ahead of x0."""
    result = np.empty((xt.size, rows))
    at, out = np.empty((4, _BUFFER)), np.empty((8, _BUFFER))
    for i in range(xt.size):
        _cylinder(result[i], xt[i], rt[i], x0, radius, at, out)
    return result.T


@njit(cache=True, error_model="numpy")
def field_sum(
    xt: Floats, rt: Floats, ends: Floats, shapes: NDArray[np.int64], strength: Floats, far: Floats
) -> Floats:
    """(psi, ux, ur) without the stream, shape (targets, 3); far rows (x0, radius, strength) of cylinders."""
    result = np.zeros((xt.size, 3))
    sums, one = np.empty((2, 3, ends.shape[0])), np.empty(3)
    most = max(_BUFFER, ends.shape[0])
    at, out, laid = np.empty((4, most)), np.empty((8, most)), _laid(ends)
    for i in range(xt.size):
        _row(sums, xt[i], rt[i], laid, at, out)
        for k in range(3):
            for j in range(ends.shape[0]):
                if strength[j] != 0.0:
                    weighted = sums[1, k, j] if shapes[j] != CONSTANT else 0.0
                    shaped = weighted if shapes[j] == RISING else sums[0, k, j] - weighted
                    result[i, k] += strength[j] * shaped
        for j in range(far.shape[0]):
            if far[j, 2] != 0.0:
                _cylinder(one, xt[i], rt[i], far[j, 0], far[j, 1], at, out)
                result[i] += far[j, 2] * one
    return result
