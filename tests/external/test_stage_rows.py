"""Rows of plates and arcs, friction lines and clearance loss against the outside."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.stage.friction import (
    laminar_friction,
    rough_friction,
    smooth_friction,
    turbulent_friction,
)
from racewright.stage.row_factor import row_factor
from racewright.stage.row_flow import ReadyRow, through_row
from racewright.stage.row_model import FittedRow, Inflow, Response, Slice, response
from racewright.stage.thin_row import ROW_MODELS
from tests.external.record import Record
from tests.external.stage_data import table

Floats = NDArray[np.float64]


@pytest.mark.outside(
    source="Weinig 1935, Merchant & Collar 1941: flat-plate rows, 48 points",
    status="closed form",
    tolerance="6e-9 (printed digits)",
)
def test_flat_plate_rows(record_property: Record) -> None:
    """K and A at eight pitches and six staggers."""
    _, rows = table("stage_flatplate_cascade.csv")
    assert rows.shape[0] == 48
    miss = 0.0
    for sign in (1.0, -1.0):
        found = row_factor(1.0 / rows[:, 1], sign * np.radians(rows[:, 0]))
        miss = max(miss, float(np.max(np.abs(found.factor - rows[:, 4]))))
        assert np.max(np.abs(found.factor - rows[:, 4])) < 6e-9
        assert np.max(np.abs(found.transmission - rows[:, 3])) < 6e-9
    record_property("measured", f"{miss:.0e} on the row factor")


@pytest.mark.outside(
    source="flat-plate rows, outlet angle at +5 and -5 degrees incidence",
    status="closed form",
    tolerance="1e-6 deg",
)
def test_flat_plate_outlet_angle(record_property: Record) -> None:
    """The stage's own mean-angle solution on plates in a fluid without friction gives the exact outlet
    angle.
    """
    _, rows = table("stage_flatplate_cascade.csv")
    # The attached response is exact up to 8 degrees from the chord line; 5 degrees lie inside.
    for incidence, column in ((5.0, 7), (-5.0, 8)):
        out = _outlet(rows[:, 1], rows[:, 0], np.zeros(rows.shape[0]), rows[:, 0] + incidence)
        miss = np.max(np.abs(out - rows[:, 0] - rows[:, column]))
        record_property("measured", f"{miss:.0e} deg at {incidence:+g} deg")
        assert miss < 1.1e-6


@pytest.mark.outside(
    source="vortex lattice on circular arcs in a row, 20 points",
    status="computed",
    tolerance="0.05 / 0.3 / 0.8 / 1.7 deg at camber 10 / 20 / 30 / 40; thin-row theory is linear in camber",
)
def test_circular_arc_rows(record_property: Record) -> None:
    """Outlet angle of arcs with axial leading edge and axial inflow; the deviation is over-predicted a
    little.
    """
    _, rows = table("stage_circular_arc_cascade.csv")
    pitch, camber, stagger, inlet, outlet = rows[:, :5].T
    miss = _outlet(pitch, stagger, camber, inlet) - outlet
    for turn, bound in ((10.0, 0.05), (20.0, 0.3), (30.0, 0.8), (40.0, 1.7)):
        here = miss[camber == turn]
        assert here.size == 5
        assert np.all(here < 0.0)
        record_property("measured", f"{np.max(np.abs(here)):.2f} deg at camber {turn:g}")
        assert np.max(np.abs(here)) < bound


def _outlet(pitch_over_chord: Floats, stagger: Floats, camber: Floats, inlet: Floats) -> Floats:
    """Outlet angle in degrees of rows whose drag is taken away, for comparison with potential flow."""
    nothing = np.zeros_like(stagger)
    sections = Slice(1.0 / pitch_over_chord, np.radians(stagger), np.radians(camber), nothing, nothing, nothing)
    row = ReadyRow(sections, _NoDrag(ROW_MODELS["thin row"].fit(sections)), np.ones_like(stagger), 1.0)
    found = through_row(row, np.ones_like(inlet), np.tan(np.radians(inlet)), 1e-6)
    return np.degrees(np.arctan(found.tangent_out))


class _NoDrag:
    def __init__(self, fitted: FittedRow) -> None:
        self._fitted = fitted

    def response(self, inflow: Inflow) -> Response:
        found = self._fitted.response(inflow)
        return replace(found, profile_drag=np.zeros_like(found.profile_drag))


@pytest.mark.outside(
    source="circular arc alone: Gamma/(V c) = pi sin(a + camber/4)/cos(camber/4)",
    status="closed form",
    tolerance="1e-8",
)
def test_arc_alone(record_property: Record) -> None:
    """Camber 40 degrees, chord along the stream: 0.553948."""
    z = np.zeros(1)
    arc = Slice(z, z, np.radians([40.0]), z + 0.1, z, z)
    found = response(ROW_MODELS["thin row"], arc, Inflow(z, z + 1e6, 0.0))
    record_property("measured", f"{abs(found.circulation[0] - math.pi * math.tan(math.radians(10.0))):.0e}")
    assert found.circulation[0] == pytest.approx(math.pi * math.tan(math.radians(10.0)), abs=1e-8)
    assert found.circulation[0] == pytest.approx(0.553948, abs=1e-6)


@pytest.mark.outside(
    source="Blasius and Prandtl-Schlichting lines", status="from memory", tolerance="6e-7 (printed digits)"
)
def test_friction_lines(record_property: Record) -> None:
    """Laminar and turbulent lines at nine Reynolds numbers."""
    _, rows = table("stage_friction.csv")
    assert np.max(np.abs(laminar_friction(rows[:, 0]) - rows[:, 1])) < 6e-7
    record_property("measured", f"{np.max(np.abs(turbulent_friction(rows[:, 0]) - rows[:, 3])):.0e}, turbulent line")
    assert np.max(np.abs(turbulent_friction(rows[:, 0]) - rows[:, 3])) < 6e-7


@pytest.mark.outside(
    source="Prandtl-Schlichting line less 1700/Re (transition at 5e5)",
    status="from memory",
    tolerance="A 1614 against 1700: 9e-5 at Re 1e6, 2e-5 at 5e6 and above",
)
def test_mixed_friction() -> None:
    """The mixed line with its own continuous constant stays near the printed one, and is laminar below."""
    _, rows = table("stage_friction.csv")
    found = smooth_friction(rows[:, 0], np.array(5e5))
    assert abs(found[3] - rows[3, 4]) < 9e-5
    assert np.max(np.abs(found[5:] - rows[5:, 4])) < 2e-5
    assert found[:3] == pytest.approx(laminar_friction(rows[:3, 0]), rel=1e-12)


@pytest.mark.outside(
    source="fully rough plate (1.89 + 1.62 log10 L/ks)^-2.5, Schlichting",
    status="from memory",
    tolerance="1e-6",
)
def test_rough_plate() -> None:
    """L/ks 1e3, 1e4, 1e5."""
    assert rough_friction(np.array([1e-3, 1e-4, 1e-5])) == pytest.approx([0.008448, 0.004934, 0.003170], abs=1e-6)
