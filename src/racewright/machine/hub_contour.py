"""The hub's contour: semi-ellipsoid nose, cylinder, semi-ellipsoid tail, as panel end points."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.hub import Hub

Floats = NDArray[np.float64]


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
        Panels in all, 16 to 2000; nose and tail in equal angles of their ellipse, the cylinder in equal lengths.

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
    quarter = [0.25 * math.pi * (length + hub.radius) for length in (hub.nose_length, hub.tail_length)]
    whole = sum(quarter) + hub.cylinder_length
    least = 1 if hub.cylinder_length > 0.0 else 0
    nose = min(max(4, round(panels * quarter[0] / whole)), panels - 4 - least)
    tail = min(max(4, round(panels * quarter[1] / whole)), panels - nose - least)
    if least == 0:
        tail = panels - nose
    middle = panels - nose - tail
    angle_n = np.linspace(0.0, math.pi / 2, nose + 1)
    angle_t = np.linspace(0.0, math.pi / 2, tail + 1)
    shoulder = hub.nose_x + hub.nose_length
    end = shoulder + hub.cylinder_length
    x = np.concatenate(
        [
            shoulder - hub.nose_length * np.cos(angle_n),
            np.linspace(shoulder, end, middle + 1)[1:],
            end + hub.tail_length * np.sin(angle_t[1:]),
        ]
    )
    r = np.concatenate([hub.radius * np.sin(angle_n), np.full(middle, hub.radius), hub.radius * np.cos(angle_t[1:])])
    r[0] = r[-1] = 0.0
    return x, r


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
