"""The solver: conservation, convergence, refusal, what happens at loads out of reach."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.bare_disc import bare_disc
from racewright.flow.field import velocity
from racewright.flow.forces import momentum_force
from racewright.flow.ladder import LADDER
from racewright.flow.profile import area_mean
from racewright.flow.result import Axisymmetric
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour, hub_radius
from tests.flow.conftest import DUCT, HUB, solve


def test_every_load_of_the_ladder_converges_in_few_steps(flow: Axisymmetric) -> None:
    assert flow.head_coefficient == pytest.approx(LADDER)
    assert flow.converged.all()
    assert flow.residual.max() < 1e-9
    assert flow.iterations.max() <= 5
    assert flow.remarks == ()


def test_result_is_finite_and_has_the_shapes_it_says(flow: Axisymmetric) -> None:
    m = len(LADDER)
    for field in dataclasses.fields(flow):
        value = getattr(flow, field.name)
        if isinstance(value, np.ndarray):
            assert np.all(np.isfinite(value)), field.name
    assert flow.profile.shape == (m, flow.station_radius.size)
    assert flow.duct_speed.shape == (m, flow.duct_x.size - 1)
    assert flow.hub_speed.shape == (m, flow.hub_x.size - 1)
    assert flow.wake_strength.shape == (m, flow.wake_r.shape[1] - 1)
    hub = float(hub_radius(HUB, throat_x(DUCT)))
    assert flow.annulus_area == pytest.approx(math.pi * (0.5**2 - hub**2), rel=1e-4)
    assert flow.station_radius[[0, -1]] == pytest.approx([hub, 0.5], rel=1e-3)


def test_head_drop_slows_rotor_exit_and_far_wake(flow: Axisymmetric) -> None:
    for speeds in (flow.speed_ratio, flow.exit_speed_ratio, flow.far_wake_speed):
        assert np.all(np.diff(speeds) < 0.0)
    assert flow.far_wake_speed == pytest.approx(np.sqrt(1.0 - flow.head_coefficient))


def test_flow_through_the_rotor_is_the_flow_of_the_far_wake(flow: Axisymmetric) -> None:
    """Q = u A = w pi R^2 far downstream, R the last wake radius.

    Where the wake ends it is still widening a little, the more the slower it is.
    """
    far = flow.far_wake_speed * math.pi * flow.wake_r[:, -1] ** 2
    assert flow.speed_ratio * flow.annulus_area == pytest.approx(far, rel=5e-3)


def test_profile_integrates_to_the_flow_that_the_stream_function_gives() -> None:
    """The profile comes from velocities, u from psi on the wall: they agree before the profile is scaled."""
    one = solve(DUCT, HUB, 80, (0.0, 0.8))
    radius = np.linspace(one.station_radius[3], one.station_radius[-4], 41)
    for load in (0, 1):
        axial, _ = velocity(one, load, np.full(41, throat_x(DUCT)), radius)
        spline = np.interp(radius, one.station_radius, one.profile[load]) * one.speed_ratio[load]
        assert area_mean(radius, axial) == pytest.approx(area_mean(radius, spline), rel=2e-3)


@pytest.mark.parametrize("load", [0, 9])
def test_sheet_strength_is_head_drop_over_mean_speed(flow: Axisymmetric, load: int) -> None:
    """On the far panels the mean of inner and outer speed is (1 + w)/2 and strength w - 1."""
    assert flow.wake_strength[load, -1] == pytest.approx(flow.far_strength[load], rel=3e-3, abs=1e-12)
    assert flow.far_strength[load] == pytest.approx(math.sqrt(1.0 - LADDER[load]) - 1.0)


def test_pressures_are_equal_across_the_sheet_at_the_trailing_edge(flow: Axisymmetric) -> None:
    """V_out^2 - V_in^2 = CH; the last panels' mid-points are half a panel short of the edge."""
    inner, outer = flow.duct_speed[:, 0], flow.duct_speed[:, -1]
    assert outer**2 - inner**2 == pytest.approx(flow.head_coefficient, abs=0.02)


def test_force_mismatch_falls_with_the_square_of_the_panels() -> None:
    worst = []
    for panels in (20, 40, 80):
        one = solve(DUCT, HUB, panels, (0.0, 0.4))
        total = one.duct_force + one.hub_force
        worst.append(np.max(np.abs(total - momentum_force(one.head_coefficient, one.speed_ratio))))
    orders = np.log2(np.array(worst[:-1]) / np.array(worst[1:]))
    assert np.all(orders > 1.7), worst


