"""The shaft's motion and the laws of control against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.machine.drive_brake import Brake
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator
from racewright.stage.control import control_curve
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import torque_law
from racewright.stage.drive_transient import brake_stop, loss_of_load
from tests.external.record import Record
from tests.stage.rotors import straight_rotor

ROTOR = straight_rotor()


@pytest.mark.outside(
    source="J dw/dt = T0 (1 - w/wr): w = wr - (wr - w0) exp(-t/tau), tau = J wr/T0",
    status="closed form",
    tolerance="1e-9",
)
@pytest.mark.parametrize("ratio", [1.1, 1.5, 1.95])
def test_loss_of_load(ratio: float, record_property: Record) -> None:
    """T0 = 400 N m, wr = 16 rad/s, J = 25 kg m2, from 8 rad/s: tau = 1 s."""
    found = loss_of_load(ROTOR, 2.0, 8.0, 25.0, overspeed_ratio=ratio)
    assert found.time_to_overspeed is not None
    exact = math.log(8.0 / (16.0 - 8.0 * ratio))
    record_property("measured", f"{abs(found.time_to_overspeed / exact - 1.0):.0e}")
    assert found.time_to_overspeed == pytest.approx(exact, rel=1e-9)


@pytest.mark.outside(
    source="kinetic energy + work of the water = heat of the brake, constant torques",
    status="closed form",
    tolerance="1e-9",
)
def test_brake_heat(record_property: Record) -> None:
    """600 N m against 400 (1 - w/16) from 12 rad/s: angle 12 - 8 ln 2.5, heat = 600 x angle."""
    found = brake_stop(ROTOR, 2.0, 12.0, 25.0, Brake(600.0, 50000.0))
    heat = 600.0 * (12.0 - 8.0 * math.log(2.5))
    assert found.energy is not None
    record_property("measured", f"{abs(found.energy / heat - 1.0):.0e}")
    assert found.energy == pytest.approx(heat, rel=1e-9)


@pytest.mark.outside(
    source="torque falling straight to runaway: rated power at x = xr/2 (1 -+ sqrt(1 - P/Pmax))",
    status="closed form",
    tolerance="1e-8",
)
@pytest.mark.parametrize(("how", "sign"), [("slow", -1.0), ("speed up", 1.0)])
def test_holding_rated_power(how, sign, record_property: Record) -> None:  # type: ignore[no-untyped-def]
    """Pmax = 200 U^3 at x = 2; rated power is that of 1.6 m/s."""
    speeds = np.array([1.7, 2.4, 3.2, 4.0])
    chain = DriveChain(Gear(), ConstantGenerator(1.0))
    rated = 200.0 * 1.6**3
    curve = control_curve(ROTOR, chain, torque_law(ROTOR, 2.0, 1.0), speeds, how=how, limits=Limits(rated))
    exact = 2.0 * (1.0 + sign * np.sqrt(1.0 - (1.6 / speeds) ** 3))
    record_property("measured", f"{np.max(np.abs(curve.tip_speed_ratio / exact - 1.0)):.0e}")
    assert curve.status == ("held",) * 4
    assert curve.tip_speed_ratio == pytest.approx(exact, rel=1e-8)
