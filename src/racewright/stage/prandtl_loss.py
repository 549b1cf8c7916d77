"""Loss at the ends of a few blades: Prandtl's factor."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def prandtl_loss(
    count: int, radius: Floats, hub_radius: float, tip_radius: float, inflow_sine: Floats, *, hub_loss: bool
) -> Floats:
    """Annulus mean of the induced speeds over their value at the blades, shape of the inputs.

    F = (2/pi) arccos exp(-f), f = (B/2)(R - r)/(r sin phi) at the tip and (B/2)(r - r_hub)/(r_hub sin phi) at
    the hub (Prandtl, appendix to Betz 1919, in Glauert 1935; from memory). It tends to 1 as the blade count
    grows, and to 0 at the ends themselves.

    Parameters
    ----------
    count : int
        Blades, 1 or more.
    radius : ndarray
        Between hub and tip [m].
    hub_radius, tip_radius : float
        [m]
    inflow_sine : ndarray
        Sine of the inflow angle from the plane of rotation, > 0 [-].
    hub_loss : bool
        Whether the blades end freely at the hub; a body that fills the hub closes them.
    """
    factor = _end(0.5 * count * (tip_radius - radius) / (radius * inflow_sine))
    if hub_loss:
        factor = factor * _end(0.5 * count * (radius - hub_radius) / (hub_radius * inflow_sine))
    return factor


def _end(distance: Floats) -> Floats:
    # arccos(exp(-f)) loses its digits at small f; arctan2 of sine and cosine keeps them.
    sine = np.sqrt(-np.expm1(-2.0 * distance))
    return 2.0 / np.pi * np.arctan2(sine, np.exp(-distance))