def test_speed_ratio_converges_with_panels_and_wake() -> None:
    x, r = duct_contour(DUCT, 40)
    coarse = axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.6, 0.85))
    finer = axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.6, 0.85), wake_panels=160)
    assert coarse.speed_ratio == pytest.approx(finer.speed_ratio, rel=5e-4)
    x, r = duct_contour(DUCT, 80)
    finer = axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.6, 0.85))
    assert coarse.speed_ratio == pytest.approx(finer.speed_ratio, rel=2.5e-3)


def test_flow_does_not_depend_on_the_unit_of_length(flow: Axisymmetric) -> None:
    x, r = duct_contour(DUCT, 40)
    hub_x, hub_r = hub_contour(HUB, 40)
    big = axisymmetric(
        1e3 * x,
        1e3 * r,
        hub_x=1e3 * hub_x,
        hub_r=1e3 * hub_r,
        rotor_x=1e3 * throat_x(DUCT),
        head_coefficients=(0.0, 0.5),
    )
    assert big.speed_ratio == pytest.approx(flow.speed_ratio[[0, 5]], rel=1e-7)


def test_answers_repeat_to_the_last_bit() -> None:
    one, two = solve(DUCT, None, 30), solve(DUCT, None, 30)
    assert one.speed_ratio.tobytes() == two.speed_ratio.tobytes()
    assert one.profile.tobytes() == two.profile.tobytes()


def test_loads_in_one_leap_give_the_same_flow(flow: Axisymmetric) -> None:
    """A leap that Newton's method cannot take is cut into smaller ones."""
    leap = solve(DUCT, HUB, 40, (0.0, 0.95))
    assert leap.converged.all()
    assert leap.speed_ratio[1] == pytest.approx(flow.speed_ratio[-1], rel=1e-7)


def test_load_out_of_reach_is_reported_and_higher_ones_left_out() -> None:
    """A long thick duct with no opening passes almost nothing before the ladder ends."""
    x, r = section_contour(AnnularSection(0.65, -0.145, 1.2, 0.25), 40)
    one = axisymmetric(x, r, rotor_x=0.6)
    assert one.converged[:-1].all()
    assert not one.converged[-1]
    assert one.head_coefficient.size < len(LADDER)
    assert np.all(np.isfinite(one.speed_ratio))
    assert np.all(np.isfinite(one.profile))
    remark = next(r for r in one.remarks if r.about == "convergence")
    assert remark.severity == "warning"
    assert f"{one.head_coefficient[-1]:.4g}" in remark.text
    assert "not tried" in remark.text
    assert "the duct clogs" in remark.text
    assert f"the speed ratio was {one.speed_ratio[-2]:.3f}" in remark.text


def test_too_few_panels_for_a_thin_nose_are_remarked() -> None:
    x, r = section_contour(AnnularSection(0.5, math.radians(27.0), 0.6, 0.02), 20)
    one = axisymmetric(x, r, rotor_x=0.05, head_coefficients=(0.0, 0.4))
    assert [r.about for r in one.remarks] == ["panels"]


def test_bare_disc_follows_the_loads_it_is_given() -> None:
    disc = bare_disc((0.0, 0.5), wake_panels=40)
    assert disc.converged.all()
    assert disc.speed_ratio[0] == pytest.approx(1.0, abs=1e-9)
    assert np.all(np.diff(disc.wake_r[1]) > 0.0)


def test_tick_grows_to_one_and_may_cancel() -> None:
    seen: list[float] = []
    x, r = duct_contour(DUCT, 20)
    axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.2, 0.4), tick=seen.append)
    assert seen == sorted(seen)
    assert seen[0] == 0.0
    assert seen[-1] == 1.0

    def cancel(fraction: float) -> None:
        if fraction > 0.3:
            raise Cancelled("stop")

    with pytest.raises(Cancelled):
        axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.2, 0.4), tick=cancel)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
@pytest.mark.parametrize("key", ["duct_x", "duct_r", "hub_x", "hub_r", "rotor_x"])
def test_nan_and_infinity_are_refused_by_name(key: str, value: float) -> None:
    x, r = duct_contour(DUCT, 20)
    hub_x, hub_r = hub_contour(HUB, 20)
    given = {"duct_x": x, "duct_r": r, "hub_x": hub_x, "hub_r": hub_r, "rotor_x": 0.15}
    if key == "rotor_x":
        given[key] = value
    else:
        given[key] = np.where(np.arange(given[key].size) == 5, value, given[key])
    with pytest.raises(InputError, match=key):
        axisymmetric(**given)  # type: ignore[arg-type]


