"""Signs written down before the run: which way each answer moves when one thing moves."""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, cast

from racewright.ledger.classes import CLASSES
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.machine.unit import Unit
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint
from racewright.supply.result import Comparison, YearlyEnergy
from tests.ledger.common import load_changed

BIGGER = (
    ('throat_diameter = "1 m"', 'throat_diameter = "1.05 m"'),
    ('length = "1 m"', 'length = "1.05 m"'),
    ('diameter = "0.26 m"', 'diameter = "0.273 m"'),
)


class Few:
    """Of a changed example only what a test asks for; a whole report takes five times as long."""

    def __init__(self, *changes: tuple[str, str]) -> None:
        self._folder = TemporaryDirectory(prefix="racewright-test-")
        self._loaded = load_changed(Path(self._folder.name), *changes)

    @property
    def unit(self) -> Unit:
        roles = roles_of(self._loaded.scheme, *case_of(self._loaded, None))
        return unit_of({path: roles.plain(path) for path in (*UNIT_KEYS, "machine.drive")})

    @property
    def design_point(self) -> OperatingPoint:
        return cast(OperatingPoint, self.value("design_point"))

    @property
    def energy(self) -> YearlyEnergy:
        return cast(YearlyEnergy, self.value("energy"))

    @property
    def costs(self) -> Comparison:
        return cast(Comparison, self.value("comparison"))

    def value(self, node: str) -> Any:
        """Of a node; what it needs is computed once in a run of the suite."""
        name, case = case_of(self._loaded, None)
        return evaluate(self._loaded, name, case, wanted=(node,), store=Store(cache_folder(), CLASSES))[node]


few = lru_cache(maxsize=16)(Few)


def point_of(of: Few, stream_speed: float, rotor_speed: float) -> OperatingPoint:
    vanes, blades = of.value("rows")
    return operating_point(of.unit, vanes, blades, of.value("flow"), of.value("water"), stream_speed, rotor_speed)


def test_faster_water_gives_more_power_and_energy_at_lower_cost() -> None:
    base = few()
    fast = few(("speed_factor = 1.3 ", "speed_factor = 1.7 "))
    slow = few(("speed_factor = 1.3 ", "speed_factor = 1.2 "))
    one = base
    design = one.design_point
    faster = point_of(one, 1.1 * design.stream_speed, 1.1 * design.rotor_speed)
    assert faster.shaft_power > 1.25 * design.shaft_power
    assert fast.energy.total.value > slow.energy.total.value
    assert fast.costs.machine_cost.value < slow.costs.machine_cost.value


def test_a_larger_machine_gives_more_power_and_energy_at_lower_cost() -> None:
    base, bigger = few(), few(*BIGGER)
    assert bigger.design_point.shaft_power > base.design_point.shaft_power
    assert bigger.energy.total.value > base.energy.total.value
    assert bigger.costs.machine_cost.value < base.costs.machine_cost.value


def test_a_wider_exit_gives_more_power() -> None:
    at = (("head_coefficient = 0.6 ", "head_coefficient = 0.5 "),)
    narrow = few(("exit_area_ratio = 1.5 ", "exit_area_ratio = 1.3 "), *at)
    wide = few(*at)
    assert wide.design_point.shaft_power > narrow.design_point.shaft_power


def test_a_wider_clearance_costs_power() -> None:
    tight = few(('clearance = "0.8 %"', 'clearance = "1 %"'))
    loose = few(('clearance = "0.8 %"', 'clearance = "3 %"'))
    assert loose.design_point.shaft_power < tight.design_point.shaft_power


def test_turned_vanes_raise_head_and_torque_and_leave_swirl() -> None:
    """Vanes turned by +2 degrees; blades and rotor speed as they were."""
    base = few()
    turned = few(('turned = "0 deg"           #', 'turned = "2 deg"           #'))
    design = base.design_point
    vanes, blades = turned.value("rows")[0], base.value("rows")[1]
    flow, water = base.value("flow"), base.value("water")
    same_rotor = operating_point(base.unit, vanes, blades, flow, water, design.stream_speed, design.rotor_speed)
    assert same_rotor.head_coefficient > design.head_coefficient
    assert same_rotor.torque > design.torque
    assert abs(same_rotor.roll_moment) > 0.02 * design.torque
    assert abs(design.roll_moment) < 0.05 * design.torque
    assert math.isfinite(same_rotor.thrust)


def test_fuel_price_moves_only_diesel_and_saving() -> None:
    base, dear = few(), few(('fuel_price = "1.30 EUR/L"', 'fuel_price = "1.80 EUR/L"'))
    assert dear.costs.machine == base.costs.machine
    assert dear.costs.machine_cost == base.costs.machine_cost
    assert dear.costs.used_energy == base.costs.used_energy
    assert dear.costs.diesel.cost > base.costs.diesel.cost
    assert dear.costs.saving_set_on.value > base.costs.saving_set_on.value
    assert dear.costs.saving_set_off.value > base.costs.saving_set_off.value
    assert dear.energy.total == base.energy.total
