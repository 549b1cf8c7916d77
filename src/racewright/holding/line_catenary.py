"""The elastic catenary in closed form: one uniform line without current, hanging free or part of it on a flat bed.

Irvine 1981, Cable Structures; Faltinsen 1990, Sea Loads, chapter 8. The bed is free of friction. Horizontal run and
rise are the derivatives of a convex energy in the two end forces, so Newton's method with halved steps finds them.
"""

from __future__ import annotations

from math import asinh, sqrt

from numba import njit

HANGING, GROUNDED, SLACK, STRAIGHT = 0, 1, 2, 3
"""Forms of a line: free of the bed; part of it on the bed; no horizontal pull; without weight."""
_LIGHT = 1e-6
"""A line whose weight is less than this share of what stretches it is straight, half its weight at each end [-]."""


@njit(cache=True, error_model="numpy")
def run_and_rise(
    horizontal: float, vertical: float, length: float, weight: float, stiffness: float, on_bed: bool
) -> tuple[float, float, float, float, float]:
    """Run, rise and their derivatives for given forces at the upper end.

    Parameters
    ----------
    horizontal, vertical : float
        Forces at the upper end, horizontal > 0, vertical positive when the line pulls down there [N].
    length : float
        Unstretched [m].
    weight : float
        Submerged, per unstretched length, not 0 [N/m].
    stiffness : float
        EA [N].
    on_bed : bool
        The lower end lies on a bed that holds the line up where `vertical` < weight x length.

    Returns
    -------
    run, rise : float
        [m]
    xx, xz, zz : float
        d run/d horizontal, d run/d vertical = d rise/d horizontal, d rise/d vertical [m/N].
    """
    h, top = horizontal, vertical
    if on_bed and top < weight * length:
        up = sqrt(h * h + top * top)
        angle = asinh(top / h)
        run = length - top / weight + h * length / stiffness + h * angle / weight
        rise = (up - h) / weight + top * top / (2.0 * stiffness * weight)
        xx = length / stiffness + (angle - top / up) / weight
        return run, rise, xx, (h / up - 1.0) / weight, top / (up * weight) + top / (stiffness * weight)
    low = top - weight * length
    up, down = sqrt(h * h + top * top), sqrt(h * h + low * low)
    angle = asinh(top / h) - asinh(low / h)
    run = h * length / stiffness + h * angle / weight
    rise = length / stiffness * (top - 0.5 * weight * length) + (up - down) / weight
    turn = (top / up - low / down) / weight
    return (
        run,
        rise,
        length / stiffness + angle / weight - turn,
        h * (1.0 / up - 1.0 / down) / weight,
        (length / stiffness + turn),
    )


@njit(cache=True, error_model="numpy")
def _straight(run: float, rise: float, length: float, stiffness: float) -> tuple[float, float, float, float, float]:
    """Forces and stiffness of a straight line without weight; nothing when it is longer than the way."""
    way = sqrt(run * run + rise * rise)
    if way <= length:
        return 0.0, 0.0, 0.0, 0.0, 0.0
    pull = stiffness * (way / length - 1.0)
    cx, cz, along, across = run / way, rise / way, stiffness / length, pull / way
    return (
        pull * cx,
        pull * cz,
        along * cx * cx + across * cz * cz,
        (along - across) * cx * cz,
        (along * cz * cz + across * cx * cx),
    )


@njit(cache=True, error_model="numpy")
def _first_guess(run: float, rise: float, length: float, weight: float, stiffness: float) -> tuple[float, float]:
    """Start of the search: parabola of the same length (Peyrot & Goulois 1979), or the straight stretched line."""
    way = sqrt(run * run + rise * rise)
    slack = (length * length - rise * rise) / (run * run) - 1.0
    if way >= length or slack <= 0.0:
        pull = stiffness * (way / length - 1.0) if way > length else 0.0
        h = max(2.5 * weight * run, pull * run / way)
        return h, h * rise / run + 0.5 * weight * length
    bend = sqrt(3.0 * slack)
    spread = rise / (1.0 if bend > 20.0 else (1.0 - 2.0 / (1.0 + 2.718281828459045 ** (2.0 * bend))))
    return max(0.5 * weight * run / bend, 1e-12 * weight * length), 0.5 * weight * (spread + length)


