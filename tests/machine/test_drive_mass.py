"""Mass and cost of torque; brake, dump load, chain, cautions."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.drive import Drive
from racewright.machine.drive_battery import Battery, battery_line
from racewright.machine.drive_brake import Brake, DumpLoad
from racewright.machine.drive_cautions import electrical_remarks
from racewright.machine.drive_chain import DriveChain, plain_chain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.machine.drive_mass import MassLine, direct_drive_mass, geared_mass, mass_line

LINE = MassLine(np.array([10.0, 1000.0]), np.array([1.0, 0.1]), np.array([4.0, 0.4]), 5.0, 20.0, "XTS", "invented")


def test_mass_between_rows_is_log_log() -> None:
    """Specific mass falls as torque^-1/2: at 100 N m 0.316 to 1.265 kg/(N m)."""
    mass = LINE.mass(100.0)
    assert mass.low == pytest.approx(100.0 / math.sqrt(10.0))
    assert mass.high == pytest.approx(4.0 * mass.low)
    assert mass.value == pytest.approx(2.0 * mass.low)
    cost = LINE.cost(mass)
    assert (cost.low, cost.high) == (pytest.approx(5.0 * mass.low), pytest.approx(20.0 * mass.high))


def test_geared_mass_is_the_sum_of_both() -> None:
    both = geared_mass(1000.0, 10.0, gear=LINE, generator=LINE)
    assert both.mass.low == pytest.approx(LINE.mass(1000.0).low + LINE.mass(100.0).low)
    assert both.currency == "XTS"
    with pytest.raises(InputError, match="wanted is one"):
        geared_mass(1000.0, 10.0, gear=LINE)


@pytest.mark.parametrize("name", ["direct_drive", "gear", "fast_generator"])
def test_packaged_lines_grow_in_mass_and_say_where_they_come_from(name: str) -> None:
    line = mass_line(name)
    masses = [line.mass(float(t)) for t in line.torque]
    assert all(b.low > a.low and b.high > a.high for a, b in pairwise(masses))
    assert masses[0].basis.startswith("from memory")


def test_the_gear_saves_mass_at_high_torque_in_the_packaged_figures() -> None:
    assert geared_mass(2000.0, 20.0).mass.value < direct_drive_mass(2000.0).mass.value


def test_torque_outside_the_line_and_bad_lines_are_refused() -> None:
    with pytest.raises(InputError, match="between 1 and"):
        direct_drive_mass(0.5)
    with pytest.raises(InputError, match="low not above high"):
        MassLine(np.array([1.0, 2.0]), np.array([2.0, 2.0]), np.array([1.0, 1.0]), 1.0, 1.0, "EUR", "invented")
    with pytest.raises(InputError, match="No mass line"):
        mass_line("belt")


def test_chain_books_close() -> None:
    """Rotor power = terminals + gear + generator + converter losses."""
    chain = DriveChain(Gear(4.0, 0.03, 5.0, 9.0), PermanentMagnet(4.0, 0.8, 40.0, 0.02, 2.0, 0.05), 0.95, 30.0, 0.5)
    torque, speed = np.array([60.0, 180.0, 320.0]), np.array([3.0, 5.0, 8.0])
    found = chain.output(torque, speed)
    assert found.answered.all()
    books = found.electrical_power + found.gear_loss + found.generator_loss + found.converter_loss
    assert books == pytest.approx(torque * speed, rel=1e-12)
    assert chain.inertia == 38.0
    with pytest.raises(InputError, match="inertia"):
        _ = DriveChain(Gear(), ConstantGenerator(0.9)).inertia
    with pytest.raises(InputError, match="finite"):
        chain.output(np.array([math.nan]), np.array([1.0]))
    with pytest.raises(InputError, match="none below 0"):
        battery_line(PermanentMagnet(4.0, 0.8, 40.0), Battery(24.0), np.array([-1.0]))
    assert chain.breakaway_torque == 9.0
    assert chain.idle_torque(np.array([2.0]))[0] == pytest.approx((4.0 * (2.0 + 0.05 * 8.0) + 5.0) / 0.97)


def test_plain_chain_is_the_product_of_the_efficiencies() -> None:
    found = plain_chain(Drive(0.96, 0.88, 0.8, 5000.0)).output(np.array([100.0, -5.0]), np.array([10.0, 10.0]))
    assert found.electrical_power == pytest.approx([1000.0 * 0.96 * 0.88, 0.0])


def test_brake_and_dump_load() -> None:
    assert Brake(500.0, 300000.0).heat == 300000.0
    dump = DumpLoad(1000.0, 60.0)
    assert dump.bears(1000.0, 60.0)
    assert dump.bears(0.0, 1e6)
    assert not dump.bears(1001.0, 1.0)
    assert not dump.bears(10.0, 61.0)
    with pytest.raises(InputError, match="torque"):
        Brake(math.nan, 1.0)


def test_cautions_follow_what_is_there() -> None:
    bare = electrical_remarks()
    assert [r.about for r in bare] == ["brake"]
    all_of_it = electrical_remarks(
        open_voltage=400.0, battery_voltage=48.0, magnets=True, brake=True, dump_load=True, on_a_network=True
    )
    assert [r.about for r in all_of_it] == [
        "live while turning",
        "voltage at runaway",
        "battery",
        "islanding",
        "brake",
        "dump load",
    ]
    assert "400 V" in all_of_it[1].text
    assert all("licensed electrician" in r.text for r in all_of_it if r.about != "brake")
    assert electrical_remarks(open_voltage=60.0)[0].severity == "caution"
