"""Ring-vortex kernels: stream function, velocity and their derivatives, over panels and a far cylinder.

The Stokes stream function at (x, r) of a ring vortex of unit circulation at (x', p) is
G = sqrt(r p) Q(w) / (2 pi), Q the Legendre function Q_1/2, w = 1 + ((x-x')^2 + (r-p)^2)/(2 r p)
(Lamb, Hydrodynamics, art. 161, in Legendre form). Every derivative follows from Q, Q' and Legendre's
equation, so one elliptic evaluation by the arithmetic-geometric mean serves all of them.

`out` holds four rows of (psi, ux, ur): value, d/dr of the target, d/dr of the panel's first and second node.
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


@njit(cache=True)
def _series(z: float) -> tuple[float, float]:
    """Hypergeometric F(5/4, 3/4; 2; z) and z dF/dz, 0 <= z < 0.0625."""
    term, f, df = 1.0, 1.0, 0.0
    for k in range(40):
        term *= (1.25 + k) * (0.75 + k) / ((2.0 + k) * (1.0 + k)) * z
        f += term
        df += (k + 1) * term
        if term < 1e-17:
            break
    return f, df


@njit(cache=True)
def legendre(e: float) -> tuple[float, float]:
    """Q_1/2(w) and its derivative at w = 1 + e, e > 0."""
    w = 1.0 + e
    if w > 4.0:
        f, df = _series(1.0 / (w * w))
        q = pi / (2.0 * (2.0 * w) ** 1.5)
        return q * f, -q / w * (1.5 * f + 2.0 * df)
    k2 = 2.0 / (2.0 + e)
    k = sqrt(k2)
    a, b, c2, s, p = 1.0, sqrt(e / (2.0 + e)), k2, 0.5 * k2, 1.0
    while c2 > 1e-17:
        c = 0.5 * (a - b)
        a, b = 0.5 * (a + b), sqrt(a * b)
        c2 = c * c
        s += p * c2
        p *= 2.0
    first = pi / (2.0 * a)
    q = (2.0 / k - k) * first - 2.0 / k * first * (1.0 - s)
    return q, 0.5 * (w * q - k * first) / (e * (2.0 + e))


@njit(cache=True)
def ring(dx: float, r: float, p: float) -> tuple[float, float, float]:
    """psi, ux, ur at radius r >= 0, dx downstream of a ring of radius p >= 0 and unit circulation."""
    return _ring(dx, r - p, r, p)


@njit(cache=True)
def _ring(dx: float, dr: float, r: float, p: float) -> tuple[float, float, float]:
    """As `ring`; dr = r - p comes separately because close by its rounding matters."""
    a = dx * dx + r * r + p * p
    z = 2.0 * r * p / a
    z *= z
    if z < 0.0625:
        f, df = _series(z)
        scale = 0.25 * p * p / (a * sqrt(a))
        bracket = 1.5 * f + 2.0 * df
        psi = scale * r * r * f
        return psi, scale * 2.0 * (f + df - r * r / a * bracket), scale * 2.0 * dx * r / a * bracket
    e = (dx * dx + dr * dr) / (2.0 * r * p)
    q, dq = legendre(e)
    h = sqrt(r * p) / (2.0 * pi)
    gr = h * (0.5 * q / r + dq * (dr / (r * p) - e / r))
    return h * q, gr / r, -h * dq * dx / (r * p) / r


@njit(cache=True)
def _add(out: Floats, dx: float, dr: float, r: float, weight: float, t: float) -> None:
    """Add weight times the ring's values and derivatives, the source standing at fraction t of its panel."""
    p = r - dr
    e = (dx * dx + dr * dr) / (2.0 * r * p)
    q, dq = legendre(e)
    w = 1.0 + e
    ddq = (0.75 * q - 2.0 * w * dq) / (e * (2.0 + e))
    h = weight * sqrt(r * p) / (2.0 * pi)
    wx = dx / (r * p)
    wr = dr / (r * p) - e / r
    wp = -dr / (r * p) - e / p
    g = h * q
    gx = h * dq * wx
    gr = 0.5 * g / r + h * dq * wr
    gp = 0.5 * g / p + h * dq * wp
    grr = -0.25 * g / (r * r) + h * (dq * wr / r + ddq * wr * wr + dq * (w / r - wr) / r)
    grp = 0.25 * g / (r * p) + h * (0.5 * dq * (wp / r + wr / p) + ddq * wr * wp - dq * (1.0 / (p * p) + wp / r))
    gxr = h * (-0.5 * dq * wx / r + ddq * wx * wr)
    gxp = h * (-0.5 * dq * wx / p + ddq * wx * wp)
    out[0, 0] += g
    out[0, 1] += gr / r
    out[0, 2] -= gx / r
    out[1, 0] += gr
    out[1, 1] += (grr - gr / r) / r
    out[1, 2] -= (gxr - gx / r) / r
    s = 1.0 - t
    out[2, 0] += s * gp
    out[2, 1] += s * grp / r
    out[2, 2] -= s * gxp / r
    out[3, 0] += t * gp
    out[3, 1] += t * grp / r
    out[3, 2] -= t * gxp / r


