"""The drive on a map of the stage itself: an invented machine and flow law, points by `operating_point`'s solver."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import NoAnswerError
from racewright.machine.drive_chain import plain_chain
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import torque_law
from racewright.stage.control_summary import control_summary
from racewright.stage.design import design_rows
from racewright.stage.drive_start import start_up
from racewright.stage.operating_point import operating_point
from racewright.stage.rotor_map import RotorMap, rotor_loads
from tests.stage.machines import DRIVE, FRESH, flow, unit

UNIT, FLOW = unit(), flow()
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
RADIUS = float(BLADES.radius[-1])
AREA = np.pi * (RADIUS**2 - float(BLADES.radius[0]) ** 2)
NAMES = ("torque", "thrust", "roll_moment", "flow_rate")


def stage_map() -> RotorMap:
    """Four stream speeds, steps of 1/8 in tip-speed ratio; braking and clogging stay unanswered."""
    speed, ratio = np.array([0.5, 1.25, 2.5, 4.5]), np.linspace(0.0, 4.0, 33)
    shape = (speed.size, ratio.size)
    values, answered = {name: np.zeros(shape) for name in NAMES}, np.zeros(shape, dtype=bool)
    for i, u in enumerate(speed):
        for j, x in enumerate(ratio):
            try:
                point = operating_point(UNIT, VANES, BLADES, FLOW, FRESH, float(u), float(x * u / RADIUS))
            except NoAnswerError:
                continue
            answered[i, j] = True
            for name, column in values.items():
                column[i, j] = getattr(point, name)
    return RotorMap(
        speed,
        ratio,
        RADIUS,
        values["torque"],
        values["thrust"],
        values["roll_moment"],
        values["flow_rate"],
        AREA,
        answered,
    )


@pytest.fixture(scope="module")
def rotor() -> RotorMap:
    return stage_map()


def test_between_the_nodes_the_map_is_the_stage(rotor: RotorMap) -> None:
    """Worst of 12 points between nodes, over the largest torque, thrust and roll moment at that stream speed."""
    worst = dict.fromkeys(NAMES, 0.0)
    for u in (0.8, 1.8, 3.5):
        for x in (0.6875, 1.5625, 1.9375, 2.9375):
            turning = x * u / RADIUS
            point, loads = (
                operating_point(UNIT, VANES, BLADES, FLOW, FRESH, u, turning),
                rotor_loads(rotor, u, turning),
            )
            for name in NAMES:
                scale = np.max(np.abs(getattr(rotor, name)[-1])) * (u / 4.5) ** (1 if name == "flow_rate" else 2)
                worst[name] = max(worst[name], abs(getattr(loads, name)[0] - getattr(point, name)) / scale)
    assert max(worst.values()) < 2e-3, worst


def test_the_ways_of_holding_on_the_stage(rotor: RotorMap) -> None:
    """The machine stalls below a ratio of about 1, so slowing fails and speeding up holds; its roll moment is the
    price."""
    law = torque_law(rotor, UNIT.design.tip_speed_ratio, 2.5)
    speeds = np.arange(0.6, 4.05, 0.2)
    limits = Limits(DRIVE.rated_power)
    found = control_summary(rotor, plain_chain(DRIVE), law, speeds, limits=limits, cut_in_speed=DRIVE.cut_in_speed)
    slow, fast, dump = found.ways
    assert found.rated_speed is not None
    assert 2.4 < found.rated_speed < 3.2
    assert "stall" in slow.reason
    assert found.recommended == "speed up"
    assert fast.curve.electrical_power[-1] == pytest.approx(DRIVE.rated_power, rel=1e-6)
    assert fast.roll_moment > 2.5 * fast.torque
    assert fast.strike_speed > 1.3 * dump.strike_speed
    on_law = [s == "on law" for s in dump.curve.status]
    assert dump.curve.tip_speed_ratio[on_law] == pytest.approx(2.0, abs=0.02)


def test_the_stage_starts_without_breakaway(rotor: RotorMap) -> None:
    assert start_up(rotor, plain_chain(DRIVE)).starting_speed == 0.5
