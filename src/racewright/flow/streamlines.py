"""Streamlines of a computed load: lines of constant stream function, found station by station."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from racewright.errors import InputError
from racewright.flow.contours import hub_radius_at, inner_side
from racewright.flow.kernels import field_sum
from racewright.flow.result import Axisymmetric, Streamlines
from racewright.flow.vorticity import elements_of

Floats = NDArray[np.float64]

SPACING = 60
"""Stations along the duct's length; as many again ahead and behind, wider apart the further away."""
ROUNDS = 40


def streamlines(
    flow: Axisymmetric,
    load_index: int,
    count_inside: int,
    count_outside: int,
    x_from: float,
    x_to: float,
) -> Streamlines:
    """Lines of constant stream function, even in radius far upstream.

    Parameters
    ----------
    flow : Axisymmetric
    load_index : int
        Which load.
    count_inside, count_outside : int
        Lines through the rotor, and past the duct, 0 to 200 each.
    x_from, x_to : float
        Axial range, x_from ahead of the duct, x_to behind it and within the solved wake [length].

    Returns
    -------
    Streamlines
        Inner lines first, from the axis outwards; each is a polyline from x_from to x_to that stays on its
        side of the walls and of the free sheet.

    Raises
    ------
    InputError
        A count or a place is wrong.
    """
    ends, shapes, strength, far = elements_of(flow, load_index)
    for count, key in ((count_inside, "count_inside"), (count_outside, "count_outside")):
        if not 0 <= count <= 200:
            raise InputError(f"{count} is outside 0 to 200; try 8", key=key)
    front, back = float(flow.duct_x.min()), float(flow.duct_x[0])
    end = float(flow.wake_x[load_index, -1])
    if not (math.isfinite(x_from) and x_from < front):
        raise InputError(f"{x_from} must be ahead of the duct's leading edge at {front:.4g}", key="x_from")
    if not (math.isfinite(x_to) and back < x_to <= end):
        raise InputError(f"{x_to} must lie behind the duct, from {back:.4g} to {end:.4g}", key="x_to")
    psi_edge = float(flow.speed_ratio[load_index]) * flow.annulus_area / (2.0 * math.pi)
    capture = math.sqrt(2.0 * psi_edge)
    spacing = capture / max(count_inside, 4)
    far_inner = capture * (np.arange(count_inside) + 0.5) / max(count_inside, 1)
    far_outer = capture + spacing * (np.arange(count_outside) + 0.5)
    inner = np.asarray(0.5 * far_inner**2, dtype=np.float64)
    outer = np.asarray(0.5 * far_outer**2, dtype=np.float64)
    x = _stations(x_from, front, back, x_to)
    lines_r = np.empty((count_inside + count_outside, x.size))
    lines_v = np.empty_like(lines_r)
    largest = float(flow.duct_r.max()) + 4.0 * math.sqrt(2.0 * max([psi_edge, *outer]))
    for i, place in enumerate(x):
        floor, middle_in, middle_out = _bounds(flow, load_index, float(place), capture)
        for psi, rows, low, high in (
            (inner, slice(0, count_inside), floor, middle_in),
            (outer, slice(count_inside, None), middle_out, largest),
        ):
            if psi.size:
                before = lines_r[rows, i - 1] if i else np.asarray(np.sqrt(2.0 * psi), dtype=np.float64)
                lines_r[rows, i], lines_v[rows, i] = _find(
                    float(place), psi, low, high, before, (ends, shapes, strength, far)
                )
    captured = tuple([True] * count_inside + [False] * count_outside)
    return Streamlines(tuple(x.copy() for _ in lines_r), tuple(lines_r), tuple(lines_v), captured)


def _stations(x_from: float, front: float, back: float, x_to: float) -> Floats:
    even = np.linspace(0.0, 1.0, SPACING + 1)
    ahead = front - (front - x_from) * even[::-1] ** 2
    behind = back + (x_to - back) * even**2
    return np.concatenate([ahead[:-1], np.linspace(front, back, SPACING + 1), behind[1:]])


def _bounds(flow: Axisymmetric, load_index: int, place: float, capture: float) -> tuple[float, float, float]:
    """Radii between which inner lines pass at a station, and from which outer lines do."""
    floor = hub_radius_at(flow.hub_x, flow.hub_r, place)
    wall_x, wall_r = inner_side(flow.duct_x, flow.duct_r)
    if place < wall_x[0]:
        top = float(flow.duct_r.max()) + 2.0 * capture
        return floor, top, 0.0
    if place >= flow.duct_x[0]:
        sheet = float(PchipInterpolator(flow.wake_x[load_index], flow.wake_r[load_index])(place))
        return floor, sheet, sheet
    first = int(np.argmin(flow.duct_x))
    outside = float(np.interp(place, flow.duct_x[first:], flow.duct_r[first:]))
    return floor, float(np.interp(place, wall_x, wall_r)), outside


def _find(
    place: float,
    psi: Floats,
    low: float,
    high: float,
    start: Floats,
    elements: tuple[Floats, NDArray[np.int64], Floats, Floats],
) -> tuple[Floats, Floats]:
    """Radii with the given psi and the speeds there: Newton kept inside a shrinking bracket."""
    below, above = np.full(psi.shape, low), np.full(psi.shape, high)
    radius = np.clip(start, low + 1e-3 * (high - low), high - 1e-3 * (high - low))
    x = np.full(psi.shape, place)
    speed = np.zeros(psi.shape)
    for _ in range(ROUNDS):
        sums = field_sum(x, radius, *elements)
        error = 0.5 * radius**2 + sums[:, 0] - psi
        axial = 1.0 + sums[:, 1]
        speed = np.hypot(axial, sums[:, 2])
        if np.all(np.abs(error) <= 1e-8 * psi):
            break
        above = np.where(error > 0.0, radius, above)
        below = np.where(error > 0.0, below, radius)
        with np.errstate(divide="ignore", invalid="ignore"):
            better = radius - error / (radius * axial)
        inside = np.isfinite(better) & (better > below) & (better < above)
        moved = np.where(inside, better, 0.5 * (below + above))
        radius = np.where(np.abs(error) <= 1e-8 * psi, radius, moved)
    return radius, speed
