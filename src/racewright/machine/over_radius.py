"""Sections of a row read at other radii."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from racewright.machine.row import Row

Floats = NDArray[np.float64]


def read(radius: Floats, values: Floats, places: Floats) -> Floats:
    """Values over growing radii read at places, shape of places: monotone cubics, end slopes beyond the ends.

    The cubics do not swing over the values (Fritsch & Carlson 1980); at the given radii they return them.
    """
    curve = PchipInterpolator(radius, values)
    inside = np.clip(places, radius[0], radius[-1])
    return np.asarray(curve(inside) + curve.derivative()(inside) * (places - inside), dtype=np.float64)


def row_at(row: Row, radius: Floats) -> Row:
    """The row with its sections at other radii, growing [m]; place, clearance and family stay."""
    return replace(
        row,
        radius=radius,
        chord=read(row.radius, row.chord, radius),
        stagger=read(row.radius, row.stagger, radius),
        camber=read(row.radius, row.camber, radius),
        thickness=read(row.radius, row.thickness, radius),
        sweep=read(row.radius, row.sweep, radius),
        lean=read(row.radius, row.lean, radius),
    )
