"""Power along the drive closes, each part by its own route."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.machine.drive_battery import Battery
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.stage.control import control_curve
from racewright.stage.control_books import drive_books
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import BatteryLaw, torque_law
from tests.stage.rotors import straight_rotor

ROTOR = straight_rotor()
MAGNETS = PermanentMagnet(4.0, 0.3, 120.0, 0.002, 1.0, 0.02, 0.0005, 2.0)
SPEEDS = np.array([0.0, 0.3, 0.7, 1.3, 1.9, 2.5])


@pytest.mark.parametrize("how", ["slow", "speed up", "dump"])
def test_torque_law_closes(how) -> None:  # type: ignore[no-untyped-def]
    chain = DriveChain(Gear(5.0, 0.03, 3.0, 5.0), MAGNETS, 0.94)
    law = torque_law(ROTOR, 2.0, 1.5)
    curve = control_curve(ROTOR, chain, law, SPEEDS, how=how, limits=Limits(700.0), cut_in_speed=0.5)
    books = drive_books(curve, chain, law)
    assert list(books.answered) == [False, False, True, True, True, True]
    assert np.max(np.abs(books.missing)) < 1e-6 * np.max(books.shaft_power)
    assert np.all(books.gear_loss[2:] > 0.0)
    assert np.all(books.line_loss[2:] > 0.0)
    assert (books.dumped_power > 0.0).any() == (how == "dump")


def test_battery_closes() -> None:
    chain = DriveChain(Gear(5.0, 0.03, 3.0, 5.0), MAGNETS)
    law = BatteryLaw(Battery(48.0, 2.0, 0.05), MAGNETS)
    curve = control_curve(ROTOR, chain, law, SPEEDS[2:], how="dump", limits=Limits(700.0))
    books = drive_books(curve, chain, law)
    assert books.answered.all()
    assert np.max(np.abs(books.missing)) < 1e-9 * np.max(books.shaft_power)
    assert books.line_loss[-1] > 0.0


def test_a_table_closes_up_to_its_interpolation() -> None:
    """40 speeds x 25 currents: missing power 4e-7 of the largest shaft power, from the windage cube."""
    table = MAGNETS.table(np.linspace(1.0, 80.0, 40), np.linspace(0.0, 120.0, 25))
    chain = DriveChain(Gear(5.0, 0.03, 3.0, 5.0), table, 0.94)
    law = torque_law(ROTOR, 2.0, 1.5)
    curve = control_curve(ROTOR, chain, law, SPEEDS[2:], how="slow", limits=Limits(700.0))
    books = drive_books(curve, chain, law)
    assert books.answered.all()
    assert np.max(np.abs(books.missing)) < 2e-6 * np.max(books.shaft_power)
