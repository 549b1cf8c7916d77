"""Ducts: a separately computed reference, momentum theory, thin tubes, and signs."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.forces import momentum_force
from racewright.flow.ladder import LADDER
from racewright.flow.response import response_at
from racewright.flow.result import Axisymmetric
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from tests.external.record import Record

DATA = Path(__file__).parent / "data"
DUCTS = (
    (Duct(0.5, 1.6, 0.6, 0.15), Hub(0.1, -0.05, 0.15, 0.3, 0.3)),
    (Duct(0.5, 1.3, 0.9, 0.12), Hub(0.15, -0.2, 0.3, 0.4, 0.6)),
    (Duct(0.5, 2.0, 1.0, 0.18), Hub(0.08, 0.0, 0.1, 0.3, 0.3)),
)


def _reference() -> list[dict[str, str]]:
    with (DATA / "thick_duct.csv").open() as file:
        next(file)
        return list(csv.DictReader(file))


def _section(row: dict[str, str]) -> AnnularSection:
    thickness = float(row["section_closed_TE"][-2:]) / 100.0
    return AnnularSection(float(row["R_LE_over_c"]), math.radians(float(row["incidence_deg"])), 1.0, thickness)


def _at_throat(section: AnnularSection, panels: int, loads: tuple[float, ...], wake_panels: int = 80) -> Axisymmetric:
    x, r = section_contour(section, panels)
    return axisymmetric(
        x, r, rotor_x=float(x[int(np.argmin(r[:panels]))]), head_coefficients=loads, wake_panels=wake_panels
    )


@pytest.mark.outside(
    source="duct NACA 0015, 10 degrees, leading edge at 0.75 chord, by a separate surface-vorticity solver",
    status="computed",
    tolerance="0.5 % to CH 0.8, 1 % at 8/9, 80 panels a side",
)
def test_loaded_reference_duct(record_property: Record) -> None:
    rows = [row for row in _reference() if row["section_closed_TE"] == "NACA0015" and row["incidence_deg"] == "10"]
    loads = tuple(float(row["CT_throat_area"]) for row in rows)
    flow = _at_throat(_section(rows[0]), 80, loads)
    expected = np.array([float(row["u_throat_over_U"]) for row in rows])
    off = np.abs(flow.speed_ratio / expected - 1.0)
    record_property("measured", f"{100.0 * off.max():.2f} % at most on the speed ratio")
    assert off[np.array(loads) <= 0.8].max() < 5e-3
    assert off.max() < 1e-2
    at_exit = np.array([float(row["u_exit_over_U"]) for row in rows])
    assert flow.exit_speed_ratio == pytest.approx(at_exit, rel=1e-2)
    power = flow.head_coefficient * flow.speed_ratio
    assert power.max() == pytest.approx(0.771, rel=5e-3)
    assert flow.head_coefficient[int(np.argmax(power))] == pytest.approx(0.69, abs=0.03)


@pytest.mark.outside(
    source="empty ducts of NACA 0012 and 0015 section, by a separate surface-vorticity solver",
    status="computed",
    tolerance="0.2 %, 80 panels a side",
)
def test_empty_reference_ducts(record_property: Record) -> None:
    rows = [row for row in _reference() if row["state"] == "empty"]
    assert len(rows) == 6
    miss = 0.0
    for row in rows:
        flow = _at_throat(_section(row), 80, (0.0,), 20)
        miss = max(miss, abs(flow.speed_ratio[0] / float(row["u_throat_over_U"]) - 1.0))
        assert flow.speed_ratio[0] == pytest.approx(float(row["u_throat_over_U"]), rel=2e-3)
    record_property("measured", f"{100.0 * miss:.3f} % at most on six ducts")


@pytest.mark.outside(
    source="d'Alembert: no force on an empty duct in potential flow",
    status="closed form",
    tolerance="0.004 of half rho U^2 throat area at 80 panels a side, 0.001 at 160",
)
@pytest.mark.parametrize(("panels", "limit"), [(80, 0.004), (160, 0.001)])
def test_empty_ducts_bear_no_force(panels: int, limit: float) -> None:
    for row in _reference():
        if row["state"] == "empty":
            assert abs(_at_throat(_section(row), panels, (0.0,), 20).duct_force[0]) < limit


@pytest.mark.outside(
    source="momentum theory of a ducted disc: CT of duct and hub = (1 - w)(2 u - 1 - w)",
    status="closed form",
    tolerance="the larger of 0.005 CH and 0.004 (80/N)^2, N = 80 panels a side",
)
@pytest.mark.parametrize("index", [0, 1, 2])
@pytest.mark.parametrize("hubbed", [False, True])
def test_surface_pressures_agree_with_momentum(index: int, hubbed: bool, record_property: Record) -> None:
    duct, hub = DUCTS[index]
    x, r = duct_contour(duct, 80)
    hub_x, hub_r = hub_contour(hub, 80) if hubbed else (None, None)
    flow = axisymmetric(
        x,
        r,
        hub_x=hub_x,
        hub_r=hub_r,
        rotor_x=throat_x(duct),
        head_coefficients=(0.0, 0.1, 0.4, 0.8, 8.0 / 9.0),
    )
    assert flow.converged.all()
    off = flow.duct_force + flow.hub_force - momentum_force(flow.head_coefficient, flow.speed_ratio)
    hub_said = "with hub" if hubbed else "without hub"
    record_property("measured", f"{np.abs(off).max():.4f} on duct {index + 1} {hub_said}")
    assert np.all(np.abs(off) < np.maximum(0.005 * flow.head_coefficient, 0.004))


@pytest.mark.outside(
    source="thin straight tube at light load, u = 1 - c (1 - w), by a zero-thickness vortex lattice",
    status="computed",
    tolerance="0.5 % of c, thickness carried to zero from 1 % and 0.5 % of chord",
)
def test_thin_straight_tubes(record_property: Record) -> None:
    table = {row[0]: row[1] for row in np.loadtxt(DATA / "straight_tube.csv", delimiter=",", skiprows=2)}
    for ratio in (0.1, 0.5, 1.0):
        found = []
        for thickness in (0.01, 0.005):
            section = AnnularSection(0.5 + 0.5 * thickness * ratio, 0.0, ratio, thickness)
            flow = _at_throat(section, 60, (0.0, 0.02))
            found.append((flow.speed_ratio[0] - flow.speed_ratio[1]) / (1.0 - math.sqrt(0.98)))
        c = 2.0 * found[1] - found[0]
        record_property("measured", f"{100.0 * (c / table[ratio] - 1.0):+.2f} % at length over diameter {ratio:g}")
        assert c == pytest.approx(table[ratio], rel=5e-3)


@pytest.mark.outside(
    source="diffuser theory: an opening duct draws more flow, short of separation (e.g. Lawn 2003)",
    status="common practice",
    tolerance="sign",
)
def test_wider_exit_raises_power_at_one_load() -> None:
    power = []
    for ratio in (1.3, 1.5):
        duct = Duct(0.5, ratio, 0.6, 0.15)
        x, r = duct_contour(duct, 40)
        flow = axisymmetric(x, r, rotor_x=throat_x(duct), head_coefficients=(0.0, 0.25, 0.5))
        power.append(0.5 * flow.speed_ratio[-1])
    assert power[1] > power[0]


@pytest.mark.outside(
    source="a disc in a duct: augmentation 2 u/(1 + w) falls with load (Abe & Ohya 2004, sense only)",
    status="published",
    tolerance="sign",
)
def test_augmentation_falls_with_load() -> None:
    x, r = duct_contour(DUCTS[0][0], 40)
    flow = axisymmetric(x, r, rotor_x=throat_x(DUCTS[0][0]), head_coefficients=LADDER)
    augmentation = 2.0 * flow.speed_ratio / (1.0 + flow.far_wake_speed)
    assert np.all(np.diff(augmentation) < 0.0)
    assert response_at(flow, 0.55).speed_ratio < response_at(flow, 0.54).speed_ratio
