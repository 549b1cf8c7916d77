"""Families of sections from open definitions: contour and facts for a chord of 1."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.mean_lines import circular_arc, four_digit_line
from racewright.machine.thickness_forms import (
    EDGE,
    NOSE,
    biconvex_half_thickness,
    half_thickness,
    modified_half_thickness,
    plate_half_thickness,
)

Floats = NDArray[np.float64]

CAMBER_LIMIT = math.radians(100.0)
THICKNESS_LIMITS = (0.005, 0.4)


@dataclass(frozen=True)
class Family:
    """One family of sections.

    Attributes
    ----------
    half_thickness : callable
        (root of x/chord, thickness over chord) -> half thickness over chord, across the mean line; the thickness
        is one number or one for each root.
    mean_line : callable
        (x/chord, camber in rad, likewise) -> (rise over chord, angle in rad).
    nose_radius, edge_thickness : callable
        thickness over chord -> leading-edge radius and trailing-edge thickness over chord.
    meaning, source : str
        What it is, and where its definition comes from.
    """

    half_thickness: Callable[[Floats, float | Floats], Floats]
    mean_line: Callable[[Floats, float | Floats], tuple[Floats, Floats]]
    nose_radius: Callable[[float], float]
    edge_thickness: Callable[[float], float]
    meaning: str
    source: str


def _four_digit_nose(thickness: float) -> float:
    return 0.5 * (NOSE / 0.2 * thickness) ** 2


def _none(_thickness: float) -> float:
    return 0.0


FAMILIES: dict[str, Family] = {
    "circular_arc": Family(
        half_thickness,
        circular_arc,
        _four_digit_nose,
        _none,
        "four-digit thickness with closed edge on a circular arc",
        "thickness: NACA Report 460 (1933); arc: closed form",
    ),
    "four_digit": Family(
        half_thickness,
        four_digit_line,
        _four_digit_nose,
        _none,
        "four-digit thickness with closed edge on the four-digit mean line with its largest rise at 0.4",
        "NACA Report 460 (1933), from memory",
    ),
    "four_digit_modified": Family(
        modified_half_thickness,
        circular_arc,
        lambda thickness: 0.5 * (0.296904 / 0.2 * thickness) ** 2,
        lambda thickness: 2.0 * EDGE * thickness,
        "modified four-digit thickness, thickest at 0.4, nose index 6, on a circular arc; trailing edge open",
        "NACA Report 492 (1934), coefficients as in NASA TM X-3284 (1975), from memory; arc: closed form",
    ),
    "plate": Family(
        plate_half_thickness,
        circular_arc,
        lambda thickness: 0.5 * thickness,
        lambda thickness: thickness,
        "plate with a half-round nose and a square end, rolled to a circular arc",
        "closed form",
    ),
    "biconvex": Family(
        biconvex_half_thickness,
        circular_arc,
        _none,
        _none,
        "lens of two circular arcs, sharp at both edges, on a circular arc",
        "closed form",
    ),
}
"""By the name that a row carries."""


@dataclass(frozen=True)
class SectionFacts:
    """What a section is, for a chord of 1.

    Attributes
    ----------
    area : float
        Over chord^2 [-].
    perimeter : float
        Wetted outline, a square end included, over chord [-].
    thickness : float
        Largest thickness across the mean line over chord [-].
    thickness_place : float
        Where along the chord it stands; the middle of a stretch of equal thickness, over chord [-].
    nose_radius : float
        Leading-edge radius over chord; 0 when sharp [-].
    edge_thickness : float
        Trailing-edge thickness over chord; 0 when closed [-].
    rise : float
        Largest distance of the mean line from the chord over chord [-].
    """

    area: float
    perimeter: float
    thickness: float
    thickness_place: float
    nose_radius: float
    edge_thickness: float
    rise: float


def section_points(family: str, camber: float, thickness: float, points_a_side: int = 80) -> Floats:
    """Contour of a section for chord 1, shape (2 points_a_side + 1, 2) or one more for a square end [-].

    x from the leading edge (0) to the trailing edge (1) along the chord, y positive in the direction of rotation
    before the section is turned by its stagger. Trailing edge, positive side, leading edge, negative side,
    trailing edge. A closed edge ends on its first point; an open one ends at its other corner, and its square end
    is the line that closes the contour. Points are denser at both edges (half circle over the chord).

    Parameters
    ----------
    family : str
        A name of `FAMILIES`.
    camber : float
        Turning of the mean line, -1.745 to 1.745; positive bulges towards negative y [rad].
    thickness : float
        Over chord, 0.005 to 0.4 [-].
    points_a_side : int
        10 to 2000.

    Raises
    ------
    InputError
        An unknown family; a value that is NaN, infinite or out of range.
    """
    kind = checked_family(family)
    _check(camber, thickness)
    if not 10 <= points_a_side <= 2000:
        raise InputError(f"{points_a_side} is outside 10 to 2000; try 80", key="points_a_side")
    root = np.sin(0.5 * np.linspace(0.0, np.pi, points_a_side + 1))
    upper, lower = (_side(kind, root, camber, thickness, side) for side in (1.0, -1.0))
    points = np.concatenate([upper[::-1], lower[1:]])
    if kind.edge_thickness(thickness) == 0.0:
        points[-1] = points[0]
    return points


def section_facts(family: str, camber: float, thickness: float) -> SectionFacts:
    """Area, outline, thickness, edges and rise of a section for chord 1; arguments and errors as `section_points`."""
    points = section_points(family, camber, thickness, 2000)
    kind = FAMILIES[family]
    closed = np.vstack([points, points[:1]])
    x, y = closed.T
    root = np.sqrt(np.linspace(0.0, 1.0, 20001))
    half = kind.half_thickness(root, thickness)
    thickest = np.flatnonzero(half >= half.max() * (1.0 - 1e-12))
    rise, _angle = kind.mean_line(root * root, camber)
    return SectionFacts(
        area=0.5 * abs(float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1]))),
        perimeter=float(np.sum(np.hypot(np.diff(x), np.diff(y)))),
        thickness=2.0 * float(half.max()),
        thickness_place=0.5 * float(root[thickest[0]] ** 2 + root[thickest[-1]] ** 2),
        nose_radius=kind.nose_radius(thickness),
        edge_thickness=kind.edge_thickness(thickness),
        rise=float(np.abs(rise).max()),
    )


def checked_family(family: str) -> Family:
    """The family of that name; InputError with the names there are."""
    if family not in FAMILIES:
        raise InputError(
            f"there is no family of sections '{family}'; take one of {', '.join(FAMILIES)}", key="family"
        )
    return FAMILIES[family]


def _side(kind: Family, root: Floats, camber: float, thickness: float, side: float) -> Floats:
    x = root * root
    rise, angle = kind.mean_line(x, camber)
    across = side * kind.half_thickness(root, thickness)
    return np.column_stack([x - across * np.sin(angle), rise + across * np.cos(angle)])


def _check(camber: float, thickness: float) -> None:
    if not (math.isfinite(camber) and abs(camber) <= CAMBER_LIMIT):
        raise InputError(
            f"{camber} rad is outside -{math.degrees(CAMBER_LIMIT):.0f} to {math.degrees(CAMBER_LIMIT):.0f} degrees; "
            "try 0.3 rad (17 degrees)",
            key="camber",
        )
    low, high = THICKNESS_LIMITS
    if not (math.isfinite(thickness) and low <= thickness <= high):
        raise InputError(f"{thickness} is outside {low:g} to {high:g} of the chord; try 0.12", key="thickness")
