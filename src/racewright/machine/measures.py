"""Wetted areas and volumes of duct, hub and rows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import simpson

from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.over_radius import row_at
from racewright.machine.row import Row
from racewright.machine.row_solid import surface
from racewright.machine.sections import section_facts

Floats = NDArray[np.float64]

_PANELS = 400
_STATIONS = 33


@dataclass(frozen=True)
class Measures:
    """Wetted areas and displaced volumes of one machine, without its fillets, struts and fittings.

    Attributes
    ----------
    duct_inner_area, duct_outer_area : float
        From leading edge to trailing edge [m2].
    hub_area, vanes_area, blades_area : float
        All vanes or blades together, both sides, tips and roots left out [m2].
    duct_volume, hub_volume, vanes_volume, blades_volume : float
        Enclosed by the outer skin, as if solid [m3].
    """

    duct_inner_area: float
    duct_outer_area: float
    hub_area: float
    vanes_area: float
    blades_area: float
    duct_volume: float
    hub_volume: float
    vanes_volume: float
    blades_volume: float


def measures(duct: Duct, hub: Hub, vanes: Row, blades: Row) -> Measures:
    """Areas and volumes of duct, hub and rows; errors as those of the contours and sections."""
    x, r = duct_contour(duct, _PANELS)
    hub_x, hub_r = hub_contour(hub, _PANELS)
    return Measures(
        duct_inner_area=area_of_revolution(x[: _PANELS + 1], r[: _PANELS + 1]),
        duct_outer_area=area_of_revolution(x[_PANELS:], r[_PANELS:]),
        hub_area=area_of_revolution(hub_x, hub_r),
        vanes_area=row_area(vanes),
        blades_area=row_area(blades),
        duct_volume=volume_of_revolution(x, r),
        hub_volume=volume_of_revolution(hub_x, hub_r),
        vanes_volume=row_volume(vanes),
        blades_volume=row_volume(blades),
    )


def area_of_revolution(x: Floats, r: Floats) -> float:
    """Area of the surface that a line of points makes about the axis: frusta between the points [length^2].

    Closed form for straight lines (Pappus' first theorem); a curve's error falls as 1/N^2.
    """
    return float(np.pi * np.sum((r[1:] + r[:-1]) * np.hypot(np.diff(x), np.diff(r))))


def volume_of_revolution(x: Floats, r: Floats) -> float:
    """Volume that a line of points encloses about the axis: closed, or both ends on the axis [length^3].

    Frusta between the points, signed; closed form for straight lines (Pappus' second theorem). Positive for
    either direction.
    """
    return abs(float(np.pi / 3.0 * np.sum(np.diff(x) * (r[1:] ** 2 + r[1:] * r[:-1] + r[:-1] ** 2))))


def row_area(row: Row) -> float:
    """Wetted area of a whole row, both sides, sweep and lean counted, tips and roots left out [m2].

    Triangles between the outlines on their cylinders, at 33 radii.
    """
    points = surface(_refined(row), 80)
    low, high = points[:-1], points[1:]
    a, b, c, d = low[:, :-1], low[:, 1:], high[:, :-1], high[:, 1:]
    halves = np.cross(b - a, c - a), np.cross(d - b, c - b)
    return row.count * 0.5 * float(sum(np.linalg.norm(half, axis=2).sum() for half in halves))


def row_volume(row: Row) -> float:
    """Volume of a whole row: section areas over radius, by Simpson's rule on 33 radii [m3].

    Sweep and lean slide the sections on their cylinders and change nothing.
    """
    fine = _refined(row)
    pairs = zip(fine.camber, fine.thickness, strict=True)
    share = np.array([section_facts(row.family, float(camber), float(thick)).area for camber, thick in pairs])
    return row.count * float(simpson(share * fine.chord**2, x=fine.radius))


def _refined(row: Row) -> Row:
    return row_at(row, np.linspace(row.radius[0], row.radius[-1], _STATIONS))
