"""Tables and rows for the tests of rows."""

from __future__ import annotations

from typing import Literal

import numpy as np

from racewright.machine.given_row import SectionTable
from racewright.machine.row import Row


def table(**change: object) -> SectionTable:
    """Four sections from 0.15 to 0.50 m."""
    columns: dict[str, object] = {
        "radius": np.array([0.15, 0.25, 0.40, 0.50]),
        "chord": np.array([0.12, 0.13, 0.14, 0.15]),
        "stagger": np.array([0.4, 0.3, 0.2, 0.15]),
        "camber": np.array([0.5, 0.4, 0.3, 0.25]),
        "thickness": np.array([0.14, 0.13, 0.12, 0.12]),
    }
    return SectionTable(**{**columns, **change})  # type: ignore[arg-type]


def straight(kind: Literal["vanes", "blades"] = "vanes", place_x: float = 0.2, **change: object) -> Row:
    """Five equal sections from 0.15 to 0.5 m: chord 0.1 m along the axis, uncambered."""
    even = np.ones(5)
    columns: dict[str, object] = {
        "radius": np.linspace(0.15, 0.5, 5),
        "chord": 0.1 * even,
        "stagger": 0.0 * even,
        "camber": 0.0 * even,
        "thickness": 0.12 * even,
        "clearance": 0.0,
    }
    return Row(kind, 7, place_x, **{**columns, **change})  # type: ignore[arg-type]
