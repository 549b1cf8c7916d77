"""The hourly year against a constructed day, and what a cable loses against closed forms."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.supply import dispatch
from racewright.supply.cable import Cable, cable_from_sender, cable_to_taker
from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import DispatchRules, Powerhouse
from tests.external.record import Record
from tests.external.supply_rows import rows

KWH = 3.6e6
ONE = DieselSet(20e3, 0.246e-3 / KWH, 0.08145e-3 / KWH, 1400.0, 0.0, "USD")
HOUSE = Powerhouse((ONE,), None, 20e3)
COPPER = Cable(300.0, 16e-6, 230.0, "single phase")


@pytest.mark.outside(
    source="constructed day of a village, 20 kW set with a floor of 6 kW, 5 kW of turbine: L, kWh dumped, "
    "hours of the set",
    status="closed form",
    tolerance="1e-6 L",
)
@pytest.mark.parametrize(
    ("column", "turbine", "keep_one_on", "fuel", "dumped", "hours"),
    [
        ("diesel_only_kW", 0.0, True, 89.034, 10.0, 24),
        ("diesel_always_on_with_5kW", 5e3, True, 77.472, 83.0, 24),
        ("diesel_off_allowed_with_5kW", 5e3, False, 58.842, 47.0, 18),
    ],
)
def test_a_day_of_a_village_hour_by_hour(
    record_property: Record, column: str, turbine: float, keep_one_on: bool, fuel: float, dumped: float, hours: int
) -> None:
    """The day, and the same day 365 times."""
    table = rows("supply_day")
    load = np.array([float(row["load_kW"]) * 1e3 for row in table])
    rules = DispatchRules(keep_one_on)
    day = dispatch(load, np.full(24, turbine), HOUSE, rules)
    assert day.series is not None
    record_property(
        "measured", f"{abs(1e3 * day.fuel - fuel):.0e} L, {abs(day.dumped_energy / KWH - dumped):.0e} kWh"
    )
    assert day.series.sets == pytest.approx([float(row[column]) * 1e3 for row in table])
    assert 1e3 * day.fuel == pytest.approx(fuel, abs=1e-6)
    assert day.dumped_energy / KWH == pytest.approx(dumped, abs=1e-9)
    assert day.sets[0].running_time == hours * 3600.0
    year = dispatch(np.tile(load, 365), np.full(8760, turbine), HOUSE, rules)
    assert 1e3 * year.fuel == pytest.approx(365.0 * fuel, abs=1e-3)


@pytest.mark.outside(
    source="annealed copper 0.01724138 ohm mm2/m and 0.00393/K (IEC 60028, from memory): 16 mm2 has "
    "1.0775862 ohm/km at 20 degC and 1.28933 at 70 degC",
    status="closed form",
    tolerance="1e-5 ohm",
)
def test_resistance_of_copper() -> None:
    line = replace(COPPER, length=1000.0)
    assert line.resistance == pytest.approx(1.0775862, abs=1e-5)
    assert replace(line, temperature=343.15).resistance == pytest.approx(1.28933, abs=1e-5)


@pytest.mark.outside(
    source="5 kW over 300 m of 16 mm2: 230 V one phase sent, 14.0555 V or 6.1111 %; 400 V three phases, "
    "4.04095 V, 50.5119 W",
    status="closed form",
    tolerance="1e-5 relative",
)
def test_drop_at_the_senders_voltage(record_property: Record) -> None:
    one = cable_from_sender(COPPER, [5e3])
    record_property("measured", f"{abs(230.0 * one.drop[0] - 14.0555):.0e} V")
    assert 230.0 * one.drop[0] == pytest.approx(14.0555, rel=1e-5)
    assert 100.0 * one.drop[0] == pytest.approx(6.1111, rel=1e-5)
    three = cable_from_sender(replace(COPPER, voltage=400.0, kind="three phase"), [5e3])
    assert 400.0 * three.drop[0] == pytest.approx(4.04095, rel=1e-5)
    assert 100.0 * three.drop[0] == pytest.approx(1.010237, rel=1e-5)
    assert three.loss[0] == pytest.approx(50.5119, rel=1e-5)


@pytest.mark.outside(
    source="5 kW at the load, 230 V sent: V = (Vs + sqrt(Vs^2 - 4 R P))/2 = 214.9612 V, 349.803 W lost",
    status="closed form",
    tolerance="1e-5 relative",
)
def test_drop_for_a_power_at_the_far_end(record_property: Record) -> None:
    found = cable_to_taker(COPPER, [5e3])
    record_property("measured", f"{abs(found.voltage[0] - 214.9612):.0e} V, {abs(found.loss[0] - 349.803):.0e} W")
    assert found.voltage[0] == pytest.approx(214.9612, rel=1e-5)
    assert found.loss[0] == pytest.approx(349.803, rel=1e-5)
