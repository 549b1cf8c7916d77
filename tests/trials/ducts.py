"""One reference duct, solved once: NACA 0015 at 10 degrees, leading edge at 0.75 chord."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.trials.machine_response import wall_radius

PANELS = 40


@cache
def reference_duct(blockage: float = 0.0) -> Axisymmetric:
    """Its flow, in an open stream or within a round wall of that blockage."""
    x, r = section_contour(AnnularSection(0.75, math.radians(10.0), 1.0, 0.15), PANELS)
    throat = int(np.argmin(r[:PANELS]))
    wall = wall_radius(math.pi * float(r[throat]) ** 2, blockage) if blockage else None
    return axisymmetric(x, r, rotor_x=float(x[throat]), channel_radius=wall)
