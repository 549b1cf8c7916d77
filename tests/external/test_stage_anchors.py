"""Measured ducted machines beside like ducts: their sections are unknown, so this is a scale, not a validation."""

from __future__ import annotations

import csv

import numpy as np
import pytest

from racewright.flow.axisymmetric import axisymmetric
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.stage import design_rows, operating_point
from racewright.uncertainty import PRIOR_DUCTED_POWER
from tests.external.like_ducts import curved_plate, straight
from tests.external.record import Record
from tests.external.stage_data import DATA
from tests.stage.machines import FRESH

BETZ = 16.0 / 27.0


def _anchor(name: str) -> str:
    with (DATA / "stage_anchors.csv").open(newline="") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return next(row["value"] for row in rows if row["id"] == name)


@pytest.mark.outside(
    source="Reinecke et al. (Stellenbosch), abstract: curved-plate diffuser, exit/rotor area 3.29, towed at 1.5 m/s",
    status="published",
    tolerance="25 %; ducted CP 1.74; like duct: exit ratio 3.0, the largest built, length 1 and 1.6, ideal disc",
)
def test_towed_ducted_rotor_beside_the_closest_duct(record_property: Record) -> None:
    """Ideal disc in ducts of exit ratio 3.0, short and longer; the measured figure bears rotor losses, these none."""
    measured = float(_anchor("E2"))
    for length, thickness in ((1.0, 0.10), (1.6, 0.08)):
        found = straight(3.0, length, thickness)
        record_property(
            "measured",
            f"CP {found.throat_coefficient:.2f} on the throat beside {measured:g}, {found.exit_coefficient:.2f} on"
            f" the exit beside {_anchor('E5')} at length {length:g}",
        )
        assert abs(found.throat_coefficient / measured - 1.0) < PRIOR_DUCTED_POWER
        assert abs(found.exit_coefficient / float(_anchor("E5")) - 1.0) < PRIOR_DUCTED_POWER


@pytest.mark.outside(
    source="Reinecke et al. (Stellenbosch), abstract: CP 0.43 bare, 1.74 ducted on rotor area",
    status="published",
    tolerance="25 %; bent plate of exit ratio 3.29, length 1.5 and 2.2, times the bare rotor's share of Betz's limit",
)
def test_towed_ducted_rotor_beside_bent_plates(record_property: Record) -> None:
    """Rotor losses as of the same rotor without a duct: 0.43 of 0.593. Shorter plates give more."""
    measured, share = float(_anchor("E2")), float(_anchor("E1")) / BETZ
    found = {length: share * curved_plate(3.29, length).throat_coefficient for length in (1.5, 2.2)}
    said = ", ".join(f"{power:.2f} at length {length:g}" for length, power in found.items())
    record_property("measured", f"CP {said} beside {measured:g}")
    assert found[1.5] > found[2.2]
    assert abs(found[1.5] / measured - 1.0) < PRIOR_DUCTED_POWER
    assert abs(found[2.2] / measured - 1.0) < PRIOR_DUCTED_POWER


@pytest.mark.outside(
    source="Hansen, Sorensen & Flay 2000, Wind Energy 3, 207 (computed, not measured): disc CP 0.94, area ratio 1.84",
    status="from memory",
    tolerance="25 %: like duct of 12 % sections, 0.6 and 1.0 throat diameters long; the paper's section is unknown",
)
def test_computed_duct_of_area_ratio_1_84(record_property: Record) -> None:
    reference = float(_anchor("E20"))
    found = {length: straight(1.84, length, 0.12).throat_coefficient for length in (0.6, 1.0)}
    said = ", ".join(f"{power:.2f} at length {length:g}" for length, power in found.items())
    record_property("measured", f"CP {said} beside {reference:g}")
    assert all(abs(power / reference - 1.0) < PRIOR_DUCTED_POWER for power in found.values())


@pytest.mark.outside(
    source="measured ducted devices stop near CP 0.5 to 0.6 on the exit area; 0.25 as the least of a sound one",
    status="common practice",
    tolerance="CP on the exit area between 0.25 and 0.60",
)
@pytest.mark.parametrize(("exit_area_ratio", "length"), [(1.5, 1.0), (1.7, 0.8)])
def test_whole_stages_keep_within_measured_powers(
    exit_area_ratio: float, length: float, record_property: Record
) -> None:
    """Both rows designed and solved at CH 0.6, in two ducts of area ratio up to 1.7."""
    unit = Unit(
        Duct(0.5, exit_area_ratio, length, 0.12),
        Hub(0.13, -0.15, 0.2, 0.45, 0.4),
        RowIntent(7, 0.14, 0.16, 0.20, 0.12),
        RowIntent(5, 0.36, 0.15, 0.18, 0.12, clearance=0.008),
        DesignIntent(2.4, 0.6, 2.2),
    )
    x, r = duct_contour(unit.duct, 24)
    hub_x, hub_r = hub_contour(unit.hub, 24)
    flow = axisymmetric(
        x,
        r,
        rotor_x=unit.blades.place_x,
        hub_x=hub_x,
        hub_r=hub_r,
        wake_panels=40,
        head_coefficients=(0.0, 0.3, 0.5, 0.6, 0.7, 0.8, 0.92),
    )
    vanes, blades = design_rows(unit, flow, FRESH)
    turning = 2.2 * 2.4 / float(blades.radius[-1])
    point = operating_point(unit, vanes, blades, flow, FRESH, 2.4, turning)
    record_property(
        "measured",
        f"{point.exit_power_coefficient:.3f} at exit ratio {exit_area_ratio:g}, length {length:g}",
    )
    assert set(point.vane_state + point.blade_state) == {"attached"}
    assert 0.25 < point.exit_power_coefficient < 0.60
    assert np.isfinite(point.shaft_power)
