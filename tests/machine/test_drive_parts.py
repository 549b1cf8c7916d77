"""Gear, generators and battery line: closed forms, and power books that close by separate routes."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.drive_battery import Battery, battery_line
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator, EfficiencyCurve, efficiency_of_losses
from racewright.machine.drive_magnets import PermanentMagnet, magnets_behind_bridge
from racewright.machine.drive_rows import generator_of_rows
from racewright.machine.drive_table import GeneratorTable

MAGNETS = PermanentMagnet(4.0, 0.8, 40.0, 0.02, 2.0, 0.05, 0.001, 3.0)
TABLE = MAGNETS.table(np.linspace(2.0, 60.0, 30), np.linspace(0.0, 40.0, 21))


def test_gear_books_close_and_invert() -> None:
    """Torque 200 N m, 5 % and 4 N m lost, ratio 8: 23.25 N m at the generator; 14 N m x 3 rad/s lost."""
    gear = Gear(8.0, 0.05, 4.0, 12.0)
    rotor = np.array([200.0])
    brought = gear.generator_torque(rotor)
    assert brought[0] == pytest.approx(23.25, rel=1e-14)
    assert gear.rotor_torque(brought)[0] == pytest.approx(200.0, rel=1e-14)
    lost = gear.loss(rotor, np.array([3.0]))[0]
    assert lost == pytest.approx(42.0)
    assert brought[0] * 24.0 + lost == pytest.approx(600.0, rel=1e-14)


def test_a_gear_that_eats_everything_passes_nothing() -> None:
    gear = Gear(8.0, 0.05, 4.0)
    assert gear.generator_torque(np.array([3.0]))[0] == 0.0
    assert gear.loss(np.array([3.0]), np.array([2.0]))[0] == 6.0


def test_magnets_close_by_three_routes() -> None:
    """Shaft power from torque, electrical power from voltage, losses from resistance and iron."""
    speed, current = np.meshgrid(np.linspace(1.0, 60.0, 13), np.linspace(0.0, 40.0, 9))
    shaft = MAGNETS.torque(speed, current) * speed
    books = MAGNETS.voltage(speed, current) * current + MAGNETS.loss(speed, current)
    assert shaft == pytest.approx(books, rel=1e-13)


def test_magnets_from_torque_give_back_the_current() -> None:
    speed = np.full(7, 30.0)
    current = np.linspace(0.5, 39.0, 7)
    found = MAGNETS.output(MAGNETS.torque(speed, current), speed)
    assert found.answered.all()
    assert found.electrical_power == pytest.approx(MAGNETS.voltage(speed, current) * current, rel=1e-12)
    assert found.loss == pytest.approx(MAGNETS.loss(speed, current), rel=1e-12)


def test_magnets_beyond_current_and_below_idle() -> None:
    speed = np.array([30.0, 30.0])
    torque = np.array([0.5 * float(MAGNETS.idle_torque(np.array(30.0))), 1e4])
    found = MAGNETS.output(torque, speed)
    assert list(found.answered) == [True, False]
    assert found.electrical_power[0] == 0.0
    assert found.loss[0] == pytest.approx(torque[0] * 30.0)
    assert MAGNETS.current_limit == 40.0
    assert replace(MAGNETS, reactance=0.1).current_limit == pytest.approx(10.0)


def test_table_closes_at_its_nodes_and_nearly_between() -> None:
    """Torque, voltage and loss are interpolated apart, so the books between nodes tell the error (of a cube)."""
    assert TABLE.closure < 1e-12
    rng = np.random.default_rng(5)
    speed, torque = rng.uniform(3.0, 59.0, 400), rng.uniform(1.0, 120.0, 400)
    found, exact = TABLE.output(torque, speed), MAGNETS.output(torque, speed)
    same = found.answered & exact.answered
    assert same.sum() > 300
    shaft = torque * speed
    books = found.electrical_power + found.loss
    assert np.max(np.abs(books - shaft)[same]) < 1e-6 * np.max(shaft)
    assert np.max(np.abs(found.electrical_power - exact.electrical_power)[same]) < 1e-11 * np.max(shaft)


def test_table_books_close_better_on_a_finer_table() -> None:
    speed, torque = np.linspace(5.0, 55.0, 101), np.linspace(20.0, 100.0, 101)
    errors = []
    for n in (8, 15, 29):
        found = MAGNETS.table(np.linspace(2.0, 60.0, n), np.linspace(0.0, 40.0, n)).output(torque, speed)
        errors.append(np.max(np.abs(found.electrical_power + found.loss - torque * speed)))
    assert errors[0] > 7.0 * errors[1] > 49.0 * errors[2]


def test_battery_line_closed_form_without_reactance() -> None:
    """I = (k w - V - Vd)/(R + Rl) above w = (V + Vd)/k, no current below; torque = k I + iron."""
    plain = replace(MAGNETS, reactance=0.0)
    battery = Battery(48.0, 2.0, 0.2)
    speed = np.array([0.0, 12.4, 12.5, 20.0])
    line = battery_line(plain, battery, speed)
    assert line.current == pytest.approx([0.0, 0.0, 0.0, (80.0 - 50.0) / 1.0])
    assert line.torque == pytest.approx(4.0 * line.current + plain.idle_torque(speed))
    assert line.battery_power[-1] == pytest.approx(48.0 * 30.0)
    books = line.battery_power + line.generator_loss + line.line_loss
    assert line.torque * speed == pytest.approx(books, rel=1e-13)


def test_battery_line_of_the_table_is_that_of_its_circuit() -> None:
    battery = Battery(48.0, 2.0, 0.2)
    speed = np.linspace(0.0, 25.0, 101)
    a, b = battery_line(MAGNETS, battery, speed), battery_line(TABLE, battery, speed)
    both = a.answered & b.answered
    assert both.sum() > 80
    assert b.current[both] == pytest.approx(a.current[both], abs=1e-6)
    assert b.torque[speed >= 2.0] == pytest.approx(a.torque[speed >= 2.0], rel=1e-12)
    assert (b.battery_power + b.generator_loss + b.line_loss)[both] == pytest.approx(
        (b.torque * speed)[both], abs=1e-3
    )


def test_battery_current_beyond_the_generator_is_said() -> None:
    line = battery_line(MAGNETS, Battery(48.0), np.array([20.0, 60.0]))
    assert list(line.answered) == [True, False]
    assert list(battery_line(TABLE, Battery(48.0), np.array([20.0, 59.0, 61.0])).answered) == [True, False, False]


def test_rows_in_any_order_make_the_table() -> None:
    speed, current = np.meshgrid(TABLE.speed, TABLE.current, indexing="ij")
    mix = np.random.default_rng(3).permutation(speed.size)
    columns = [a.ravel()[mix] for a in (speed, current, TABLE.voltage, TABLE.loss)]
    found = generator_of_rows(*columns, TABLE.torque.ravel()[mix], cogging_torque=3.0)
    assert np.array_equal(found.torque, TABLE.torque)
    assert found.torque_measured
    reckoned = generator_of_rows(*columns)
    assert reckoned.torque == pytest.approx(TABLE.torque, rel=1e-12)
    assert not reckoned.torque_measured
    with pytest.raises(InputError, match="Every speed wants every current"):
        generator_of_rows(*(c[1:] for c in columns))
    twice = columns[1].copy()
    twice[(columns[0] == columns[0][0]) & (twice == 2.0)] = 4.0
    with pytest.raises(InputError, match="stands twice"):
        generator_of_rows(columns[0], twice, columns[2], columns[3])


def test_open_voltage_of_circuit_and_table() -> None:
    speed = np.array([10.0, 60.0, 90.0])
    assert MAGNETS.open_voltage(speed) == pytest.approx(4.0 * speed)
    assert TABLE.open_voltage(speed) == pytest.approx(4.0 * speed)


def test_bridge_formulas() -> None:
    """10 V s/rad line to line, 0.5 ohm, 3 mH, 12 pole pairs."""
    found = magnets_behind_bridge(10.0, 0.5, 30.0, phase_inductance=3e-3, pole_pairs=12)
    assert found.voltage_constant == pytest.approx(13.50474, rel=1e-6)
    assert found.resistance == 1.0
    assert found.reactance == pytest.approx(36.0 * 3e-3 / math.pi)


def test_efficiency_curve_passes_its_points_and_punishes_light_load() -> None:
    load = np.array([0.1, 0.25, 0.5, 1.0])
    curve = EfficiencyCurve(load, np.array([0.70, 0.82, 0.90, 0.92]), 1000.0)
    power = np.array([50.0, 100.0, 500.0, 1000.0, 1100.0])
    found = curve.output(power / 10.0, np.full(5, 10.0))
    assert found.electrical_power == pytest.approx([20.0, 70.0, 450.0, 920.0, 0.0])
    assert list(found.answered) == [True, True, True, True, False]
    assert (found.electrical_power + found.loss)[:4] == pytest.approx(power[:4])


def test_efficiency_over_speed_and_load() -> None:
    table = np.array([[0.5, 0.6], [0.7, 0.9]])
    curve = EfficiencyCurve(np.array([0.2, 1.0]), table, 1000.0, np.array([5.0, 25.0]))
    found = curve.output(np.array([200.0, 40.0, 66.66666666]), np.array([5.0, 25.0, 15.0]))
    assert found.electrical_power == pytest.approx([600.0, 900.0, 750.0])
    idle = curve.idle_torque(np.array([0.0, 5.0, 25.0]))
    assert idle == pytest.approx([20.0, 20.0, 0.3 * 200.0 / 25.0])


def test_constant_generator() -> None:
    found = ConstantGenerator(0.9).output(np.array([10.0]), np.array([20.0]))
    assert found.electrical_power[0] == pytest.approx(180.0)
    assert found.loss[0] == pytest.approx(20.0)


@pytest.mark.parametrize("x", [0.1, 0.3, 0.5, 1.0])
def test_efficiency_of_losses_peaks_where_no_load_equals_copper(x: float) -> None:
    best = float(efficiency_of_losses(np.array([0.5]), 0.01, 0.01, 0.04)[0])
    assert float(efficiency_of_losses(np.array([x]), 0.01, 0.01, 0.04)[0]) <= best


def test_bad_parts_are_refused() -> None:
    with pytest.raises(InputError, match="gear ratio"):
        Gear(0.5)
    with pytest.raises(InputError, match="efficiency"):
        ConstantGenerator(math.nan)
    with pytest.raises(InputError, match="above 0 and not above 1"):
        EfficiencyCurve(np.array([0.1, 1.0]), np.array([0.5, 1.2]), 1.0)
    with pytest.raises(InputError, match="grow with current"):
        replace(TABLE, torque=-TABLE.torque)
    with pytest.raises(InputError, match="does not close"):
        replace(TABLE, loss=TABLE.loss * 30.0)
    with pytest.raises(InputError, match="begin at 0"):
        replace(TABLE, current=TABLE.current + 1.0)
    with pytest.raises(InputError, match="voltage"):
        Battery(0.0)


def test_a_strongly_curved_table_is_inverted() -> None:
    """Torque = w-independent I + I^7, loss so that the books close: current back to the table's own smoothness."""
    current = np.linspace(0.0, 2.0, 41)
    speed = np.array([10.0, 20.0])
    torque = np.tile(current + current**7, (2, 1))
    voltage = speed[:, None] * np.ones_like(current)
    table = GeneratorTable(speed, current, torque, voltage, torque * speed[:, None] - voltage * current)
    at = np.array([0.2, 1.0, 1.9])
    found = table.output(at + at**7, np.full(3, 10.0))
    assert found.electrical_power == pytest.approx(10.0 * at, rel=1e-6)
