"""The same model at several blockages, taken to none, against theory where the answer is known."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from racewright.trials import blockage_record
from racewright.trials.closed_channel import ChannelFlow, closed_at
from racewright.trials.unbounded_record import BEND, BEND_LOAD, RecordReading
from tests.external.record import Record


def resisting(resistance: float, b: float) -> tuple[float, float]:
    """(CP, CT) of a disc of fixed resistance CT/u^2 in a closed channel: a rotor held at one tip-speed ratio."""

    def flow(a: float) -> ChannelFlow:
        return closed_at(a, b)

    a = brentq(lambda one: flow(one).load - resistance * flow(one).disc_speed ** 2, 1e-6, 1.0 - 1e-12, xtol=1e-14)
    one = flow(a)
    return one.load * one.disc_speed, one.load


def taken(resistance: float, blockages: tuple[float, ...], u: float | None = 0.004, shared: float = 0.0):
    readings = [RecordReading(b, *resisting(resistance, b), 4.0, u, u) for b in blockages]
    return readings, blockage_record(readings, shared=shared)


@pytest.mark.outside(
    source="disc of fixed resistance in closed channels (Garrett and Cummins 2007), B 0.02 to 0.1, CT to 0.9",
    status="closed form",
    tolerance="the line leaves 0 to 15 % of the least blocked reading's correction, as its uncertainty says",
)
def test_line_over_drag_weighted_blockage(record_property: Record) -> None:
    left = []
    for resistance in (0.3, 0.6, 0.9, 1.2, 1.4):
        exact = resisting(resistance, 1e-9)
        for pair in ((0.02, 0.05), (0.03, 0.06), (0.05, 0.1)):
            readings, found = taken(resistance, pair)
            assert max(one.thrust_coefficient for one in readings) <= BEND_LOAD
            for value, at_least, true in (
                (found.power_coefficient, readings[0].power_coefficient, exact[0]),
                (found.thrust_coefficient, readings[0].thrust_coefficient, exact[1]),
            ):
                left.append((value - true) / (at_least - true))
    assert min(left) > 0.0
    assert max(left) < BEND
    record_property("measured", f"line leaves {100.0 * min(left):.1f} to {100.0 * max(left):.1f} % of the correction")


@pytest.mark.outside(
    source="law of propagation for a line through two points, CP apart from CT",
    status="closed form",
    tolerance="1e-6",
)
@pytest.mark.parametrize("shared", [0.0, 0.5, 1.0])
def test_uncertainty_of_two_blockages(shared: float) -> None:
    """With exact CT: u^2 = (w1^2 + w2^2 + 2 r w1 w2) u^2, w1 = x2/(x2 - x1), w2 = -x1/(x2 - x1), and the bend."""
    readings = [
        RecordReading(0.04, 0.42, 0.7, 4.0, 0.003, 0.0),
        RecordReading(0.10, 0.46, 0.7, 4.0, 0.003, 0.0),
    ]
    found = blockage_record(readings, shared=shared)
    x1, x2 = 0.028, 0.07
    w1, w2 = x2 / (x2 - x1), -x1 / (x2 - x1)
    scatter = 0.003 * math.sqrt(w1 * w1 + w2 * w2 + 2.0 * shared * w1 * w2)
    bend = BEND / math.sqrt(3.0) * x1 * 0.04 / (x2 - x1)
    assert found.power_coefficient == pytest.approx(0.42 * w1 + 0.46 * w2, rel=1e-12)
    assert found.power_uncertainty == pytest.approx(math.hypot(scatter, bend), rel=1e-6)
    assert found.power_slope == pytest.approx(0.04 / (x2 - x1))
