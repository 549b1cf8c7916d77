"""Ducts like those of published tests, whose sections nobody printed, with an ideal disc in them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.response import reach, response_at
from racewright.flow.result import Axisymmetric
from racewright.machine.annular_section import half_thickness
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x

Floats = NDArray[np.float64]
PANELS = 24
LOADS = (0.0, 0.3, 0.5, 0.65, 0.75, 0.85)


@dataclass(frozen=True)
class IdealPower:
    """The best load of an ideal disc in a duct; areas are full circles of the throat and of the exit.

    Attributes
    ----------
    head_coefficient, throat_coefficient, exit_coefficient : float
        CH, and power coefficients there [-].
    """

    head_coefficient: float
    throat_coefficient: float
    exit_coefficient: float


def ideal_power(flow: Axisymmetric, throat_area: float, exit_area: float) -> IdealPower:
    """CH u over the solved loads, at its largest."""
    loads = np.linspace(0.2, reach(flow), 151)
    power = np.array([load * response_at(flow, load).speed_ratio for load in loads]) * flow.annulus_area
    best = int(np.argmax(power))
    return IdealPower(float(loads[best]), float(power[best]) / throat_area, float(power[best]) / exit_area)


def straight(exit_area_ratio: float, length: float, thickness: float) -> IdealPower:
    """A duct that this product builds, throat diameter 1, disc in the throat."""
    duct = Duct(0.5, exit_area_ratio, length, thickness)
    flow = axisymmetric(*duct_contour(duct, PANELS), rotor_x=throat_x(duct), wake_panels=40, head_coefficients=LOADS)
    return ideal_power(flow, 0.25 * math.pi, 0.25 * math.pi * exit_area_ratio)


def curved_plate(exit_area_ratio: float, length: float, thickness: float = 0.06) -> IdealPower:
    """A plate bent along a circular arc that starts along the axis; the throat is the arc's own, diameter 1."""
    rise = 0.5 * (math.sqrt(exit_area_ratio) - 1.0)
    turn = 2.0 * math.atan(rise / length)
    bend = length / math.sin(turn)
    share = 0.5 * (1.0 - np.cos(np.linspace(0.0, math.pi, PANELS + 1)))
    angle, half = turn * share, bend * turn * half_thickness(np.sqrt(share), thickness)
    x, r = bend * np.sin(angle), 0.5 + bend * (1.0 - np.cos(angle))
    inner = x + half * np.sin(angle), r - half * np.cos(angle)
    outer = x - half * np.sin(angle), r + half * np.cos(angle)
    duct_x, duct_r = (np.concatenate([a[::-1], b[1:]]) for a, b in zip(inner, outer, strict=True))
    duct_x[-1], duct_r[-1] = duct_x[0], duct_r[0]
    narrow = int(np.argmin(inner[1]))
    flow = axisymmetric(
        duct_x, duct_r, rotor_x=max(float(inner[0][narrow]), 0.05), wake_panels=40, head_coefficients=LOADS
    )
    throat = math.pi * float(np.min(inner[1])) ** 2
    return ideal_power(flow, throat, 0.25 * math.pi * exit_area_ratio)
