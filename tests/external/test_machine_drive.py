"""Drive parts against closed forms and the bridge's own waveform."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.machine.drive_battery import Battery, battery_line
from racewright.machine.drive_generator import efficiency_of_losses
from racewright.machine.drive_magnets import BRIDGE_VOLTAGE, PermanentMagnet, magnets_behind_bridge
from tests.external.record import Record


@pytest.mark.outside(
    source="mean of an ideal three-phase diode bridge, 3 sqrt(2)/pi, also by quadrature of its waveform",
    status="closed form",
    tolerance="1e-6",
)
def test_bridge_voltage(record_property: Record) -> None:
    """One sixth of a turn of sqrt(2) cos about its crest."""
    angle, weight = np.polynomial.legendre.leggauss(20)
    mean = float(np.sum(weight * math.sqrt(2.0) * np.cos(angle * math.pi / 6.0)) / 2.0)
    record_property(
        "measured", f"{abs(BRIDGE_VOLTAGE - 1.350474):.0e}, by quadrature {abs(BRIDGE_VOLTAGE - mean):.0e}"
    )
    assert pytest.approx(1.350474, abs=1e-6) == BRIDGE_VOLTAGE
    assert mean == pytest.approx(BRIDGE_VOLTAGE, rel=1e-13)


@pytest.mark.outside(
    source="bridge waveform with overlap, marched in angle from the inductances' own equation",
    status="computed",
    tolerance="1e-5",
)
@pytest.mark.parametrize("current", [5.0, 12.0, 20.0])
def test_overlap_drop(current: float, record_property: Record) -> None:
    """Phase inductance 2 mH, 10 pole pairs, 12 rad/s, line voltage 60 V rms, smooth direct current.

    While two phases share the current each sees half their line voltage across its inductance; the outgoing phase
    is free when the incoming one carries all. The mean bridge voltage over a sixth of a turn is then 3 w L/pi x I
    below the open one. Up to 20 A overlap stays below 60 degrees.
    """
    pairs, inductance, speed, line = 10, 2e-3, 12.0, 60.0
    pulse = pairs * speed
    crest = math.sqrt(2.0) * line
    step = 1e-6
    angle = np.arange(0.5 * step, math.pi / 3.0, step)
    taken = np.cumsum(crest * np.sin(angle) / (2.0 * pulse * inductance)) * step
    sharing = taken < current
    # phases a -> b above, c below; angle 0 where a and b cross; line voltage b-c is crest cos(angle - pi/6)
    after = crest * np.cos(angle - math.pi / 6.0)
    during = after - 0.5 * crest * np.sin(angle)
    mean = float(np.mean(np.where(sharing, during, after)))
    circuit = magnets_behind_bridge(line / speed, 0.0, 100.0, phase_inductance=inductance, pole_pairs=pairs)
    found = float(circuit.voltage(np.array(speed), np.array(current)))
    assert sharing.mean() < 1.0
    record_property("measured", f"{abs(found / mean - 1.0):.0e}")
    assert found == pytest.approx(mean, rel=1e-5)


@pytest.mark.outside(
    source="loss form x/(x + l0 + l1 x + l2 x^2) with 0.01, 0.01, 0.04; greatest at sqrt(l0/l2)",
    status="closed form",
    tolerance="1e-6",
)
@pytest.mark.parametrize(("load", "efficiency"), [(0.1, 0.897666), (0.3, 0.947568), (0.5, 0.952381), (1.0, 0.943396)])
def test_part_load(load: float, efficiency: float) -> None:
    assert float(efficiency_of_losses(np.array([load]), 0.01, 0.01, 0.04)[0]) == pytest.approx(efficiency, abs=1e-6)
    assert float(efficiency_of_losses(np.array([load]), 0.01, 0.01, 0.04)[0]) <= 0.952381


@pytest.mark.outside(
    source="greatest power into a fixed voltage through a resistance: none below E = V; at E = 2 V half is lost",
    status="closed form",
    tolerance="1e-12",
)
def test_battery_takes_half_at_twice_the_voltage() -> None:
    """Without iron loss and diodes: efficiency is V/E, so one half where the open voltage is twice the battery's."""
    line = battery_line(PermanentMagnet(2.0, 1.0, 1e3), Battery(24.0, 0.0), np.array([12.0, 24.0, 48.0]))
    assert line.current == pytest.approx([0.0, 24.0, 72.0], rel=1e-12)
    assert line.battery_power[1:] / (line.torque * line.speed)[1:] == pytest.approx([0.5, 0.25], rel=1e-12)
