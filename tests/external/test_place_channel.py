"""Potential of a tidal channel against limits that are known."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.place.channel import channel_potential, quick_potential
from racewright.place.channel_flow import loaded
from racewright.place.reach import GRAVITY
from tests.external.record import Record

SOURCE = "Garrett and Cummins 2005, Proc. R. Soc. A 461, 2563"


def factor(friction: float) -> tuple[float, float]:
    """Largest power over density g a Q0, and the flow left."""
    load, peak, cube = loaded(friction)
    best = int(np.argmax(load * cube))
    return float(load[best] * cube[best] / peak[0]), float(peak[best] / peak[0])


@pytest.mark.outside(
    source=f"{SOURCE}: 0.20 to 0.24 for every friction (abstract); 0.196 to 0.242 by the equation solved elsewhere",
    status="published",
    tolerance="range",
)
def test_every_channel_lies_in_the_range() -> None:
    found = [factor(friction)[0] for friction in (0.0, 0.1, 0.5, 1.5, 5.0, 30.0, 300.0)]
    assert min(found) > 0.196
    assert max(found) < 0.242


@pytest.mark.outside(
    source="friction alone: (2/3^1.5) mean |cos|^1.5 = 0.214165, flow falls to 1/sqrt(3) = 0.577350",
    status="closed form",
    tolerance="1e-3 at a friction ratio of 3000 (inertia leaves 5e-4)",
)
def test_without_inertia(record_property: Record) -> None:
    power, flow = factor(3000.0)
    record_property("measured", f"{power / 0.214165 - 1.0:+.0e}, {flow / 0.577350 - 1.0:+.0e}")
    assert power == pytest.approx(0.214165, rel=1e-3)
    assert flow == pytest.approx(0.577350, rel=1e-3)


@pytest.mark.outside(
    source="dQ/dt = cos t - l Q|Q| solved elsewhere: 0.2418 and 0.692 without friction; "
    "0.2127, 0.1966, 0.1978, 0.2051, 0.2126 with",
    status="computed",
    tolerance="0.5 % without friction, 1 % at friction ratios 0.3, 1, 3, 10, 100",
)
def test_factor_by_friction(record_property: Record) -> None:
    power, flow = factor(0.0)
    assert power == pytest.approx(0.2418, rel=5e-3)
    assert flow == pytest.approx(0.692, rel=5e-3)
    worst = 0.0
    for friction, wanted in ((0.3, 0.2127), (1.0, 0.1966), (3.0, 0.1978), (10.0, 0.2051), (100.0, 0.2126)):
        off = factor(friction)[0] / wanted - 1.0
        worst = max(worst, abs(off))
        assert abs(off) < 0.01
    record_property("measured", f"{100.0 * worst:.2f} % at most")


@pytest.mark.outside(
    source="0.22 x 1025 x 9.81 x 1 m x 1e5 m3/s = 221.2155 MW", status="closed form", tolerance="1e-6 at 9.81 m/s2"
)
def test_quick_rule() -> None:
    assert quick_potential(1.0, 1e5, 1025.0)[1] * 9.81 / GRAVITY == pytest.approx(221.2155e6, rel=1e-6)


@pytest.mark.outside(
    source="Sutherland, Foreman and Garrett 2007 (abstract): in Johnstone Strait flow 0.57 to 0.58 of "
    "natural at the potential",
    status="published",
    tolerance="0.02, in a made-up channel ruled by friction",
)
def test_flow_left_in_a_strait_ruled_by_friction(record_property: Record) -> None:
    found = channel_potential(1.0, length=1e4, area=1e5, depth=10.0, density=1025.0)
    record_property("measured", f"{found.flow_left:.3f} at a friction ratio of {found.friction_ratio:.3g}")
    assert found.flow_left == pytest.approx(0.575, abs=0.02)
