"""An invented machine with its duct and hub solved once for the tests that need walls."""

from __future__ import annotations

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.ladder import LADDER
from racewright.flow.result import Axisymmetric
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.unit import DesignIntent, RowIntent, Unit

UNIT = Unit(
    Duct(0.5, 1.5, 1.0, 0.14),
    Hub(0.13, -0.15, 0.2, 0.45, 0.4),
    RowIntent(7, 0.14, 0.16, 0.20, 0.12),
    RowIntent(5, 0.36, 0.15, 0.18, 0.12, 0.008),
    DesignIntent(2.4, 0.6, 2.2),
)


def solve(panels_a_side: int, hub_panels: int = 60, loads: tuple[float, ...] = LADDER) -> Axisymmetric:
    """Its flow, at the canonical ladder unless other loads are given."""
    duct_x, duct_r = duct_contour(UNIT.duct, panels_a_side)
    hub_x, hub_r = hub_contour(UNIT.hub, hub_panels)
    return axisymmetric(
        duct_x, duct_r, hub_x=hub_x, hub_r=hub_r, rotor_x=UNIT.blades.place_x, head_coefficients=loads
    )


FLOW = solve(40, 40)
