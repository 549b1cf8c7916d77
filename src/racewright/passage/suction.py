"""Mean suction of sections that carry a row's turning."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.machine.row import Row
from racewright.stage.result import OperatingPoint

Floats = NDArray[np.float64]


def row_suction(vanes: Row, blades: Row, density: float, point: OperatingPoint) -> float:
    """Largest over both rows and all radii of half the mean pressure difference across the sections [Pa].

    Lift per span rho W Gamma over the chord, with Gamma = pitch x change of swirl and W the mean relative speed
    (Kutta and Joukowsky); one half of it lies below the passage's mean pressure. Closed form.
    """
    known = point.triangles
    chord = np.interp(known.radius, vanes.radius, vanes.chord)
    nothing = np.zeros(known.radius.shape)
    found = [
        _half(vanes.count, chord, known.radius, known.axial_speed, nothing, known.swirl_in),
        _half(
            blades.count,
            blades.chord,
            known.radius,
            known.axial_speed,
            known.swirl_in - known.blade_speed,
            known.swirl_out - known.blade_speed,
        ),
    ]
    return density * max(float(one.max()) for one in found)


def _half(count: int, chord: Floats, radius: Floats, axial: Floats, before: Floats, behind: Floats) -> Floats:
    speed = np.hypot(axial, 0.5 * (before + behind))
    circulation = 2.0 * np.pi * radius / count * np.abs(behind - before)
    return np.asarray(0.5 * speed * circulation / chord, dtype=np.float64)