@njit(cache=True, error_model="numpy")
def end_forces(
    run: float, rise: float, length: float, weight: float, stiffness: float, on_bed: bool
) -> tuple[float, float, float, float, float, int, bool]:
    """Forces at the upper end and stiffness of a line between two given ends.

    Parameters
    ----------
    run : float
        Horizontal distance of the ends, >= 0 [m].
    rise : float
        Height of the upper end over the lower, either sign when off the bed [m].
    length, weight, stiffness, on_bed
        As `run_and_rise`; the weight may be 0 or negative (a floating line), then the bed is not counted.

    Returns
    -------
    horizontal, vertical : float
        As `run_and_rise` [N].
    xx, xz, zz : float
        Their derivatives with run and rise [N/m].
    form : int
        HANGING, GROUNDED, SLACK or STRAIGHT.
    found : bool
        False when the search did not end.
    """
    way = sqrt(run * run + rise * rise)
    pull = stiffness * max(way / length - 1.0, 0.0)
    if abs(weight) * length <= _LIGHT * max(pull, 1e-9 * stiffness):
        h, v, xx, xz, zz = _straight(run, rise, length, stiffness)
        return h, v + 0.5 * weight * length if pull > 0.0 else 0.0, xx, xz, zz, STRAIGHT, True
    if weight < 0.0:
        h, v, xx, xz, zz, form, found = _search(run, -rise, length, -weight, stiffness, False)
        return h, -v, xx, -xz, zz, form, found
    return _search(run, max(rise, 1e-9 * length) if on_bed else rise, length, weight, stiffness, on_bed)


@njit(cache=True, error_model="numpy")
def _search(
    run: float, rise: float, length: float, weight: float, stiffness: float, on_bed: bool
) -> tuple[float, float, float, float, float, int, bool]:
    """`end_forces` of a line that sinks."""
    if on_bed:
        hung = 2.0 * rise / (1.0 + sqrt(1.0 + 2.0 * weight * rise / stiffness))
        if hung < length and run <= length - hung:
            return 0.0, weight * hung, 0.0, 0.0, weight / (1.0 + weight * hung / stiffness), SLACK, True
    x = max(run, 1e-7 * length)
    h, v = _first_guess(x, rise, length, weight, stiffness)
    now, up, xx, xz, zz = run_and_rise(h, v, length, weight, stiffness, on_bed)
    miss = (now - x) ** 2 + (up - rise) ** 2
    found = False
    for _ in range(200):
        if miss <= (1e-13 * length) ** 2:
            found = True
            break
        det = xx * zz - xz * xz
        dh = (zz * (x - now) - xz * (rise - up)) / det
        dv = (xx * (rise - up) - xz * (x - now)) / det
        share = 1.0
        while h + share * dh < 0.05 * h:
            share *= 0.5
        better = False
        for _ in range(40):
            h2, v2 = h + share * dh, v + share * dv
            now, up, xx2, xz2, zz2 = run_and_rise(h2, v2, length, weight, stiffness, on_bed)
            new = (now - x) ** 2 + (up - rise) ** 2
            if new < miss:
                better = True
                break
            share *= 0.5
        if not better:
            found = miss <= (1e-9 * length) ** 2
            now, up, xx, xz, zz = run_and_rise(h, v, length, weight, stiffness, on_bed)
            break
        h, v, xx, xz, zz, miss = h2, v2, xx2, xz2, zz2, new
    det = xx * zz - xz * xz
    form = GROUNDED if on_bed and v < weight * length else HANGING
    return h, v, zz / det, -xz / det, xx / det, form, found


def flat_pull_length(rise: float, tension: float, weight: float) -> float:
    """Least length that leaves the pull at the anchor flat: rise sqrt(2 T/(w rise) - 1), inextensible [m].

    Parameters
    ----------
    rise : float
        Fairlead over the anchor [m].
    tension : float
        At the fairlead, >= weight x rise [N].
    weight : float
        Submerged, per length, > 0 [N/m].
    """
    return rise * sqrt(2.0 * tension / (weight * rise) - 1.0)
