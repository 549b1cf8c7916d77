"""All vorticity of a computed load as one list of elements, for the field around it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.flow.surfaces import NONE, surfaces

Floats = NDArray[np.float64]


def wake_ends(wake_x: Floats, wake_r: Floats) -> Floats:
    """End points x1, r1, x2, r2 of the wake panels, shape (s, 4)."""
    return np.column_stack([wake_x[:-1], wake_r[:-1], wake_x[1:], wake_r[1:]])


def closing_cylinders(x: float, wake_radius: float, strength: float, channel_radius: float, bypass: float) -> Floats:
    """Rows (x0, radius, strength) of the cylinders that close the wake and, in a channel, the wall."""
    rows = [(x, wake_radius, strength)]
    if channel_radius > 0.0:
        rows.append((x, channel_radius, bypass - 1.0))
    return np.array(rows)


def elements_of(flow: Axisymmetric, load_index: int) -> tuple[Floats, NDArray[np.int64], Floats, Floats]:
    """Ends, shapes, strengths of all elements, and rows (x0, radius, strength) of the closing cylinders.

    The hub's node strengths follow from its speeds at mid-points, which are their means, from the nose on.
    """
    if not 0 <= load_index < flow.head_coefficient.size:
        raise InputError(f"{load_index} is outside 0 to {flow.head_coefficient.size - 1}", key="load_index")
    walled = flow.channel_radius > 0.0
    body = surfaces(flow.duct_x, flow.duct_r, flow.hub_x, flow.hub_r, flow.channel_x, flow.channel_radius)
    wall = flow.channel_strength[load_index] if walled else NONE
    nodes = [0.0]
    for middle in flow.hub_speed[load_index]:
        nodes.append(-2.0 * float(middle) - nodes[-1])
    unknown = np.concatenate([-flow.duct_speed[load_index], nodes[1:-1], wall])
    wake_x, wake_r = flow.wake_x[load_index], flow.wake_r[load_index]
    wake = wake_ends(wake_x, wake_r)
    return (
        np.concatenate([body.ends, wake]),
        np.concatenate([body.shapes, np.zeros(len(wake), dtype=np.int64)]),
        np.concatenate([body.element_strength(unknown), flow.wake_strength[load_index]]),
        closing_cylinders(
            float(wake_x[-1]),
            float(wake_r[-1]),
            float(flow.far_strength[load_index]),
            flow.channel_radius,
            float(flow.bypass_speed[load_index]) if walled else 1.0,
        ),
    )