def test_wrong_contours_places_and_loads_are_refused() -> None:
    x, r = duct_contour(DUCT, 20)
    hub_x, hub_r = hub_contour(HUB, 20)
    for change, message in (
        ({"duct_x": x[::-1], "duct_r": r[::-1]}, "reverse it"),
        ({"duct_x": x[:-1], "duct_r": r[:-1]}, "close"),
        ({"duct_r": r - 0.6}, "above 0"),
        ({"duct_x": x[:, None]}, "one length"),
        ({"duct_x": np.repeat(x, 2), "duct_r": np.repeat(r, 2)}, "same"),
        ({"hub_x": hub_x[::-1], "hub_r": hub_r}, "nose to tail"),
        ({"hub_r": 5.0 * hub_r}, "fills the duct"),
        ({"hub_r": None}, "one length"),
        ({"rotor_x": 2.0}, "outside the duct"),
        ({"head_coefficients": (0.2, 0.4)}, "start at 0"),
        ({"head_coefficients": (0.0, 1.0)}, "below 1"),
        ({"head_coefficients": (0.0, float("nan"))}, "finite"),
        ({"head_coefficients": ()}, "finite"),
        ({"stations": 4}, "stations"),
        ({"channel_radius": 0.6}, "leaves no room"),
        ({"channel_radius": float("nan")}, "channel_radius"),
        ({"duct_r": np.where(np.arange(r.size) == 8, r + 0.2, r)}, "crosses itself"),
        ({"wake_panels": 5}, "wake_panels"),
    ):
        given = {"duct_x": x, "duct_r": r, "hub_x": hub_x, "hub_r": hub_r, "rotor_x": 0.15} | change
        with pytest.raises(InputError, match=message):
            axisymmetric(**given)  # type: ignore[arg-type]


def test_a_larger_hub_takes_area_and_speeds_the_rest() -> None:
    small, large = (solve(DUCT, dataclasses.replace(HUB, radius=radius), 30, (0.0,)) for radius in (0.05, 0.15))
    assert large.annulus_area < small.annulus_area
    assert large.speed_ratio[0] > small.speed_ratio[0]


def test_hub_off_the_disc_leaves_the_whole_throat() -> None:
    hub = Hub(0.1, 0.4, 0.2, 0.0, 0.3)
    x, r = duct_contour(DUCT, 30)
    hub_x, hub_r = hub_contour(hub, 30)
    one = axisymmetric(x, r, hub_x=hub_x, hub_r=hub_r, rotor_x=throat_x(DUCT), head_coefficients=(0.0, 0.5))
    assert one.annulus_area == pytest.approx(math.pi * 0.25, rel=1e-4)
    total = one.duct_force + one.hub_force
    assert total == pytest.approx(momentum_force(one.head_coefficient, one.speed_ratio), abs=0.01)


def test_flow_of_an_empty_duct_needs_few_panels() -> None:
    """The edge condition is met at the edge, not half a panel short of it, which would cost 6e-4 here."""
    section = AnnularSection(0.75, math.radians(10.0), 1.0, 0.15)
    flows = []
    for panels in (40, 160):
        x, r = section_contour(section, panels)
        one = axisymmetric(x, r, rotor_x=0.3, head_coefficients=(0.0,), wake_panels=20)
        flows.append(one.speed_ratio[0] * one.annulus_area)
    assert flows[0] == pytest.approx(flows[1], rel=1.5e-4)


def test_suction_on_a_thin_nose_is_resolved() -> None:
    """Panels spent on the turn of the surface: without them the force is 0.012 off here."""
    one = solve(Duct(0.5, 1.3, 0.6, 0.02), None, 80, (0.0, 0.4))
    assert one.duct_force == pytest.approx(momentum_force(one.head_coefficient, one.speed_ratio), abs=2e-3)


def test_profile_ends_with_the_speed_of_the_wall() -> None:
    """With the disc at a panel's mid-point the wall's axial speed is that panel's, turned by its slope."""
    x, r = duct_contour(DUCT, 60)
    panel = 45
    place = 0.5 * float(x[panel] + x[panel + 1])
    one = axisymmetric(x, r, rotor_x=place, head_coefficients=(0.0, 0.4))
    slope = math.hypot(x[panel + 1] - x[panel], r[panel + 1] - r[panel]) / abs(x[panel + 1] - x[panel])
    for load in (0, 1):
        axial, _ = velocity(one, load, np.full(1, place), one.station_radius[7:8])
        at_wall = abs(one.duct_speed[load, panel]) / slope
        assert one.profile[load, -1] / one.profile[load, 7] == pytest.approx(at_wall / axial[0], rel=1e-9)
