"""Sections and contours of a machine as tables of coordinates."""

from __future__ import annotations

import numpy as np

from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row, stacking_line
from racewright.machine.row_solid import outlines, surface
from racewright.records.stl_file import MILLIMETRE
from racewright.records.table_out import Column, table_bytes

POINTS_A_SIDE = 80
"""Points on each side of a section."""
CONTOUR = 200
"""Steps on each side of the duct's section, and along the hub."""


def section_tables(duct: Duct, hub: Hub, vanes: Row, blades: Row, scale: float) -> dict[str, bytes]:
    """CSV files by name: outlines of vane and blade, their sections in numbers, contours of duct and hub.

    Parameters
    ----------
    duct, hub, vanes, blades
        The machine; lengths in m.
    scale : float
        Size of what is written over that of the machine, > 0 [-].

    Returns
    -------
    dict
        File name to content; lengths in mm. An outline runs from the trailing edge along the side that faces the
        direction of rotation to the leading edge, and back along the other side.
    """
    unit = scale / MILLIMETRE
    files = {}
    for name, row in (("vane", vanes), ("blade", blades)):
        files[f"{name}_outlines.csv"] = table_bytes(_outlines(row, unit))
        files[f"{name}_sections.csv"] = table_bytes(_sections(row, unit))
    for name, (x, r) in (("duct", duct_contour(duct, CONTOUR)), ("hub", hub_contour(hub, CONTOUR))):
        files[f"{name}_contour.csv"] = table_bytes([("x", "mm", x * unit), ("radius", "mm", r * unit)])
    return files


def _outlines(row: Row, unit: float) -> list[Column]:
    """Every point of every section: unrolled from its cylinder, and in space at angle 0 of the row."""
    flat, space = outlines(row, POINTS_A_SIDE), surface(row, POINTS_A_SIDE)
    sections, points = flat.shape[:2]
    columns = {
        "radius": np.repeat(row.radius, points),
        "axial": flat[:, :, 0].ravel(),
        "arc": flat[:, :, 1].ravel(),
        **{axis: space[:, :, k].ravel() for k, axis in enumerate("xyz")},
    }
    counted = [
        ("section", "-", np.repeat(np.arange(1.0, sections + 1.0), points)),
        ("point", "-", np.tile(np.arange(1.0, points + 1.0), sections)),
    ]
    return [*counted, *((name, "mm", values * unit) for name, values in columns.items())]


def _sections(row: Row, unit: float) -> list[Column]:
    """Every section in numbers; angles from axial, positive in the direction of rotation."""
    middle, around = stacking_line(row)
    return [
        ("section", "-", np.arange(1.0, row.radius.size + 1.0)),
        ("radius", "mm", row.radius * unit),
        ("chord", "mm", row.chord * unit),
        ("angle", "deg", np.degrees(row.stagger)),
        ("camber", "deg", np.degrees(row.camber)),
        ("thickness", "-", row.thickness),
        ("sweep", "deg", np.degrees(row.sweep)),
        ("lean", "deg", np.degrees(row.lean)),
        ("mid_chord_x", "mm", middle * unit),
        ("mid_chord_around", "deg", np.degrees(around)),
    ]
