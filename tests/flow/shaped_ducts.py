"""Twelve ducts with camber, a given inlet or another lip, and how well the flow's forces hold on them."""

from __future__ import annotations

import math

import numpy as np

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.forces import momentum_force
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x

DUCTS = (
    Duct(0.5, 1.5, 1.0, 0.12, camber=math.radians(15.0)),
    Duct(0.5, 1.5, 1.0, 0.12, camber=math.radians(30.0)),
    Duct(0.5, 1.8, 0.8, 0.15, camber=math.radians(40.0)),
    Duct(0.5, 1.4, 0.7, 0.18, camber=math.radians(-15.0)),
    Duct(0.5, 1.3, 0.6, 0.10, inlet_area_ratio=1.2),
    Duct(0.5, 1.6, 0.8, 0.12, inlet_area_ratio=1.4),
    Duct(0.5, 2.0, 1.2, 0.10, inlet_area_ratio=1.5),
    Duct(0.5, 1.5, 1.0, 0.14, lip=2.0),
    Duct(0.5, 1.5, 1.0, 0.14, lip=0.5),
    Duct(0.5, 1.5, 0.6, 0.08, camber=math.radians(25.0), lip=2.0),
    Duct(0.5, 1.4, 0.7, 0.18, camber=math.radians(20.0), lip=0.5),
    Duct(0.5, 2.2, 1.0, 0.15, camber=math.radians(50.0), lip=1.5),
)


def empty_force(duct: Duct, panels: int) -> float:
    """Axial force on the empty duct over half rho A U^2; potential flow asks for none (d'Alembert) [-]."""
    x, r = duct_contour(duct, panels)
    return float(axisymmetric(x, r, rotor_x=throat_x(duct), head_coefficients=(0.0,)).duct_force[0])


def momentum_miss(duct: Duct, panels: int, loads: tuple[float, ...] = (0.3, 0.6)) -> float:
    """Largest difference of the duct's pressure force to what momentum asks for at the loads [-]."""
    x, r = duct_contour(duct, panels)
    flow = axisymmetric(x, r, rotor_x=throat_x(duct), head_coefficients=(0.0, *loads))
    if flow.converged.size != 1 + len(loads) or not flow.converged.all():
        return math.inf
    return float(np.abs(flow.duct_force - momentum_force(flow.head_coefficient, flow.speed_ratio))[1:].max())


def full_count() -> tuple[str, bool]:
    """All twelve at 80 and 160 panels a side, empty and loaded: what was found, and whether it is within its bars.

    Bars: 0.004 (80/N)^2 empty; 0.0015 (0.005 CH at the lower load) loaded; halving the panels' size quarters the
    empty force (ratio 3 to 5).
    """
    empty = {panels: np.array([empty_force(duct, panels) for duct in DUCTS]) for panels in (80, 160)}
    ratio = empty[80] / empty[160]
    loaded = max(momentum_miss(duct, 80) for duct in (DUCTS[1], DUCTS[5]))
    ok = all(float(np.abs(force).max()) < 0.004 * (80.0 / panels) ** 2 for panels, force in empty.items())
    ok = ok and bool(np.all((ratio > 3.0) & (ratio < 5.0))) and loaded < 0.0015
    text = (
        f"12 shaped ducts empty: {np.abs(empty[80]).max():.5f} at 80, {np.abs(empty[160]).max():.5f} at 160 panels a "
        f"side, ratios {ratio.min():.2f} to {ratio.max():.2f}; two loaded to 0.6: {loaded:.5f} off momentum"
    )
    return text, ok
