"""The shape of a machine for its drawing: contours, rows from the side, and rows unrolled at mid radius."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.ledger.convert import duct_of, hub_of
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.row_solid import outlines

Floats = NDArray[np.float64]

PANELS = 40
"""Points a side of duct and hub in the drawing."""


@dataclass(frozen=True)
class RowShape:
    """A row from the side, and one of its sections unrolled.

    Attributes
    ----------
    count : int
    turned : float
        Away from the design, as the scheme has it [rad].
    radius, lead, trail : ndarray, shape (n,)
        Radii and axial places of leading and trailing edge [m].
    stagger : ndarray, shape (n,)
        [rad]
    middle : int
        Which of the radii is unrolled [-].
    along, around : ndarray, shape (m,)
        Outline of that section: axial place, and arc in the direction of rotation [m].
    pitch : float
        Arc between neighbours there [m].
    """

    count: int
    turned: float
    radius: Floats
    lead: Floats
    trail: Floats
    stagger: Floats
    middle: int
    along: Floats
    around: Floats
    pitch: float


@dataclass(frozen=True)
class MachineShape:
    """A machine to draw; x from the duct's leading edge, downstream [m].

    Attributes
    ----------
    duct_x, duct_r, hub_x, hub_r : ndarray
        Contours.
    throat_x, throat_radius, exit_x, exit_radius : float
        The duct's narrowest place and its trailing edge.
    """

    duct_x: Floats
    duct_r: Floats
    hub_x: Floats
    hub_r: Floats
    throat_x: float
    throat_radius: float
    exit_x: float
    exit_radius: float


UNITS = {
    "RowShape": {
        "count": "-",
        "turned": "rad",
        "radius": "m",
        "lead": "m",
        "trail": "m",
        "stagger": "rad",
        "middle": "-",
        "along": "m",
        "around": "m",
        "pitch": "m",
    },
    "MachineShape": dict.fromkeys(
        ("duct_x", "duct_r", "hub_x", "hub_r", "throat_x", "throat_radius", "exit_x", "exit_radius"), "m"
    ),
}


def shape_of(keys: Mapping[str, Any]) -> MachineShape:
    """Duct and hub of plain scheme values by role path."""
    duct, hub = duct_of(keys), hub_of(keys)
    x, r = duct_contour(duct, PANELS)
    hub_x, hub_r = hub_contour(hub, PANELS)
    inner = int(np.argmin(r))
    radius = duct.throat_radius
    return MachineShape(
        x, r, hub_x, hub_r, float(x[inner]), radius, float(x[0]), radius * math.sqrt(duct.exit_area_ratio)
    )


def row_shape(row: Row, turned: float) -> RowShape:
    """A row as it is run; `turned` is what the scheme says of it [rad]."""
    half = 0.5 * row.chord * np.cos(row.stagger)
    middle = int(np.argmin(np.abs(row.radius - 0.5 * (row.radius[0] + row.radius[-1]))))
    outline = outlines(row, 20)
    axial = 0.5 * (outline[:, :, 0].min(axis=1) + outline[:, :, 0].max(axis=1))
    one = outline[middle]
    return RowShape(
        row.count,
        turned,
        row.radius,
        axial - half,
        axial + half,
        row.stagger,
        middle,
        one[:, 0],
        one[:, 1] - float(np.mean(one[:, 1])),
        2.0 * math.pi * float(row.radius[middle]) / row.count,
    )
