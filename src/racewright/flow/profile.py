"""Axial speed over the rotor's radii at one load."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline, PchipInterpolator

from racewright.flow.kernels import field_sum

Floats = NDArray[np.float64]


def wall_axial_speed(x: Floats, r: Floats, speed: Floats, place: float) -> float:
    """Axial speed on a wall of panels (x growing) at an axial place, from the speeds at their mid-points."""
    middle = 0.5 * (x[1:] + x[:-1])
    axial = np.abs(speed) * np.diff(x) / np.hypot(np.diff(x), np.diff(r))
    return float(PchipInterpolator(middle, axial)(np.clip(place, middle[0], middle[-1])))


def stations_between(hub_radius: float, wall_radius: float, count: int) -> Floats:
    """Evenly spaced radii from hub to wall, both included, shape (count,)."""
    return np.linspace(hub_radius, wall_radius, count)


def station_speed(
    place: float,
    radius: Floats,
    at_hub: float | None,
    at_wall: float,
    spared: float,
    elements: tuple[Floats, NDArray[np.int64], Floats],
    far: Floats,
) -> Floats:
    """Axial speed / U at the stations.

    Speeds at the walls are those of the surfaces; stations nearer to a wall than `spared` (a panel's length)
    are interpolated, because there the panels' constant strength shows.
    """
    ends, shapes, strength = elements
    x = np.full(radius.shape, place)
    speed = 1.0 + field_sum(x, radius, ends, shapes, strength, far)[:, 1]
    sure = radius < radius[-1] - spared
    if at_hub is not None:
        sure &= radius > radius[0] + spared
        speed[0] = at_hub
    speed[-1] = at_wall
    sure[0] = sure[-1] = True
    return np.where(sure, speed, PchipInterpolator(radius[sure], speed[sure])(radius))


def area_mean(radius: Floats, speed: Floats) -> float:
    """Mean over the annulus of a speed given at its radii, by the integral of a cubic spline."""
    spline = CubicSpline(radius**2, speed)
    total = float(spline.integrate(float(radius[0]) ** 2, float(radius[-1]) ** 2))
    return total / float(radius[-1] ** 2 - radius[0] ** 2)
