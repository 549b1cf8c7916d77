"""Ring vortex and semi-infinite vortex cylinder against closed forms."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from racewright.flow.kernels import VALUES, cylinder_rows, ring_values
from tests.external.record import Record

DATA = Path(__file__).parent / "data"


def ring(dx: float, r: float, p: float) -> tuple[float, float, float]:
    """psi, ux, ur at radius r, dx downstream of a ring of radius p and unit circulation."""
    out = np.empty((3, 1))
    ring_values(1, np.array([[dx], [r - p]]), r, out)
    return float(out[0, 0]), float(out[1, 0]), float(out[2, 0])


def _cylinder(x: float, r: float) -> np.ndarray:
    return cylinder_rows(np.array([x]), np.array([r]), 0.0, 1.0, VALUES)[:, 0]


def _rows(name: str) -> np.ndarray:
    return np.loadtxt(DATA / name, delimiter=",", skiprows=2)


@pytest.mark.outside(
    source="ring vortex in complete elliptic integrals (Lamb, Hydrodynamics, art. 161)",
    status="closed form",
    tolerance="half a unit of the table's sixth digit",
)
def test_ring_vortex(record_property: Record) -> None:
    """Unit circulation and radius: axial and radial velocity, stream function."""
    miss = 0.0
    for r, z, axial, radial, psi in _rows("ring_vortex.csv"):
        miss = max(miss, *(abs(a - b) for a, b in zip(ring(z, r, 1.0), (psi, axial, radial), strict=True)))
        assert ring(z, r, 1.0) == pytest.approx((psi, axial, radial), rel=5e-6, abs=1e-9)
    record_property("measured", f"{miss:.0e} at most")


@pytest.mark.outside(
    source="Biot-Savart law, summed over the ring (the trapezoidal rule is exact to round-off on a circle)",
    status="closed form",
    tolerance="1e-10",
)
@pytest.mark.parametrize(("r", "z"), [(0.5, 0.0), (0.9, 0.1), (1.0, 0.3), (1.5, 0.5), (4.0, 2.0), (0.01, 0.6)])
def test_ring_vortex_by_direct_sum(r: float, z: float) -> None:
    angle = np.linspace(0.0, 2.0 * np.pi, 2001)[:-1]
    cube = (z * z + r * r + 1.0 - 2.0 * r * np.cos(angle)) ** 1.5
    axial = float(np.mean((1.0 - r * np.cos(angle)) / cube)) / 2.0
    radial = float(np.mean(z * np.cos(angle) / cube)) / 2.0
    assert ring(z, r, 1.0)[1:] == pytest.approx((axial, radial), rel=1e-10)


@pytest.mark.outside(
    source="velocity on the axis of a ring vortex, 1/(2 (1 + z^2)^1.5)",
    status="closed form",
    tolerance="1e-12",
)
def test_ring_vortex_on_its_axis() -> None:
    for z in (-3.0, 0.0, 0.4, 7.0):
        assert ring(z, 0.0, 1.0)[1] == pytest.approx(0.5 / (1.0 + z * z) ** 1.5, rel=1e-12)


@pytest.mark.outside(
    source="semi-infinite vortex cylinder: closed form on axis and rim plane, quadrature elsewhere",
    status="closed form",
    tolerance="1e-6, the digits of the table",
)
def test_vortex_cylinder(record_property: Record) -> None:
    """Unit strength and radius, from z = 0 downstream."""
    miss = 0.0
    for r, z, axial, radial in _rows("vortex_cylinder.csv"):
        out = _cylinder(z, r)
        miss = max(miss, abs(out[1] - axial), abs(out[2] - radial))
        assert out[1:] == pytest.approx([axial, radial], abs=1e-6)
    record_property("measured", f"{miss:.0e} at most")


@pytest.mark.outside(
    source="semi-infinite vortex cylinder: (1 + z/sqrt(1 + z^2))/2 on its axis, symmetry about its rim plane",
    status="closed form",
    tolerance="1e-7",
)
def test_vortex_cylinder_on_its_axis_and_about_its_rim() -> None:
    for z in (-20.0, -1.0, 0.0, 0.7, 30.0):
        assert _cylinder(z, 0.0)[1] == pytest.approx(0.5 * (1.0 + z / math.hypot(1.0, z)), abs=1e-7)
    for r, inside in ((0.3, 1.0), (0.95, 1.0), (1.4, 0.0)):
        behind, ahead = _cylinder(0.8, r), _cylinder(-0.8, r)
        assert behind[1] + ahead[1] == pytest.approx(inside, abs=1e-9)
        assert behind[2] == pytest.approx(ahead[2], abs=1e-9)
