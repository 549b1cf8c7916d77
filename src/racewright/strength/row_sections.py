"""Sections of vanes and blades as they stand in the machine."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.machine.row import Row
from racewright.machine.sections import section_points
from racewright.strength.section_area import SectionArea, section_area

Floats = NDArray[np.float64]


def row_contour(row: Row, place: int, points_a_side: int = 80) -> Floats:
    """Outline of one section, x downstream and y in the direction of rotation, about its mid-chord [m].

    Parameters
    ----------
    row : Row
    place : int
        Of the section, 0 at the hub, -1 at the duct.
    points_a_side : int
        10 to 1000.
    """
    flat = section_points(row.family, float(row.camber[place]), float(row.thickness[place]), points_a_side)
    angle = float(row.stagger[place])
    turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    turned: Floats = float(row.chord[place]) * ((flat - np.array([0.5, 0.0])) @ turn)
    return turned


def row_sections(row: Row) -> tuple[SectionArea, ...]:
    """Properties of every section, hub to duct."""
    return tuple(section_area(row_contour(row, place)) for place in range(row.radius.size))
