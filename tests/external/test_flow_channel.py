"""A round rigid wall about a bare disc and a duct against closed-channel theory."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.bare_disc import bare_disc
from racewright.flow.far_wake import channel_thrust, far_wake
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub_contour import hub_contour
from tests.flow.conftest import DUCT, HUB

LOADS = (0.0, 0.3, 0.6, 0.8)
TABLE = {(0.05, 0.6): 0.830726, (0.05, 0.8): 0.754153, (0.1, 0.6): 0.843922, (0.1, 0.8): 0.778175}
TABLE |= {(0.2, 0.6): 0.867554, (0.2, 0.8): 0.816868}
"""Speed ratio of a bare disc over (B, CT)."""


def closed_channel(thrust: float, blockage: float) -> float:
    """Speed ratio at the disc: continuity, Bernoulli beside and behind, momentum over the channel."""

    def excess(speed: float) -> float:
        far = far_wake(thrust, 0.5 * speed, blockage**-0.5)
        return thrust - channel_thrust(far, math.pi * speed, math.pi / blockage) / math.pi

    return float(brentq(excess, 0.4, 1.2, xtol=1e-13))


@pytest.mark.outside(
    source="one-dimensional closed-channel theory of a disc (Garrett and Cummins 2007, J. Fluid Mech. 588:243)",
    status="closed form",
    tolerance="1e-6 of the tabulated roots",
)
@pytest.mark.parametrize(("case", "expected"), list(TABLE.items()))
def test_closed_channel_relations(case: tuple[float, float], expected: float) -> None:
    assert closed_channel(case[1], case[0]) == pytest.approx(expected, abs=1e-6)


@pytest.mark.outside(
    source="one-dimensional closed-channel theory of a disc (Garrett and Cummins 2007)",
    status="closed form",
    tolerance="1 %; a wall of twice the length 0.1 %",
)
@pytest.mark.parametrize("blockage", [0.05, 0.1, 0.2])
def test_bare_disc_in_a_channel(blockage: float) -> None:
    radius = blockage**-0.5
    disc = bare_disc(LOADS, wake_panels=60, channel_radius=radius)
    assert disc.converged.all()
    expected = [closed_channel(load, blockage) for load in LOADS[1:]]
    assert disc.speed_ratio[1:] == pytest.approx(expected, rel=1e-2)
    longer = bare_disc(LOADS, wake_panels=70, reach=80.0, channel_radius=radius, channel_ahead=8.0)
    assert longer.speed_ratio == pytest.approx(disc.speed_ratio, rel=1e-3)


@pytest.mark.outside(
    source="momentum theory of an open disc, approached as the channel widens",
    status="closed form",
    tolerance="0.1 % at a blockage of 0.001",
)
def test_wide_channel_is_an_open_stream() -> None:
    wide = bare_disc(LOADS, wake_panels=60, channel_radius=0.001**-0.5)
    assert wide.speed_ratio == pytest.approx(bare_disc(LOADS, wake_panels=60).speed_ratio, rel=1e-3)


@pytest.mark.outside(
    source="momentum over a closed channel: total force on disc, duct and hub",
    status="closed form",
    tolerance="the larger of 0.005 CH and 0.004 (80/N)^2, N = 60 panels a side",
)
def test_duct_in_a_channel_agrees_with_momentum() -> None:
    x, r = duct_contour(DUCT, 60)
    hub_x, hub_r = hub_contour(HUB, 60)
    flow = axisymmetric(
        x, r, rotor_x=throat_x(DUCT), hub_x=hub_x, hub_r=hub_r, head_coefficients=LOADS, channel_radius=1.5
    )
    assert flow.converged.all()
    area = math.pi * 1.5**2
    for i, load in enumerate(LOADS):
        through = flow.speed_ratio[i] * flow.annulus_area
        asked = channel_thrust(far_wake(load, through / (2.0 * math.pi), 1.5), through, area) / flow.annulus_area
        assert load + flow.duct_force[i] + flow.hub_force[i] == pytest.approx(asked, abs=max(0.005 * load, 0.0071))
    assert np.all(flow.bypass_speed[1:] > 1.0)
    assert flow.bypass_speed**2 - flow.far_wake_speed**2 == pytest.approx(LOADS)
