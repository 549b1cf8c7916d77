"""The duct's section, contour, throat and inner wall, from throat, exit area ratio, length and thickness."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from racewright.errors import InputError
from racewright.machine.annular_section import AnnularSection, half_thickness, section_contour
from racewright.machine.duct import Duct

Floats = NDArray[np.float64]

STEEPEST = math.radians(40.0)
"""Largest chord angle that is built; the flow leaves the wall long before. Own choice."""

THIN = 0.06
"""Thickness over chord below which the largest angle falls in proportion: the nose radius goes as thickness
squared, and a thin one across the stream has more suction than flow or panels bear. Own choice: the force on
empty ducts up to it is within 0.004 (80/N)^2 with N panels a side."""

FURTHEST_THROAT = 0.45
"""Furthest place of the throat over length. Ducts with it further back are nozzles and choke themselves under load:
of 500 drawn at random six did below CH 0.95, five of them with the throat here or behind. Own choice."""

_EDGE_SLOPE = -(0.5 * 0.2969 - 0.1260 - 2 * 0.3516 + 3 * 0.2843 - 4 * 0.1036) / 0.2
"""Half-thickness slope at the trailing edge over thickness / chord."""

_RANGES = {
    "throat_radius": (0.0, 100.0, "m", 0.5),
    "exit_area_ratio": (1.0, 3.0, "", 1.5),
    "length": (0.0, 100.0, "m", 0.6),
    "thickness": (0.02, 0.25, "", 0.12),
}


def check_duct(duct: Duct) -> None:
    """Raise InputError naming the key, where a value is NaN, infinite or out of range."""
    for key, (low, high, unit, example) in _RANGES.items():
        value = getattr(duct, key)
        if not (math.isfinite(value) and low <= value <= high and value > 0.0):
            raise InputError(
                f"{value} is outside {low:g} to {high:g} {unit}".rstrip() + f"; try {example:g}", key=key
            )


@lru_cache(maxsize=64)
def duct_section(duct: Duct) -> AnnularSection:
    """The turned section whose smallest inner radius and trailing-edge radius are those of the duct.

    Raises
    ------
    InputError
        Values out of range; no angle up to 40 degrees (less for thin sections) opens the duct so far within its
        length; or the throat would stand behind 0.45 of the length.
    """
    check_duct(duct)
    exit_radius = duct.throat_radius * math.sqrt(duct.exit_area_ratio)

    def excess(angle: float) -> float:
        drop, _root = _lowest(angle, duct.thickness)
        return (exit_radius - duct.throat_radius) / duct.length + drop - math.sin(angle)

    low = -math.atan(_EDGE_SLOPE * duct.thickness)
    steepest = STEEPEST * min(1.0, duct.thickness / THIN)
    if excess(steepest) > 0.0:
        rise = duct.throat_radius + duct.length * (math.sin(steepest) - _lowest(steepest, duct.thickness)[0])
        most = math.floor(100.0 * (rise / duct.throat_radius) ** 2) / 100.0
        raise InputError(
            f"a duct of length {duct.length:g} m cannot open to {duct.exit_area_ratio:g} with the chord "
            f"turned by {math.degrees(steepest):.0f} degrees at most; take {most:g} or make it longer"
            + (" or thicker" if duct.thickness < THIN else ""),
            key="exit_area_ratio",
        )
    angle = low if excess(low) <= 1e-12 else float(brentq(excess, low, steepest, xtol=1e-14))
    place = _lowest(angle, duct.thickness)[1] ** 2
    if place > FURTHEST_THROAT:
        raise InputError(
            f"the throat would stand at {place:.2f} of the length, behind {FURTHEST_THROAT:g}: a nozzle; a larger "
            "exit area ratio or a thinner section brings it forward",
            key="exit_area_ratio",
        )
    return AnnularSection(
        duct.throat_radius - duct.length * _lowest(angle, duct.thickness)[0],
        angle,
        duct.length,
        duct.thickness,
    )


def duct_contour(duct: Duct, panels_a_side: int = 80) -> tuple[Floats, Floats]:
    """Panel end points (x, r) [m]: trailing edge, inner side, leading edge, outer side, trailing edge.

    See `section_contour`; raises InputError as `duct_section` does.
    """
    return section_contour(duct_section(duct), panels_a_side)


def throat_x(duct: Duct) -> float:
    """Axial place of the smallest inner radius, from the leading edge [m]."""
    section = duct_section(duct)
    _drop, root = _lowest(section.angle, section.thickness)
    return float(section.side(np.array(root), -1.0)[0])


def wall_radius(duct: Duct, x: float | Floats) -> Floats:
    """Radius of the inner wall at x [m], shape of x; x from the leading edge (0) to the trailing edge.

    Raises
    ------
    InputError
        x is NaN or outside the duct.
    """
    section = duct_section(duct)
    places = np.asarray(x, dtype=np.float64)
    end = float(section.side(np.array(1.0), -1.0)[0])
    slack = 1e-12 * duct.length
    if not np.all((places >= -slack) & (places <= end + slack)):
        raise InputError(f"the inner wall reaches from 0 to {end:.6g} m", key="x")
    low = np.full(places.shape, _foremost(section))
    high = np.ones(places.shape)
    for _ in range(60):
        middle = 0.5 * (low + high)
        before = section.side(middle, -1.0)[0] < places
        low, high = np.where(before, middle, low), np.where(before, high, middle)
    return section.side(0.5 * (low + high), -1.0)[1]


def _lowest(angle: float, thickness: float) -> tuple[float, float]:
    """Lowest inner point relative to the leading edge: (radius / chord, sqrt of chordwise fraction)."""
    sine, cosine = math.sin(angle), math.cos(angle)
    root = np.linspace(0.0, 1.0, 201)
    best = 0
    for _ in range(5):
        height = root * root * sine - half_thickness(root, thickness) * cosine
        best = int(np.argmin(height))
        low, high = root[max(best - 1, 0)], root[min(best + 1, 200)]
        drop, place = float(height[best]), float(root[best])
        root = np.linspace(low, high, 201)
    return drop, place


def _foremost(section: AnnularSection) -> float:
    """sqrt of the chordwise fraction of the inner side's foremost point (0 when the duct opens)."""
    root = np.linspace(0.0, 0.3, 30001)
    return float(root[int(np.argmin(section.side(root, -1.0)[0]))])
