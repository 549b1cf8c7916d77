"""One duct with hub, solved once for the folder."""

from __future__ import annotations

import pytest

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour

DUCT = Duct(throat_radius=0.5, exit_area_ratio=1.6, length=0.6, thickness=0.15)
HUB = Hub(radius=0.1, nose_x=-0.05, nose_length=0.15, cylinder_length=0.3, tail_length=0.3)


def solve(duct: Duct, hub: Hub | None, panels: int, loads: tuple[float, ...] = (0.0, 0.4, 0.8)) -> Axisymmetric:
    """Flow through a duct with its disc at the throat."""
    x, r = duct_contour(duct, panels)
    hub_x, hub_r = hub_contour(hub, panels) if hub else (None, None)
    return axisymmetric(x, r, hub_x=hub_x, hub_r=hub_r, rotor_x=throat_x(duct), head_coefficients=loads)


@pytest.fixture(scope="session")
def flow() -> Axisymmetric:
    """The whole ladder at 40 panels a side."""
    x, r = duct_contour(DUCT, 40)
    hub_x, hub_r = hub_contour(HUB, 40)
    return axisymmetric(x, r, hub_x=hub_x, hub_r=hub_r, rotor_x=throat_x(DUCT))
