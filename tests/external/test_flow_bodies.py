"""Closed bodies in a stream against closed forms: the hub's scheme."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.flow.surfaces import surfaces
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from tests.external.record import Record

Floats = NDArray[np.float64]


def spheroid(fineness: float, panels: int) -> tuple[Floats, Floats, Floats]:
    """Radii, computed and exact surface speeds at the nodes; half axes fineness and 1.

    Exact: V/U = (1 + k1) a sqrt(1 - X^2)/sqrt(a^2 (1 - X^2) + X^2), k1 the axial added-mass coefficient.
    """
    x, r = hub_contour(Hub(1.0, -fineness, fineness, 0.0, fineness), panels)
    none = np.empty(0)
    body = surfaces(none, none, x, r)
    speed = np.asarray(np.linalg.solve(body.own(), 0.5 * body.r**2), dtype=np.float64)
    if fineness == 1.0:
        added = 0.5
    else:
        e = np.sqrt(1.0 - 1.0 / fineness**2)
        a0 = 2.0 * (1.0 - e * e) / e**3 * (0.5 * np.log((1.0 + e) / (1.0 - e)) - e)
        added = a0 / (2.0 - a0)
    place = (body.x / fineness) ** 2
    exact = (1.0 + added) * fineness * np.sqrt(1.0 - place) / np.sqrt(fineness**2 * (1.0 - place) + place)
    return body.r, speed, exact


COUNTS = (20, 40, 80, 160)


def area_weighted_error(fineness: float, panels: int) -> float:
    """Root of the mean over the surface of the squared error of speed."""
    radius, speed, exact = spheroid(fineness, panels)
    x, r = hub_contour(Hub(1.0, -fineness, fineness, 0.0, fineness), panels)
    length = np.hypot(np.diff(x), np.diff(r))
    weight = radius * (length[1:] + length[:-1])
    return float(np.sqrt(np.average((speed - exact) ** 2, weights=weight)))


@pytest.mark.outside(
    source="potential flow past a sphere and a prolate spheroid (Lamb, Hydrodynamics, arts. 96 and 105)",
    status="closed form",
    tolerance="0.2 % of local speed at r > 0.1 of the largest, 1 % nearer the axis, 80 panels",
)
@pytest.mark.parametrize("fineness", [1.0, 4.0])
def test_spheroid_surface_speed(fineness: float, record_property: Record) -> None:
    radius, speed, exact = spheroid(fineness, 80)
    off = np.abs(speed / exact - 1.0)
    record_property("measured", f"{100.0 * off[radius > 0.1].max():.2f} % off the axis, fineness {fineness:g}")
    assert off[radius > 0.1].max() < 2e-3
    assert off.max() < 1e-2


@pytest.mark.outside(
    source="potential flow past a prolate spheroid (Lamb, Hydrodynamics, art. 105)",
    status="closed form",
    tolerance="observed order of the area-weighted mean square error 1.8 or more, 20 to 160 panels",
)
@pytest.mark.parametrize("fineness", [1.0, 4.0])
def test_spheroid_order_of_convergence(fineness: float, record_property: Record) -> None:
    errors = [area_weighted_error(fineness, panels) for panels in COUNTS]
    order = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    record_property("measured", f"order {order.min():.2f} at least, fineness {fineness:g}")
    assert np.all(order >= 1.8), errors


@pytest.mark.outside(
    source="peak speed 1 + k1 of spheroids, k1 = 0.5 and 0.081557 (Lamb)",
    status="closed form",
    tolerance="0.1 %, 80 panels",
)
@pytest.mark.parametrize(("fineness", "peak"), [(1.0, 1.5), (4.0, 1.081557)])
def test_spheroid_peak_speed(fineness: float, peak: float, record_property: Record) -> None:
    found = spheroid(fineness, 80)[1].max()
    record_property("measured", f"{100.0 * (found / peak - 1.0):+.3f} % at fineness {fineness:g}")
    assert found == pytest.approx(peak, rel=1e-3)
