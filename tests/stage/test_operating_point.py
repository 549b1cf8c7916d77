"""Design and operating point on an invented machine: books, signs, smoothness, refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import Cancelled, InputError, NoAnswerError
from racewright.machine.row import Row
from racewright.stage.bands import PowerBands
from racewright.stage.curves import power_curve, speed_ratio_curve
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint
from racewright.stage.solve import trial_at
from racewright.stage.stage_ready import ready_stage
from racewright.uncertainty import Band
from tests.stage.machines import DRIVE, FRESH, flow, rough_unit, smooth_unit, unit

Floats = NDArray[np.float64]
FLOW = flow(sheared=True)
UNIT = unit()
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
DESIGN_SPEED = 2.0 * 2.5 / float(BLADES.radius[-1])


def _point(
    blades: Row = BLADES, vanes: Row = VANES, speed: float = 2.5, rotor: float = DESIGN_SPEED
) -> OperatingPoint:
    return operating_point(UNIT, vanes, blades, FLOW, FRESH, speed, rotor)


def test_design_point_returns_the_intent() -> None:
    point = _point()
    assert point.converged
    assert abs(point.residual) <= 1e-10
    assert point.head_coefficient == pytest.approx(0.62, abs=1e-9)
    assert point.tip_speed_ratio == pytest.approx(2.0, abs=1e-12)
    assert point.triangles.swirl_in * point.triangles.radius == pytest.approx(
        point.triangles.swirl_in[0] * point.triangles.radius[0], rel=5e-4
    )
    assert np.max(np.abs(point.triangles.swirl_out)) < 3e-4 * np.max(point.triangles.swirl_in)
    assert point.vane_state == point.blade_state == ("attached",) * 5
    assert point.losses.exit_swirl < 0.002
    assert 0.85 < point.hydraulic_efficiency < 1.0
    assert point.band.low == pytest.approx(0.75 * point.shaft_power)
    assert point.band.high == pytest.approx(1.25 * point.shaft_power)


def test_rows_are_shaped_as_stated() -> None:
    """Leading edges lie along the inflow; deviation is positive; the tip stands the gap from the wall."""
    angles = _point().triangles
    assert VANES.stagger - 0.5 * VANES.camber == pytest.approx(0.0, abs=1e-12)
    assert BLADES.stagger - 0.5 * BLADES.camber == pytest.approx(angles.relative_angle_in, abs=1e-4)
    assert np.all(angles.relative_angle_out > BLADES.stagger + 0.5 * BLADES.camber)
    assert BLADES.radius[-1] == pytest.approx(0.5 / 1.01)
    assert BLADES.clearance == pytest.approx(0.5 - BLADES.radius[-1])
    turned = design_rows(unit(turned=0.03), FLOW, FRESH)[0]
    assert turned.stagger - VANES.stagger == pytest.approx(0.03)


@pytest.mark.parametrize("ratio", [0.6, 1.2, 2.0, 2.7, 3.3])
@pytest.mark.parametrize("speed", [0.8, 2.5])
def test_inside_energy_book(ratio: float, speed: float) -> None:
    """Shaft power + row losses = rho dh Q. The head comes from axial forces and swirl energy, the power from
    torque, the losses from drag along the mean velocity."""
    point = _point(speed=speed, rotor=ratio * speed / float(BLADES.radius[-1]))
    losses = point.losses
    lost = (losses.vane_profile + losses.blade_profile + losses.tip_clearance + losses.end_wall) * 0.5 * speed**2
    weight = FRESH.density * point.flow_rate
    assert point.shaft_power + weight * lost == pytest.approx(weight * point.head_drop, rel=1e-8, abs=1e-8)


@pytest.mark.parametrize("ratio", [0.0, 0.6, 1.2, 2.0, 2.7, 3.3])
def test_angular_momentum_book(ratio: float) -> None:
    """Torque on rotor and vanes from lift and drag, and swirl that leaves from the angles, add up to
    nothing.
    """
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    turning = np.array([ratio * 2.5 / stage.tip_radius])
    rows = trial_at(stage, np.array([2.5]), turning, np.array([0.55])).rows
    leaving = rows.flow_rate[0] * rows.swirl_exit[0]
    assert rows.torque[0] + rows.vane_torque[0] + leaving == pytest.approx(0.0, abs=1e-8 * abs(rows.vane_torque[0]))
    assert abs(rows.vane_torque[0]) > 1e-3


def test_roll_moment_is_the_leaving_swirl() -> None:
    point = _point(rotor=0.7 * DESIGN_SPEED)
    assert point.roll_moment == pytest.approx(FRESH.density * point.flow_rate * point.swirl_exit)
    assert abs(point.roll_moment) > 0.1 * point.torque
    assert abs(_point().roll_moment) < 0.05 * point.torque


def test_thrust_is_momentum_thrust() -> None:
    """Without swirl and walls CT = 2 u (1 - w) on the annulus, and coefficients go with the dimensional numbers."""
    point = _point()
    wake = np.sqrt(1.0 - point.load)
    area = np.pi * (0.5**2 - 0.15**2)
    assert point.thrust_coefficient == pytest.approx(2.0 * point.speed_ratio * (1.0 - wake), rel=2e-3)
    parts = point.forces
    assert parts.rotor + parts.vanes + parts.duct + parts.hub + parts.debris == pytest.approx(point.thrust, rel=1e-12)
    dynamic = 0.5 * FRESH.density * area * 2.5**2
    assert point.thrust == pytest.approx(point.thrust_coefficient * dynamic)
    assert point.shaft_power == pytest.approx(point.power_coefficient * dynamic * 2.5)
    assert point.exit_power_coefficient == pytest.approx(point.power_coefficient * area / (np.pi * 0.4))
    assert point.flow_rate == pytest.approx(point.speed_ratio * 2.5 * area)


def test_power_grows_with_speed_and_size() -> None:
    powers = [_point(speed=s, rotor=DESIGN_SPEED * s / 2.5).shaft_power for s in (1.5, 2.0, 2.5, 3.0)]
    assert np.all(np.diff(powers) > 0.0)
    assert powers[2] / powers[0] == pytest.approx((2.5 / 1.5) ** 3, rel=0.05)
    big = unit(1.2)
    wide = flow(1.2, sheared=True)
    vanes, blades = design_rows(big, wide, FRESH)
    larger = operating_point(big, vanes, blades, wide, FRESH, 2.5, 5.0 / float(blades.radius[-1]))
    assert larger.shaft_power > 1.4 * powers[2]


def test_wider_gap_takes_power() -> None:
    """1 to 3 % of the tip radius at one rotor speed, blades cut back: power and efficiency fall."""
    tip = 0.5 / 1.03
    at = np.append(BLADES.radius[:-1], tip)

    def cut(values: Floats) -> Floats:
        return np.interp(at, BLADES.radius, values)

    short = replace(
        BLADES,
        radius=at,
        chord=cut(BLADES.chord),
        stagger=cut(BLADES.stagger),
        camber=cut(BLADES.camber),
        clearance=0.5 - tip,
    )
    narrow, wide = _point(), _point(blades=short)
    only_gap = _point(blades=replace(BLADES, clearance=0.015))
    assert wide.shaft_power < only_gap.shaft_power < narrow.shaft_power
    assert wide.hydraulic_efficiency < narrow.hydraulic_efficiency
    assert wide.losses.tip_clearance > narrow.losses.tip_clearance
    assert {r.about for r in wide.remarks} >= {"tip clearance"}


def test_vanes_turned_two_degrees() -> None:
    """More pre-swirl at one rotor speed: head and torque rise, and swirl leaves with the rotation."""
    turned = replace(VANES, stagger=VANES.stagger + np.radians(2.0))
    before, after = _point(), _point(vanes=turned)
    assert after.head_coefficient > before.head_coefficient + 0.01
    assert after.torque > 1.01 * before.torque
    assert abs(after.swirl_exit) > 3.0 * abs(before.swirl_exit)


def test_roughness_takes_power() -> None:
    rough = operating_point(rough_unit(), VANES, BLADES, FLOW, FRESH, 2.5, DESIGN_SPEED)
    clean = _point()
    assert rough.shaft_power < clean.shaft_power
    assert rough.losses.blade_profile > 1.1 * clean.losses.blade_profile


def test_smooth_over_speed_ratio() -> None:
    """Second differences fall as the step squared where sections are attached, and stay small in stall."""
    fine = speed_ratio_curve(UNIT, VANES, BLADES, FLOW, FRESH, 2.5, np.linspace(1.6, 3.4, 73))
    bends = [np.max(np.abs(np.diff(fine.power_coefficient[::k], 2))) for k in (4, 2, 1)]
    assert bends[0] < 0.006
    assert bends[0] / bends[1] == pytest.approx(4.0, rel=0.15)
    assert bends[1] / bends[2] == pytest.approx(4.0, rel=0.15)
    stalled = speed_ratio_curve(UNIT, VANES, BLADES, FLOW, FRESH, 2.5, np.linspace(0.0, 1.6, 65))
    assert stalled.tip_speed_ratio.size == 65
    assert np.max(np.abs(np.diff(stalled.power_coefficient, 2))) < 0.004


def test_held_and_driven_rotor() -> None:
    held = _point(rotor=0.0)
    assert held.shaft_power == 0.0
    assert held.torque > 0.0
    assert "blade sections" in {r.about for r in held.remarks}
    driven = _point(rotor=3.5 * 2.5 / float(BLADES.radius[-1]))
    assert driven.shaft_power < 0.0
    assert driven.band.low < driven.band.value < driven.band.high
    assert "driven rotor" in {r.about for r in driven.remarks}
    with pytest.raises(NoAnswerError, match="braking"):
        _point(rotor=3.0 * DESIGN_SPEED)


def test_too_much_head_is_said() -> None:
    short = replace(
        FLOW,
        head_coefficient=FLOW.head_coefficient[:7],
        far_wake_speed=FLOW.far_wake_speed[:7],
        speed_ratio=FLOW.speed_ratio[:7],
        exit_speed_ratio=FLOW.exit_speed_ratio[:7],
        profile=FLOW.profile[:7],
        duct_force=FLOW.duct_force[:7],
        hub_force=FLOW.hub_force[:7],
        converged=FLOW.converged[:7],
    )
    with pytest.raises(NoAnswerError, match="reach"):
        operating_point(UNIT, VANES, BLADES, short, FRESH, 2.5, DESIGN_SPEED)
    with pytest.raises(NoAnswerError):
        design_rows(UNIT, short, FRESH)


def test_remarks_follow_the_numbers() -> None:
    no_gap = operating_point(smooth_unit(), *design_rows(smooth_unit(), FLOW, FRESH), FLOW, FRESH, 2.5, 5.0 / 0.5)
    assert any(r.about == "tip clearance" and r.severity == "note" for r in no_gap.remarks)
    slow = _point(speed=0.5, rotor=DESIGN_SPEED / 5.0)
    assert "Reynolds number" in {r.about for r in slow.remarks}
    for ratio, severity in ((1.6, None), (1.15, "caution"), (1.0, "warning")):
        small = replace(UNIT, duct=replace(UNIT.duct, exit_area_ratio=ratio))
        point = operating_point(small, VANES, BLADES, FLOW, FRESH, 2.5, DESIGN_SPEED)
        told = [r.severity for r in point.remarks if r.about == "exit power"]
        assert told == ([] if severity is None else [severity])


def test_refusals() -> None:
    for speed, rotor in ((0.0, 1.0), (-1.0, 1.0), (float("nan"), 1.0), (1.0, -0.1), (1.0, float("inf"))):
        with pytest.raises(InputError):
            _point(speed=speed, rotor=rotor)
    with pytest.raises(InputError, match="wall"):
        _point(blades=replace(BLADES, radius=BLADES.radius * 1.05))
    with pytest.raises(InputError, match="hub"):
        _point(blades=replace(BLADES, radius=np.linspace(0.2, 0.49, 5)))
    with pytest.raises(InputError, match="annulus"):
        operating_point(UNIT, VANES, BLADES, replace(FLOW, annulus_area=0.8), FRESH, 2.5, 10.0)
    with pytest.raises(InputError, match="head_coefficient"):
        design_rows(replace(UNIT, design=replace(UNIT.design, head_coefficient=1.2)), FLOW, FRESH)
    with pytest.raises(InputError, match="pitches"):
        design_rows(replace(UNIT, vanes=replace(UNIT.vanes, count=30)), FLOW, FRESH)
    with pytest.raises(NoAnswerError, match="cannot turn"):
        design_rows(replace(UNIT, blades=replace(UNIT.blades, hub_chord=0.02, tip_chord=0.02)), FLOW, FRESH)


@pytest.mark.parametrize(("head", "ratio"), [(0.3, 1.5), (0.5, 1.0), (0.65, 3.0), (0.85, 2.0), (0.3, 4.0)])
def test_other_intents(head: float, ratio: float) -> None:
    """Designs of light and heavy load, slow and fast, return their own head and leave little swirl."""
    other = replace(UNIT, design=replace(UNIT.design, head_coefficient=head, tip_speed_ratio=ratio))
    vanes, blades = design_rows(other, FLOW, FRESH)
    rotor = ratio * 2.5 / float(blades.radius[-1])
    point = operating_point(other, vanes, blades, FLOW, FRESH, 2.5, rotor)
    assert point.head_coefficient == pytest.approx(head, abs=1e-9)
    assert abs(point.swirl_exit) < 0.05 * float(point.triangles.swirl_in[0] * point.triangles.radius[0])


def test_cancel() -> None:
    def stop(fraction: float) -> None:
        if fraction > 0.2:
            raise Cancelled("stopped")

    with pytest.raises(Cancelled):
        operating_point(UNIT, VANES, BLADES, FLOW, FRESH, 2.5, DESIGN_SPEED, tick=stop)


def test_power_curve() -> None:
    speeds = np.linspace(0.0, 4.0, 41)
    curve = power_curve(UNIT, DRIVE, VANES, BLADES, FLOW, FRESH, speeds)
    assert np.all(curve.electrical_power[speeds < 0.7] == 0.0)
    assert np.all(curve.electrical_power <= 5000.0)
    assert np.all(curve.electrical_power[curve.limited] == 5000.0)
    assert np.all(np.diff(curve.electrical_power) >= 0.0)
    assert np.any(curve.limited)
    assert np.all(curve.thrust[1:] > 0.0)
    below = ~curve.limited & (speeds >= 0.7)
    assert curve.electrical_power[below] == pytest.approx(curve.shaft_power[below] * 0.97 * 0.92)
    assert np.all(curve.band_low <= curve.electrical_power)
    assert np.all(curve.electrical_power <= curve.band_high)
    assert np.all(curve.band_high <= 5000.0)
    at = int(np.argmin(np.abs(speeds - 2.5)))
    assert curve.shaft_power[at] == pytest.approx(_point().shaft_power, rel=1e-9)
    bands = PowerBands(100.0, (), Band(60.0, 100.0, 130.0, ""))
    other = power_curve(UNIT, DRIVE, VANES, BLADES, FLOW, FRESH, speeds, bands=bands)
    assert other.band_low[below] == pytest.approx(0.6 * curve.electrical_power[below])
    assert other.band_high[below] == pytest.approx(np.minimum(1.3 * curve.electrical_power[below], 5000.0))
    with pytest.raises(InputError):
        power_curve(UNIT, DRIVE, VANES, BLADES, FLOW, FRESH, np.array([1.0, 1.0]))


def test_uniform_flow_and_more_sections() -> None:
    """A uniform profile designs as well, and 5 and 9 sections agree on the power."""
    even = flow()
    powers = []
    for count in (5, 9):
        vanes, blades = design_rows(UNIT, even, FRESH, sections=count)
        powers.append(operating_point(UNIT, vanes, blades, even, FRESH, 2.5, DESIGN_SPEED).shaft_power)
    assert powers[0] == pytest.approx(powers[1], rel=2e-4)
