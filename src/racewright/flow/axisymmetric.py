"""Potential flow through a duct with hub and a disc that takes head, at a ladder of loads."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.assembly import assemble
from racewright.flow.channel import AHEAD, wall_places
from racewright.flow.contours import (
    check_clear,
    check_duct_contour,
    check_hub_contour,
    check_within_sheet,
    hub_radius_at,
    inner_side,
    radius_at,
)
from racewright.flow.equations import edge_weights
from racewright.flow.ladder import LADDER, check_loads
from racewright.flow.result import Axisymmetric
from racewright.flow.rig import Rig
from racewright.flow.surfaces import Surfaces, surfaces
from racewright.flow.wake import wake_places, walk
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]

REACH = 40.0
"""Length of the wake that is solved for, in trailing-edge radii; a cylinder of known strength follows."""


def axisymmetric(
    duct_x: Floats,
    duct_r: Floats,
    *,
    rotor_x: float,
    hub_x: Floats | None = None,
    hub_r: Floats | None = None,
    head_coefficients: tuple[float, ...] = LADDER,
    stations: int = 15,
    wake_panels: int = 80,
    tick: Tick = silent,
    channel_radius: float | None = None,
) -> Axisymmetric:
    """Flow through a duct, at each head coefficient, with a free vortex sheet from its trailing edge.

    Inviscid, no swirl, uniform head drop over the rotor annulus, which reaches from hub to duct. The axial
    place of the disc matters only to the profile, to the reference area and to where lower head acts.

    Parameters
    ----------
    duct_x, duct_r : ndarray, shape (n + 1,)
        Closed contour: trailing edge, inner side, leading edge, outer side, trailing edge; n >= 20.
        Lengths in any one unit.
    rotor_x : float
        Axial place of the disc, inside the duct [length].
    hub_x, hub_r : ndarray, shape (h + 1,), optional
        Hub from nose to tail, both on the axis; h >= 8 [length].
    head_coefficients : tuple of float
        CH of the loads, from 0 growing, below 1 [-]. Above about 0.97 most ducts have no answer.
    stations : int
        Radii of the profile, 5 to 200.
    wake_panels : int
        Panels of the wake, 20 to 400; the first is as long as the duct's last.
    tick : callable
        Called with the fraction done between loads; may raise Cancelled.

    channel_radius : float, optional
        Radius of a rigid round wall about the machine, 1.05 times its largest radius or more; without it the
        stream is open. The wall goes from 4 of its radii ahead to the end of the solved wake, and on as its far
        state, with the bypass speed of closed-channel theory [length].

    Returns
    -------
    Axisymmetric
        Loads above the first that did not converge are left out; a remark says so.

    Raises
    ------
    InputError
        A contour, place, count or load is wrong.
    NoAnswerError
        Not even the unloaded flow could be found.
    """
    duct_x, duct_r = np.array(duct_x, dtype=np.float64), np.array(duct_r, dtype=np.float64)
    none = np.empty(0)
    hub_x = none if hub_x is None else np.array(hub_x, dtype=np.float64)
    hub_r = none if hub_r is None else np.array(hub_r, dtype=np.float64)
    check_duct_contour(duct_x, duct_r)
    wall = 0.0 if channel_radius is None else float(channel_radius)
    if hub_x.size or hub_r.size:
        check_hub_contour(hub_x, hub_r)
        check_clear(duct_x, duct_r, hub_x, hub_r)
    loads = check_loads(head_coefficients)
    _check_count(stations, 5, 200, "stations")
    _check_count(wake_panels, 20, 400, "wake_panels")
    wall_x, wall_r = inner_side(duct_x, duct_r)
    if not (math.isfinite(rotor_x) and wall_x[0] < rotor_x < wall_x[-1]):
        raise InputError(
            f"{rotor_x} is outside the duct; try a place between {wall_x[0]:.4g} and {wall_x[-1]:.4g}",
            key="rotor_x",
        )
    edge_radius = float(duct_r[0])
    last = min(math.hypot(duct_x[1] - duct_x[0], duct_r[1] - duct_r[0]), math.hypot(*_last(duct_x, duct_r)))
    wake_x = wake_places(float(duct_x[0]), last, REACH * edge_radius, wake_panels)
    channel_x = none
    if channel_radius is not None:
        largest = float(max([duct_r.max(), *hub_r]))
        channel_x = wall_places(
            float(min([duct_x.min(), *hub_x])),
            float(max([duct_x.max(), *hub_x])),
            float(wake_x[-1]),
            largest,
            wall,
            AHEAD,
        )
    body = surfaces(duct_x, duct_r, hub_x, hub_r, channel_x, wall)
    own = body.own()
    guess = _unloaded(body, own, wake_x, edge_radius)
    solutions = walk(body, own, wake_x, edge_radius, loads, guess, tick, wall)
    if not solutions[0].converged:
        raise NoAnswerError(
            "The flow through the unloaded duct was not found; check its contour for loops and steps."
        )
    rig = Rig(
        duct_x=duct_x,
        duct_r=duct_r,
        hub_x=hub_x,
        hub_r=hub_r,
        rotor_x=float(rotor_x),
        wall_radius=radius_at(wall_x, wall_r, float(rotor_x)),
        hub_radius=hub_radius_at(hub_x, hub_r, float(rotor_x)),
        exit_hub_radius=hub_radius_at(hub_x, hub_r, float(duct_x[0])),
        wake_x=wake_x,
        channel_radius=wall,
        channel_x=channel_x,
    )
    start = body.x.size + 1
    sheets = np.stack([one.unknown[start : start + wake_panels] for one in solutions])
    check_within_sheet(hub_x, hub_r, wake_x, np.column_stack([np.full(len(sheets), edge_radius), sheets]))
    return assemble(rig, body, solutions, loads, stations)


def _unloaded(body: Surfaces, own: Floats, wake_x: Floats, edge_radius: float) -> Floats:
    """Strengths of the unloaded surfaces and a wake that widens smoothly to the radius its flow asks for."""
    n, d = body.x.size, body.duct_panels
    matrix = np.zeros((n + 1, n + 1))
    matrix[:n, :n] = own
    matrix[:d, n] = -1.0
    columns, weights = edge_weights(body, wake_x)
    matrix[n, columns[:4]] = weights[:4]
    stream = -0.5 * body.r**2
    stream[n - body.wall_panels :] = 0.0
    answer = np.linalg.solve(matrix, np.concatenate([stream, [0.0]]))
    far = math.sqrt(2.0 * max(float(answer[n]), 0.02 * edge_radius**2))
    radius = far + (edge_radius - far) * np.exp(-(wake_x[1:] - wake_x[0]) / edge_radius)
    return np.concatenate([answer, radius, np.zeros(wake_x.size - 1)])


def _last(x: Floats, r: Floats) -> tuple[float, float]:
    return float(x[-1] - x[-2]), float(r[-1] - r[-2])


def _check_count(value: int, low: int, high: int, key: str) -> None:
    if not low <= value <= high:
        raise InputError(f"{value} is outside {low} to {high}", key=key)
