"""The duct's section from throat, exit area ratio, length, thickness, lip, and camber or inlet area ratio."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
from scipy.optimize import brentq

from racewright.errors import InputError
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.machine.duct import Duct

STEEPEST = math.radians(40.0)
"""Largest chord angle that is built; the flow leaves the wall long before. Own choice."""

THIN = 0.06
"""Thickness over chord below which the largest angle of chord and nose falls in proportion, and with a lip below 1
further: the nose radius goes as thickness squared, and a thin one across the stream has more suction than flow or
panels bear. Own choice: the force on empty ducts up to it is within 0.004 (80/N)^2 with N panels a side."""

FURTHEST_THROAT = 0.45
"""Furthest place of the throat over length. Ducts with it further back are nozzles and choke themselves under load:
of 500 drawn at random six did below CH 0.95, five of them with the throat here or behind. Own choice."""

CAMBERS = (math.radians(-30.0), math.radians(60.0))
"""Turning of the mean line that is built: rise over length -6.6 to 13.4 %. Own choice."""

_EDGE_SLOPE = -(0.5 * 0.2969 - 0.1260 - 2 * 0.3516 + 3 * 0.2843 - 4 * 0.1036) / 0.2
"""Half-thickness slope at the trailing edge over thickness / chord."""

_CHECK_PANELS = 60

_RANGES = {
    "throat_radius": (0.0, 100.0, "m", 0.5),
    "exit_area_ratio": (1.0, 3.0, "", 1.5),
    "length": (0.0, 100.0, "m", 0.6),
    "thickness": (0.02, 0.25, "", 0.12),
    "lip": (0.5, 2.0, "", 1.0),
}


def check_duct(duct: Duct) -> None:
    """Raise InputError naming the key, where a value is NaN, infinite or out of range, or one too many is given."""
    for key, (low, high, unit, example) in _RANGES.items():
        value = getattr(duct, key)
        if not (math.isfinite(value) and low <= value <= high and value > 0.0):
            raise InputError(
                f"{value} is outside {low:g} to {high:g} {unit}".rstrip() + f"; try {example:g}", key=key
            )
    low, high = CAMBERS
    if not (math.isfinite(duct.camber) and low <= duct.camber <= high):
        raise InputError(
            f"{duct.camber} rad is outside {math.degrees(low):.0f} to {math.degrees(high):.0f} degrees; "
            "try 0.2 rad (11 degrees)",
            key="camber",
        )
    inlet = duct.inlet_area_ratio
    if inlet is None:
        return
    if not (math.isfinite(inlet) and 1.0 <= inlet <= 3.0):
        raise InputError(f"{inlet} is outside 1 to 3; try 1.2", key="inlet_area_ratio")
    if duct.camber != 0.0:
        raise InputError(
            "throat, exit and inlet fix the camber; give the inlet area ratio or the camber, not both",
            key="inlet_area_ratio",
        )


@lru_cache(maxsize=64)
def duct_section(duct: Duct) -> AnnularSection:
    """The turned section whose smallest inner radius, trailing edge and, if given, leading edge are the duct's.

    Raises
    ------
    InputError
        Values out of range; no angle up to 40 degrees (less for thin sections) opens the duct so far within its
        length; no camber makes the inlet so wide; the nose would stand across the stream; the throat would stand
        behind 0.45 of the length; or the section would cross itself.
    """
    check_duct(duct)
    shape = AnnularSection(duct.throat_radius, 0.0, duct.length, duct.thickness, duct.camber, duct.lip)
    shape = _by_camber(duct, shape) if duct.inlet_area_ratio is None else _by_inlet(duct, shape)
    drop, root = lowest(shape)
    if shape.camber:
        _check_nose(shape)
    place = root**2
    if place > FURTHEST_THROAT:
        raise InputError(
            f"the throat would stand at {place:.2f} of the length, behind {FURTHEST_THROAT:g}: a nozzle; a larger "
            f"exit area ratio{', less camber (a smaller inlet)' if shape.camber > 0.0 else ''} or a thinner section "
            "brings it forward",
            key="exit_area_ratio",
        )
    section = replace(shape, leading_edge_radius=duct.throat_radius - duct.length * drop)
    if section.camber:
        section_contour(section, _CHECK_PANELS)
    return section


def inlet_area_ratio(duct: Duct) -> float:
    """(Leading-edge radius / throat radius)^2: the one given, or that follows from throat, exit and camber [-]."""
    return (duct_section(duct).leading_edge_radius / duct.throat_radius) ** 2


def camber(duct: Duct) -> float:
    """Turning of the mean line: the one given, or that follows from throat, exit and inlet [rad]."""
    return duct_section(duct).camber


def lowest(section: AnnularSection) -> tuple[float, float]:
    """Lowest inner point relative to the leading edge: (radius / chord, sqrt of chordwise fraction)."""
    unit = replace(section, leading_edge_radius=0.0, length=1.0)
    root = np.linspace(0.0, 1.0, 201)
    best = 0
    for _ in range(5):
        height = unit.side(root, -1.0)[1]
        best = int(np.argmin(height))
        low, high = root[max(best - 1, 0)], root[min(best + 1, 200)]
        drop, place = float(height[best]), float(root[best])
        root = np.linspace(low, high, 201)
    return drop, place


def steepest_angle(section: AnnularSection) -> float:
    """Largest angle of the chord, and of the mean line at the nose, from the axis [rad]."""
    return STEEPEST * min(1.0, section.thickness * min(section.lip, 1.0) / THIN)


def _by_camber(duct: Duct, shape: AnnularSection) -> AnnularSection:
    """Turn the chord until throat and trailing edge are those asked for."""
    exit_radius = duct.throat_radius * math.sqrt(duct.exit_area_ratio)

    def excess(angle: float) -> float:
        drop, _root = lowest(replace(shape, angle=angle))
        return (exit_radius - duct.throat_radius) / duct.length + drop - math.sin(angle)

    low = -math.atan(_EDGE_SLOPE * duct.thickness * math.cos(0.5 * duct.camber)) - 0.5 * duct.camber
    steepest = steepest_angle(shape) + min(0.5 * duct.camber, 0.0)
    if excess(steepest) > 0.0:
        rise = duct.throat_radius + duct.length * (math.sin(steepest) - lowest(replace(shape, angle=steepest))[0])
        most = math.floor(100.0 * (rise / duct.throat_radius) ** 2) / 100.0
        raise InputError(
            f"a duct of length {duct.length:g} m cannot open to {duct.exit_area_ratio:g} with the chord "
            f"turned by {math.degrees(steepest):.0f} degrees at most; take {most:g} or make it longer"
            + (" or thicker" if duct.thickness < THIN else "")
            + (" or of more camber" if duct.camber < 0.0 else ""),
            key="exit_area_ratio",
        )
    angle = low if excess(low) <= 1e-12 else float(brentq(excess, low, steepest, xtol=1e-14))
    return replace(shape, angle=angle)


def _by_inlet(duct: Duct, shape: AnnularSection) -> AnnularSection:
    """Chord from leading to trailing edge, cambered until its lowest inner point is the throat."""
    assert duct.inlet_area_ratio is not None
    inlet = math.sqrt(duct.inlet_area_ratio)
    sine = duct.throat_radius * (math.sqrt(duct.exit_area_ratio) - inlet) / duct.length
    if abs(sine) > math.sin(steepest_angle(shape)):
        raise InputError(
            f"a duct of length {duct.length:g} m from an inlet of {duct.inlet_area_ratio:g} to an exit of "
            f"{duct.exit_area_ratio:g} throat areas has its chord turned by more than "
            f"{math.degrees(steepest_angle(shape)):.0f} degrees; bring the two together or make it longer",
            key="inlet_area_ratio",
        )
    shape = replace(shape, angle=math.asin(sine))
    depth = duct.throat_radius * (inlet - 1.0) / duct.length

    def excess(turning: float) -> float:
        return depth + lowest(replace(shape, camber=turning))[0]

    least, most = CAMBERS
    if excess(least) < 0.0 or excess(most) > 0.0:
        least_ratio, most_ratio = (
            (1.0 - duct.length * lowest(replace(shape, camber=end))[0] / duct.throat_radius) ** 2 for end in CAMBERS
        )
        raise InputError(
            f"an inlet of {duct.inlet_area_ratio:g} throat areas asks for more camber than is built "
            f"({math.degrees(least):.0f} to {math.degrees(most):.0f} degrees); with the chord turned as it is, "
            f"{least_ratio:.2f} to {most_ratio:.2f} can be had",
            key="inlet_area_ratio",
        )
    return replace(shape, camber=float(brentq(excess, least, most, xtol=1e-14)))


def _check_nose(section: AnnularSection) -> None:
    """Raise InputError where a cambered section's nose stands across the stream."""
    heading, limit = section.angle - 0.5 * section.camber, steepest_angle(section)
    if abs(heading) > limit + 1e-12:
        raise InputError(
            f"the nose would point {math.degrees(abs(heading)):.0f} degrees "
            f"{'towards the axis' if heading > 0.0 else 'away from the axis'}, a section of this thickness bears "
            f"{math.degrees(limit):.0f}; {'more' if heading > 0.0 else 'less'} camber, a thicker section or a "
            "blunter lip would do",
            key="camber",
        )
