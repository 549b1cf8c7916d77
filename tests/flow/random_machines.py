"""Random machines over the whole of the ranges that the flow is held to, and what the solver makes of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.forces import momentum_force
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour

LOADS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 8.0 / 9.0, 0.92, 0.95)


@dataclass(frozen=True)
class Outcome:
    """All loads converged; why not; worst force mismatch over its bar; every number finite."""

    duct: Duct
    hub: Hub | None
    converged: bool
    why: str
    mismatch: float
    finite: bool


def random_machine(seed: int) -> tuple[Duct, Hub | None]:
    """Area ratio 1.15 to 2.5, thickness 0.04 to 0.20, length 0.3 to 1.5 throat diameters; 6 in 10 with a hub.

    Drawn anew where the contour is refused.
    """
    draw = np.random.default_rng([20, seed])
    while True:
        duct = Duct(0.5, draw.uniform(1.15, 2.5), draw.uniform(0.3, 1.5), draw.uniform(0.04, 0.20))
        radius = 0.5 * draw.uniform(0.1, 0.5)
        nose, shape = draw.uniform(-0.3, 0.1), draw.uniform([0.8, 0.0, 1.5], [3.0, 0.6, 5.0])
        hub = Hub(radius, nose, shape[0] * radius, shape[1], shape[2] * radius) if draw.random() < 0.6 else None
        try:
            throat_x(duct)
        except InputError:
            continue
        return duct, hub


def outcome(seed: int, panels: int, wake_panels: int = 80) -> Outcome:
    """Twelve loads of one machine; the bar is the larger of 0.005 CH and 0.004 (80/N)^2."""
    duct, hub = random_machine(seed)
    x, r = duct_contour(duct, panels)
    hub_x, hub_r = hub_contour(hub, panels) if hub else (None, None)
    flow = axisymmetric(
        x,
        r,
        rotor_x=throat_x(duct),
        hub_x=hub_x,
        hub_r=hub_r,
        head_coefficients=LOADS,
        wake_panels=wake_panels,
    )
    good = flow.converged
    asked = momentum_force(flow.head_coefficient, flow.speed_ratio)
    error = np.abs(flow.duct_force + flow.hub_force - asked)[good]
    bar = np.maximum(0.005 * flow.head_coefficient[good], 0.004 * (80.0 / panels) ** 2)
    arrays = (flow.speed_ratio, flow.profile, flow.duct_speed, flow.hub_speed, flow.wake_r, flow.wake_strength)
    return Outcome(
        duct,
        hub,
        bool(good.all()) and good.size == len(LOADS),
        "; ".join(one.text for one in flow.remarks if one.about == "convergence"),
        float(np.max(error / bar)),
        all(bool(np.all(np.isfinite(one))) for one in arrays),
    )
