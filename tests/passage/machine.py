"""An invented river machine, solved coarsely once for the tests of this room."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.passage.crossing import RowCrossing, row_crossings
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint
from racewright.water import Water

FRESH = Water("fresh", 283.15, 999.7, 1.307e-6, 1228.0)
UNIT = Unit(
    Duct(0.5, 1.5, 1.0, 0.14),
    Hub(0.13, -0.15, 0.2, 0.45, 0.4),
    RowIntent(7, 0.14, 0.16, 0.20, 0.12),
    RowIntent(5, 0.36, 0.15, 0.18, 0.12, 0.008),
    DesignIntent(2.4, 0.6, 2.2),
)
DEPTH = 1.6


@dataclass(frozen=True)
class Machine:
    """Everything about it at its design point."""

    flow: Axisymmetric
    vanes: Row
    blades: Row
    point: OperatingPoint
    rows: tuple[RowCrossing, RowCrossing]


@cache
def machine() -> Machine:
    """Solved, designed and at its design point."""
    duct_x, duct_r = duct_contour(UNIT.duct, 24)
    hub_x, hub_r = hub_contour(UNIT.hub, 24)
    flow = axisymmetric(
        duct_x,
        duct_r,
        hub_x=hub_x,
        hub_r=hub_r,
        rotor_x=UNIT.blades.place_x,
        head_coefficients=(0.0, 0.3, 0.5, 0.6, 0.7, 0.9),
        wake_panels=50,
    )
    vanes, blades = design_rows(UNIT, flow, FRESH)
    turning = UNIT.design.tip_speed_ratio * UNIT.design.stream_speed / float(blades.radius[-1])
    point = operating_point(UNIT, vanes, blades, flow, FRESH, UNIT.design.stream_speed, turning)
    return Machine(flow, vanes, blades, point, row_crossings(UNIT, vanes, blades, point))