@njit(cache=True)
def _add_plain(out: Floats, dx: float, dr: float, r: float, weight: float) -> None:
    psi, ux, ur = _ring(dx, dr, r, max(r - dr, 0.0))
    out[0, 0] += weight * psi
    out[0, 1] += weight * ux
    out[0, 2] += weight * ur


@njit(cache=True)
def _point(out: Floats, at: tuple[float, ...], shape: int, t0: float, s: float, weight: float, full: bool) -> None:
    """Add the panel's point at t0 + s; at = dx, dr of the target from t0, its radius, the chord."""
    if shape == 1:
        weight *= t0 + s
    elif shape == 2:
        weight *= 1.0 - t0 - s
    if full:
        _add(out, at[0] - s * at[3], at[1] - s * at[4], at[2], weight, t0 + s)
    else:
        _add_plain(out, at[0] - s * at[3], at[1] - s * at[4], at[2], weight)


@njit(cache=True)
def _side(out: Floats, at: tuple[float, ...], length: float, shape: int, t0: float, span: float, full: bool) -> None:
    """Integrate from t0 over the signed span; points crowd to t0 as the distance over the length asks."""
    d = sqrt(at[0] * at[0] + at[1] * at[1]) / length
    start, step, total, count = 0.0, d, abs(span), 8
    sign = 1.0 if span > 0.0 else -1.0
    if d == 0.0:
        step, count = total, 16
    while start < total:
        stop = start + step
        if stop > 0.75 * total:
            stop = total
        for i in range(count):
            if d == 0.0:
                tau = 0.5 + 0.5 * _X16[i]
                s = total * tau**3
                weight = 1.5 * tau * tau * total * _W16[i]
            else:
                s = start + (0.5 + 0.5 * _X8[i]) * (stop - start)
                weight = 0.5 * _W8[i] * (stop - start)
            _point(out, at, shape, t0, sign * s, weight * length, full)
        start, step = stop, max(step, stop)


@njit(cache=True)
def panel(out: Floats, xt: float, rt: float, end: Floats, shape: int, full: bool) -> None:
    """Fill `out` (4, 3) for the panel end = (x1, r1, x2, r2) with the strength `shape`; rows 1-3 if full.

    Where the target lies on the panel, the value is the mean of both sides.
    """
    out[:, :] = 0.0
    ex, er = end[2] - end[0], end[3] - end[1]
    length = sqrt(ex * ex + er * er)
    mx, mr = xt - 0.5 * (end[0] + end[2]), rt - 0.5 * (end[1] + end[3])
    far = sqrt(mx * mx + mr * mr) / length
    if far > 4.0:
        for i in range(4):
            _point(out, (mx, mr, rt, ex, er), shape, 0.5, 0.5 * _X4[i], 0.5 * _W4[i] * length, full)
    elif far > 1.5:
        for i in range(8):
            _point(out, (mx, mr, rt, ex, er), shape, 0.5, 0.5 * _X8[i], 0.5 * _W8[i] * length, full)
    else:
        t0 = min(1.0, max(0.0, 0.5 + (mx * ex + mr * er) / (length * length)))
        if min(t0, abs(t0 - 0.5), 1.0 - t0) < 1e-9:
            t0 = 0.5 * round(2.0 * t0)
        fx, fr = mx - (t0 - 0.5) * ex, mr - (t0 - 0.5) * er
        if fx * fx + fr * fr < 1e-14 * length * length:
            fx, fr = 0.0, 0.0
        _side(out, (fx, fr, rt, ex, er), length, shape, t0, 1.0 - t0, full)
        _side(out, (fx, fr, rt, ex, er), length, shape, t0, -t0, full)
    if full:
        for c in range(3):
            stretch = out[0, c] * er / (length * length)
            out[2, c] -= stretch
            out[3, c] += stretch


