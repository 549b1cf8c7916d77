"""The hub's contour: semi-ellipsoid nose, cylinder, semi-ellipsoid tail, as panel end points."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.hub import Hub

Floats = NDArray[np.float64]

TURN_SHARE = 0.65
"""Share of the panels that is spent on the turn of the surface. Own choice; see the spheroid checks."""


def check_hub(hub: Hub) -> None:
    """Raise InputError naming the key, where a value is NaN, infinite or out of range."""
    for key in ("radius", "nose_length", "tail_length", "cylinder_length"):
        value = getattr(hub, key)
        low = 0.0 if key == "cylinder_length" else 1e-6
        if not (math.isfinite(value) and low <= value <= 100.0):
            raise InputError(f"{value} is outside {low:g} to 100 m; try 0.2", key=key)
    if not (math.isfinite(hub.nose_x) and abs(hub.nose_x) <= 100.0):
        raise InputError(f"{hub.nose_x} is outside -100 to 100 m; try -0.1", key="nose_x")


def hub_contour(hub: Hub, panels: int = 60) -> tuple[Floats, Floats]:
    """Panel end points (x, r) of the hub from the nose tip to the tail tip, both on the axis.

    Parameters
    ----------
    hub : Hub
    panels : int
        Panels in all, 16 to 2000, spent partly on length, partly on the turn of the surface.

    Returns
    -------
    x, r : ndarray, shape (panels + 1,)
        [m]

    Raises
    ------
    InputError
        A value is NaN, infinite or out of range.
    """
    check_hub(hub)
    if not 16 <= panels <= 2000:
        raise InputError(f"{panels} is outside 16 to 2000; try 60", key="panels")
    part = np.linspace(0.0, 3.0, 3001)
    x, r = _points(hub, part)
    step_x, step_r = np.diff(x), np.diff(r)
    length = np.concatenate([[0.0], np.cumsum(np.hypot(step_x, step_r))])
    moving = np.hypot(step_x, step_r) > 0.0
    heading = np.arctan2(step_r[moving], step_x[moving])
    turn = np.zeros(part.size)
    turn[1:][moving] = heading[0] - heading
    turn = np.maximum.accumulate(turn)
    count = (1.0 - TURN_SHARE) * length / length[-1] + TURN_SHARE * turn / turn[-1]
    x, r = _points(hub, np.interp(np.linspace(0.0, 1.0, panels + 1), count, part))
    r[0] = r[-1] = 0.0
    return x, r


def _points(hub: Hub, part: Floats) -> tuple[Floats, Floats]:
    """Points of the hub at 0..1 on the nose, 1..2 on the cylinder, 2..3 on the tail."""
    nose = 0.5 * math.pi * np.clip(part, 0.0, 1.0)
    tail = 0.5 * math.pi * np.clip(part - 2.0, 0.0, 1.0)
    middle = np.clip(part - 1.0, 0.0, 1.0)
    x = hub.nose_x + hub.nose_length * (1.0 - np.cos(nose))
    x = x + hub.cylinder_length * middle + hub.tail_length * np.sin(tail)
    return x, hub.radius * np.minimum(np.sin(nose), np.cos(tail))


def hub_radius(hub: Hub, x: float | Floats) -> Floats:
    """Radius of the hub at x, 0 ahead of the nose and behind the tail, shape of x [m]."""
    check_hub(hub)
    places = np.asarray(x, dtype=np.float64)
    if np.any(np.isnan(places)):
        raise InputError("x is not a number; give metres from the leading edge", key="x")
    shoulder = hub.nose_x + hub.nose_length
    end = shoulder + hub.cylinder_length
    ahead = np.maximum(shoulder - places, 0.0) / hub.nose_length
    behind = np.maximum(places - end, 0.0) / hub.tail_length
    return hub.radius * np.sqrt(np.maximum(1.0 - ahead**2 - behind**2, 0.0))
