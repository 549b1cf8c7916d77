"""Root, ring, shaft, bolts and line energy against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from racewright.strength.flange import bolt_circle, bolt_loads
from racewright.strength.line_energy import stored_energy
from racewright.strength.ring import rectangular_ring, ring_loads, ring_pressure, tube_buckling_pressure
from racewright.strength.shaft import shaft_stress, shaft_torque
from racewright.strength.span_load import SpanLoad, root_loads
from tests.external.record import Record

RING = rectangular_ring(0.5, 0.05, 0.02, 200e9)


@pytest.mark.outside(
    source="cantilever with a load F: even F b/2, growing to the tip 2 F b/3, to the root F b/3",
    status="closed form",
    tolerance="1e-12",
)
@pytest.mark.parametrize(
    ("inner", "outer", "part"), [(1.0, 1.0, 1.0 / 2.0), (0.0, 1.0, 2.0 / 3.0), (1.0, 0.0, 1.0 / 3.0)]
)
def test_root_moment(inner: float, outer: float, part: float) -> None:
    span = 0.35
    load = SpanLoad(np.array([0.15, 0.15 + span]), np.array([inner, outer]), np.zeros(2))
    found = root_loads(load, 0.15)
    assert found.axial_bending == pytest.approx(found.axial_force * span * part, rel=1e-12)


@pytest.mark.outside(
    source="beam clamped at both ends: even load F b/12; growing to one end F b/10 there, F b/15 at the other",
    status="closed form",
    tolerance="1e-12",
)
def test_clamped_moments() -> None:
    """q L^2/20 and q L^2/30 with F = q L/2; reactions 7/20 and 3/20 of q L."""
    load = SpanLoad(np.array([0.0, 2.0]), np.array([3.0, 3.0]), np.array([0.0, 3.0]))
    found = root_loads(load, 0.0, support="both ends")
    assert (found.axial_bending, found.outer_axial_bending) == pytest.approx((1.0, 1.0), rel=1e-12)
    assert (found.tangential_bending, found.outer_tangential_bending) == pytest.approx((12 / 30, 12 / 20), rel=1e-12)
    assert (found.tangential_force, found.outer_tangential_force) == pytest.approx((0.9, 2.1), rel=1e-12)


@pytest.mark.outside(
    source="ring with two opposite loads: 1/pi, 1/2 - 1/pi, pi/4 - 2/pi, 2/pi - 1/2 (Roark: 0.318, 0.149, 0.137)",
    status="closed form",
    tolerance="1e-6",
)
def test_ring_factors(record_property: Record) -> None:
    found = ring_loads(RING, 1.0)
    movement = 0.5**3 / RING.stiffness
    got = (
        found.moment_at_load / 0.5,
        -found.moment_between / 0.5,
        2.0 * found.inward_at_load / movement,
        2.0 * found.outward_between / movement,
    )
    wanted = (0.318310, 0.181690, 0.148779, 0.136620)
    record_property("measured", f"{max(abs(g - w) for g, w in zip(got, wanted, strict=True)):.0e}")
    assert got == pytest.approx(wanted, abs=1e-6)


@pytest.mark.outside(
    source="the same ring with numbers: 1000 N, R 0.5 m, 50 x 20 mm, 200 GPa",
    status="closed form",
    tolerance="1.5e-5, the printed digits",
)
def test_ring_numbers(record_property: Record) -> None:
    found = ring_loads(RING, 1000.0)
    got = (found.moment_at_load, found.stress, 2e3 * found.inward_at_load, 2e3 * found.outward_between)
    wanted = (159.155, 47.746e6, 2.78959, 2.56162)
    record_property("measured", f"{max(abs(g / w - 1.0) for g, w in zip(got, wanted, strict=True)):.0e}")
    assert got == pytest.approx(wanted, rel=1.5e-5)


@pytest.mark.outside(
    source="the ring's own equation w'' + w = M R^2/(E I) marched over one bay from the moments",
    status="computed",
    tolerance="1e-8",
)
@pytest.mark.parametrize("count", [2, 3, 5, 7, 12])
def test_ring_of_several_loads(count: int, record_property: Record) -> None:
    """M(t) from equilibrium of the bay, t from a load; w outwards. The march must end level at mid-bay."""
    found = ring_loads(RING, 1000.0, count)
    bay = math.pi / count
    hoop = found.hoop_at_load

    def moment(t: float) -> float:
        return found.moment_at_load - 0.5 * (hoop * (1.0 - math.cos(t)) + 500.0 * math.sin(t))

    assert moment(bay) == pytest.approx(found.moment_between, rel=1e-9)
    start = [-found.inward_at_load, 0.0]
    path = solve_ivp(
        lambda t, y: [y[1], moment(t) * 0.25 / RING.stiffness - y[0]], (0.0, bay), start, rtol=1e-11, atol=1e-18
    )
    end, slope = path.y[0, -1], path.y[1, -1]
    record_property("measured", f"{abs(end / found.outward_between - 1.0):.0e}")
    assert end == pytest.approx(found.outward_between, rel=1e-8)
    assert slope == pytest.approx(0.0, abs=1e-8 * found.outward_between)


@pytest.mark.outside(
    source="ring under external pressure, 3 E I/R^3 (Levy): 160 kN/m for that ring",
    status="closed form",
    tolerance="1e-12",
)
def test_ring_buckling() -> None:
    assert ring_pressure(RING, 1.0).buckling_load == pytest.approx(160e3, rel=1e-12)


@pytest.mark.outside(
    source="long tube E/(4(1-nu^2)) (t/r)^3 (Bresse): 200 GPa, 0.3, 10 mm on 0.5 m",
    status="closed form",
    tolerance="2e-6, the printed digits",
)
def test_tube_buckling() -> None:
    """A tube is a ring in plane strain: 3 E I/R^3 of a unit width over 1 - nu^2."""
    found = tube_buckling_pressure(0.01, 0.5, 200e9, 0.3)
    assert found == pytest.approx(0.439560e6, rel=2e-6)
    ring = ring_pressure(rectangular_ring(0.5, 1.0, 0.01, 200e9), 1.0).buckling_pressure
    assert found == pytest.approx(ring / (1.0 - 0.09), rel=1e-12)


@pytest.mark.outside(
    source="shaft: 5 kW at 200 rpm, 40 mm, with 100 N m of bending", status="closed form", tolerance="1e-4"
)
def test_shaft(record_property: Record) -> None:
    torque = shaft_torque(5000.0, 200.0 * math.pi / 30.0)
    plain, bent = shaft_stress(0.04, torque), shaft_stress(0.04, torque, 100.0)
    got = (torque, plain.torsion, bent.largest_shear, bent.von_mises)
    wanted = (238.732, 18.998e6, 20.597e6, 36.552e6)
    record_property("measured", f"{max(abs(g / w - 1.0) for g, w in zip(got, wanted, strict=True)):.0e}")
    assert got == pytest.approx(wanted, rel=1e-4)


@pytest.mark.outside(
    source="bolt circle: largest tension 2 M/(n R), shear T/(n R), as shell n A/(2 pi R)",
    status="closed form",
    tolerance="1e-12",
)
@pytest.mark.parametrize("count", [4, 8, 12])
def test_bolt_circle(count: int) -> None:
    found = bolt_loads(bolt_circle(count, 0.15), 84.3e-6, bending_x=-900.0, torque=600.0, pull=240.0)
    assert found.largest_tension == pytest.approx(2.0 * 900.0 / (count * 0.15) + 240.0 / count, rel=1e-12)
    assert found.largest_shear == pytest.approx(600.0 / (count * 0.15), rel=1e-12)


@pytest.mark.outside(source="T^2 L/(2 E A): 20 kN, 20 m, E A 1e6 N", status="closed form", tolerance="1e-9")
def test_stored_energy() -> None:
    assert stored_energy(20e3, 20.0, 1e6).energy == pytest.approx(4000.0, rel=1e-9)
