"""Mean-line identities and worked stages."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.stage.free_vortex import free_vortex
from racewright.stage.meanline import axial_meanline, meanline
from tests.external.record import Record
from tests.external.stage_data import table


@pytest.mark.outside(
    source="mean-line identities, 42 points",
    status="closed form",
    tolerance="1e-9; angles 6e-6 deg (printed digits)",
)
def test_grid(record_property: Record) -> None:
    """Axial inlet and exit: tan a2 = psi/phi, tan b2 = (psi-1)/phi, tan b3 = -1/phi, R = 1 - psi/2."""
    _, rows = table("stage_meanline_grid.csv")
    assert rows.shape == (42, 6)
    miss = 0.0
    for phi, psi, a2, b2, b3, reaction in rows:
        special = axial_meanline(phi, psi)
        general = meanline(phi, math.atan(psi / phi), 0.0)
        for stage in (special, general):
            miss = max(miss, abs(stage.work_coefficient - psi), abs(stage.reaction - reaction))
            assert stage.work_coefficient == pytest.approx(psi, abs=1e-9)
            assert stage.reaction == pytest.approx(reaction, abs=1e-9)
            assert math.tan(stage.relative_angle_in) == pytest.approx((psi - 1.0) / phi, abs=1e-9)
            assert math.degrees(stage.vane_exit_angle) == pytest.approx(a2, abs=6e-6)
            assert math.degrees(stage.relative_angle_in) == pytest.approx(b2, abs=6e-6)
            assert -math.degrees(stage.relative_angle_out) == pytest.approx(b3, abs=6e-6)
    record_property("measured", f"{miss:.0e} on work and reaction")


@pytest.mark.outside(
    source="Dixon & Hall ch. 9 Kaplan example (from memory), answers recomputed",
    status="closed form",
    tolerance="1e-5 relative",
)
def test_kaplan_flow() -> None:
    """8 MW, 13.4 m, 200 rpm, efficiency 0.92: flow, axial speed and swirl at the tip, through the
    triangles.
    """
    flow_rate = 8e6 / (0.92 * 1000.0 * 9.81 * 13.4)
    assert flow_rate == pytest.approx(66.150, rel=1e-5)
    area = math.pi / 4.0 * 2.9**2 * (1.0 - 0.4**2)
    rotor_speed = 200.0 * math.pi / 30.0
    swirl = 0.92 * 9.81 * 13.4 / rotor_speed
    found = free_vortex(np.array([1.45]), rotor_speed, flow_rate / area, swirl)
    assert found.axial_speed[0] == pytest.approx(11.9224, rel=1e-5)
    assert found.blade_speed[0] == pytest.approx(30.3687, rel=1e-5)
    assert found.swirl_in[0] == pytest.approx(3.98231, rel=1e-5)


@pytest.mark.outside(
    source="Kaplan example (Dixon & Hall, from memory) and a public exercise, six radii",
    status="closed form",
    tolerance="1e-9 rad, 1e-9 on reaction",
)
def test_free_vortex_examples() -> None:
    """Angles at hub, middle and tip of two free-vortex stages, and the reaction by the mean line."""
    text, rows = table("stage_freevortex_examples.csv", skip_text=1)
    for _, (_, wheel, axial, swirl, a2, b2, b3, reaction) in zip(text, rows, strict=True):
        found = free_vortex(np.array([1.0]), wheel, axial, swirl)
        assert found.vane_exit_angle[0] == pytest.approx(math.radians(a2), abs=1e-9)
        assert found.relative_angle_in[0] == pytest.approx(math.radians(b2), abs=1e-9)
        assert found.relative_angle_out[0] == pytest.approx(-math.radians(b3), abs=1e-9)
        assert meanline(axial / wheel, math.atan(swirl / axial)).reaction == pytest.approx(reaction, abs=1e-9)
    assert len(text) == 6


@pytest.mark.outside(
    source="public exercise (statement read), answers recomputed",
    status="closed form",
    tolerance="1e-4 relative",
)
def test_small_machine() -> None:
    """1.8 m, 0.068 m3/s, 10.2 N m at 1000 rpm: powers, efficiencies and triangles at r 0.07625 m."""
    rotor_speed = 1000.0 * math.pi / 30.0
    shaft = 10.2 * rotor_speed
    fluid = 9810.0 * 0.068 * 1.8
    assert shaft == pytest.approx(1068.14, rel=1e-4)
    assert fluid == pytest.approx(1200.74, rel=1e-4)
    assert shaft / fluid == pytest.approx(0.88957, rel=1e-4)
    hydraulic = shaft / fluid / (0.97 * 0.98)
    assert hydraulic == pytest.approx(0.93579, rel=1e-4)
    work = hydraulic * 9.81 * 1.8
    assert work / 9.81 == pytest.approx(1.68443, rel=1e-4)
    radial = 0.068 / (math.pi * 0.255 * 0.075)
    swirl = radial / math.tan(math.radians(30.0)) * 0.255 / 2.0
    axial = 0.98 * 0.068 / (math.pi / 4.0 * (0.2**2 - 0.105**2))
    found = free_vortex(np.array([0.07625]), rotor_speed, axial, swirl, swirl - work / rotor_speed)
    assert found.axial_speed[0] == pytest.approx(2.92834, rel=1e-4)
    assert found.blade_speed[0] == pytest.approx(7.98488, rel=1e-4)
    assert found.swirl_in[0] == pytest.approx(3.27785, rel=1e-4)
    assert found.swirl_out[0] == pytest.approx(1.20840, rel=1e-4)
    assert math.degrees(found.vane_exit_angle[0]) == pytest.approx(48.22, abs=0.006)
    assert math.degrees(found.relative_angle_in[0]) == pytest.approx(-58.11, abs=0.006)
    assert math.degrees(found.relative_angle_out[0]) == pytest.approx(-66.63, abs=0.006)


@pytest.mark.outside(
    source="free-vortex pre-swirl, u 1, CH 0.8, TSR 2.5, hub 0.3",
    status="closed form",
    tolerance="1e-4 deg; 1e-6",
)
def test_preswirl_triangle(record_property: Record) -> None:
    """Stream speed and tip radius 1: k = CH/(2 TSR) = 0.16, angles, and the head that pre-swirl saves."""
    ratio, head, hub = 2.5, 0.8, 0.3
    k = head / (2.0 * ratio)
    assert k == pytest.approx(0.16, abs=1e-12)
    found = free_vortex(np.array([0.3, 0.7, 1.0]), ratio, 1.0, k)
    assert np.degrees(found.vane_exit_angle) == pytest.approx([28.0725, 12.8750, 9.0903], abs=1e-4)
    assert np.degrees(found.relative_angle_in[[0, 2]]) == pytest.approx([-12.225, -66.861], abs=1e-3)
    assert np.degrees(found.relative_angle_out[[0, 2]]) == pytest.approx([-36.870, -68.199], abs=1e-3)
    m = np.linspace(hub, 1.0, 20001)
    bare = free_vortex(m, ratio, 1.0, 0.0, -k)
    lost = np.trapezoid(bare.swirl_out**2 * m, m) / np.trapezoid(m, m)
    record_property("measured", f"{abs(lost - 0.067740):.0e} on the head that pre-swirl saves")
    assert lost == pytest.approx(0.067740, abs=1e-6)
    assert 100.0 * lost / head == pytest.approx(8.4675, abs=1e-4)