@njit(cache=True)
def cylinder(out: Floats, xt: float, rt: float, x0: float, radius: float, full: bool) -> None:
    """Fill `out` for the semi-infinite cylinder x >= x0 of unit strength; row 3 is d/d radius, row 2 zero."""
    out[:, :] = 0.0
    b = abs(x0 - xt)
    gap = sqrt(b * b + (rt - radius) ** 2)
    last = 400.0 * (radius + rt)
    start, step = b, gap
    if gap < 1e-7 * radius:
        stop = b + 0.1 * radius
        for i in range(16):
            tau = 0.5 + 0.5 * _X16[i]
            weight = 1.5 * tau * tau * 0.1 * radius * _W16[i]
            if full:
                _add(out, -b - 0.1 * radius * tau**3, rt - radius, rt, weight, 1.0)
            else:
                _add_plain(out, -b - 0.1 * radius * tau**3, rt - radius, rt, weight)
        start, step = stop, 0.1 * radius
    while start < last:
        for i in range(8):
            dx = -start - (0.5 + 0.5 * _X8[i]) * step
            if full:
                _add(out, dx, rt - radius, rt, 0.5 * _W8[i] * step, 1.0)
            else:
                _add_plain(out, dx, rt - radius, rt, 0.5 * _W8[i] * step)
        start += step
        step = max(step, 0.5 * (start - b + gap))
    square = radius * radius / (8.0 * start * start)
    out[0, 0] += square * rt * rt
    out[0, 1] += 2.0 * square
    out[0, 2] -= 2.0 * square * rt / start
    if full:
        out[1, 0] += 2.0 * square * rt
        out[1, 2] -= 2.0 * square / start
        out[3, 0] += 2.0 * square * rt * rt / radius
        out[3, 1] += 4.0 * square / radius
        out[3, 2] -= 4.0 * square * rt / start / radius
    if xt > x0:
        inside = 1.0 if rt < radius else (0.5 if rt == radius else 0.0)
        out[0, 0] = 0.5 * min(rt, radius) ** 2 - out[0, 0]
        out[0, 1] = inside - out[0, 1]


@njit(cache=True)
def panel_matrix(xt: Floats, rt: Floats, ends: Floats, shapes: NDArray[np.int64], full: bool) -> Floats:
    """`out` of every panel at every target: shape (targets, panels, 4, 3) (first row only unless full)."""
    rows = 4 if full else 1
    result = np.empty((xt.size, ends.shape[0], rows, 3))
    out = np.empty((4, 3))
    for i in range(xt.size):
        for j in range(ends.shape[0]):
            panel(out, xt[i], rt[i], ends[j], shapes[j], full)
            result[i, j] = out[:rows]
    return result


@njit(cache=True)
def cylinder_matrix(xt: Floats, rt: Floats, x0: float, radius: float, full: bool) -> Floats:
    """`out` of the semi-infinite cylinder at every target: shape (targets, 4, 3)."""
    result = np.empty((xt.size, 4, 3))
    for i in range(xt.size):
        cylinder(result[i], xt[i], rt[i], x0, radius, full)
    return result


@njit(cache=True)
def field_sum(
    xt: Floats, rt: Floats, ends: Floats, shapes: NDArray[np.int64], strength: Floats, far: Floats
) -> Floats:
    """(psi, ux, ur) without the stream, shape (targets, 3); far rows (x0, radius, strength) of cylinders."""
    result = np.zeros((xt.size, 3))
    out = np.empty((4, 3))
    for i in range(xt.size):
        for j in range(ends.shape[0]):
            if strength[j] != 0.0:
                panel(out, xt[i], rt[i], ends[j], shapes[j], False)
                result[i] += strength[j] * out[0]
        for j in range(far.shape[0]):
            if far[j, 2] != 0.0:
                cylinder(out, xt[i], rt[i], far[j, 0], far[j, 1], False)
                result[i] += far[j, 2] * out[0]
    return result
