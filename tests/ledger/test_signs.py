"""Signs written down before the run: which way each answer moves when one thing moves."""

from __future__ import annotations

import math

from racewright.ledger.findings import Findings, MachineFindings
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint
from racewright.supply.result import Comparison, YearlyEnergy
from tests.ledger.common import findings_with

BIGGER = (
    ('throat_diameter = "1 m"', 'throat_diameter = "1.05 m"'),
    ('length = "1 m"', 'length = "1.05 m"'),
    ('diameter = "0.26 m"', 'diameter = "0.273 m"'),
)


def machine(findings: Findings) -> MachineFindings:
    assert findings.machine is not None
    return findings.machine


def energy(findings: Findings) -> YearlyEnergy:
    assert findings.energy is not None
    return findings.energy


def costs(findings: Findings) -> Comparison:
    assert findings.community is not None
    return findings.community.comparison


def point_of(of: MachineFindings, stream_speed: float, rotor_speed: float) -> OperatingPoint:
    return operating_point(of.unit, of.vanes, of.blades, of.flow, of.water, stream_speed, rotor_speed)


def test_faster_water_gives_more_power_and_energy_at_lower_cost() -> None:
    base = findings_with()
    fast = findings_with(("speed_factor = 1.3 ", "speed_factor = 1.7 "))
    slow = findings_with(("speed_factor = 1.3 ", "speed_factor = 1.2 "))
    one = machine(base)
    design = one.design_point
    faster = point_of(one, 1.1 * design.stream_speed, 1.1 * design.rotor_speed)
    assert faster.shaft_power > 1.25 * design.shaft_power
    assert energy(fast).total.value > energy(slow).total.value
    assert costs(fast).machine_cost.value < costs(slow).machine_cost.value


def test_a_larger_machine_gives_more_power_and_energy_at_lower_cost() -> None:
    base, bigger = findings_with(), findings_with(*BIGGER)
    assert machine(bigger).design_point.shaft_power > machine(base).design_point.shaft_power
    assert energy(bigger).total.value > energy(base).total.value
    assert costs(bigger).machine_cost.value < costs(base).machine_cost.value


def test_a_wider_exit_gives_more_power() -> None:
    at = (("head_coefficient = 0.6 ", "head_coefficient = 0.5 "),)
    narrow = findings_with(("exit_area_ratio = 1.5 ", "exit_area_ratio = 1.3 "), *at)
    wide = findings_with(*at)
    assert machine(wide).design_point.shaft_power > machine(narrow).design_point.shaft_power


def test_a_wider_clearance_costs_power() -> None:
    tight = findings_with(('clearance = "0.8 %"', 'clearance = "1 %"'))
    loose = findings_with(('clearance = "0.8 %"', 'clearance = "3 %"'))
    assert machine(loose).design_point.shaft_power < machine(tight).design_point.shaft_power


def test_turned_vanes_raise_head_and_torque_and_leave_swirl() -> None:
    """Vanes turned by +2 degrees; blades and rotor speed as they were."""
    base = machine(findings_with())
    turned = machine(findings_with(('turned = "0 deg"           #', 'turned = "2 deg"           #')))
    design = base.design_point
    same_rotor = operating_point(
        base.unit, turned.vanes, base.blades, base.flow, base.water, design.stream_speed, design.rotor_speed
    )
    assert same_rotor.head_coefficient > design.head_coefficient
    assert same_rotor.torque > design.torque
    assert abs(same_rotor.roll_moment) > 0.02 * design.torque
    assert abs(design.roll_moment) < 0.05 * design.torque
    assert math.isfinite(same_rotor.thrust)


def test_fuel_price_moves_only_diesel_and_saving() -> None:
    base, dear = findings_with(), findings_with(('fuel_price = "1.30 EUR/L"', 'fuel_price = "1.80 EUR/L"'))
    assert costs(dear).machine == costs(base).machine
    assert costs(dear).machine_cost == costs(base).machine_cost
    assert costs(dear).used_energy == costs(base).used_energy
    assert costs(dear).diesel.cost > costs(base).diesel.cost
    assert costs(dear).saving_set_on.value > costs(base).saving_set_on.value
    assert costs(dear).saving_set_off.value > costs(base).saving_set_off.value
    assert energy(dear).total == energy(base).total
