"""The duct's contour, throat and inner wall."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.machine.duct import Duct
from racewright.machine.duct_section import duct_section, lowest

Floats = NDArray[np.float64]


def duct_contour(duct: Duct, panels_a_side: int = 80) -> tuple[Floats, Floats]:
    """Panel end points (x, r) [m]: trailing edge, inner side, leading edge, outer side, trailing edge.

    See `section_contour`; raises InputError as `duct_section` does.
    """
    return section_contour(duct_section(duct), panels_a_side)


def throat_x(duct: Duct) -> float:
    """Axial place of the smallest inner radius, from the leading edge [m]."""
    section = duct_section(duct)
    _drop, root = lowest(section)
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


def _foremost(section: AnnularSection) -> float:
    """sqrt of the chordwise fraction of the inner side's foremost point (0 where the nose points at the axis)."""
    root = np.linspace(0.0, 0.3, 30001)
    return float(root[int(np.argmin(section.side(root, -1.0)[0]))])
