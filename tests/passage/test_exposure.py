"""Pressure and strain along the lines."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.flow.field import velocity
from racewright.passage.exposure import exposure
from racewright.passage.line_pressure import line_pressure
from racewright.passage.lines import through_lines
from racewright.passage.suction import row_suction
from racewright.stage.cavitation import STANDARD_ATMOSPHERE
from racewright.stage.cover import GRAVITY
from tests.passage.machine import DEPTH, FRESH, machine


def felt(depth: float = DEPTH, **more):
    one = machine()
    return exposure(one.vanes, one.blades, one.flow, FRESH, one.point, depth, **more)


def test_lines_stand_for_all_of_the_flow():
    lines = through_lines(machine().flow, machine().point.load, count=10)
    assert lines.share.sum() == pytest.approx(1.0, rel=1e-12)
    capture = float(np.sqrt(machine().point.speed_ratio * machine().flow.annulus_area / np.pi))
    assert lines.far_radius[-1] / 0.95 == pytest.approx(capture, rel=0.01)
    assert np.all(np.diff(lines.radius, axis=0) > 0.0)


def test_at_a_solved_load_the_lines_are_the_solver_s():
    """Speed on the line against the field at the same points, off the walls."""
    flow = machine().flow
    lines = through_lines(flow, 0.6, count=8)
    axial, radial = velocity(flow, 3, lines.x[:100:7], lines.radius[3, :100:7])
    assert lines.speed[3, :100:7] == pytest.approx(np.hypot(axial, radial), rel=1e-6)


def test_between_two_loads_the_lines_lie_between():
    low, mid, high = (through_lines(machine().flow, load).radius for load in (0.5, 0.55, 0.6))
    assert mid == pytest.approx(0.5 * (low + high), rel=1e-9)


def test_pressure_behind_the_rotor_by_bernoulli():
    """Far behind, p = rho (U^2 - V^2)/2 - rho dh - rho Cth^2/2, with next to no swirl left at the design point."""
    one = machine()
    lines = through_lines(one.flow, one.point.load)
    change = line_pressure(one.vanes, one.blades, FRESH.density, one.point, lines)
    speed = lines.speed[4, -1] * one.point.stream_speed
    want = FRESH.density * (0.5 * (one.point.stream_speed**2 - speed**2) - one.point.head_drop)
    assert change[4, -1] == pytest.approx(want, rel=2e-3)
    assert abs(change[4, 0]) < 0.02 * abs(change[4].min())


def test_swirl_between_the_rows_lowers_the_pressure():
    one = machine()
    lines = through_lines(one.flow, one.point.load)
    still = replace(one.point, triangles=replace(one.point.triangles, swirl_in=np.zeros(5)))
    with_, without = (
        line_pressure(one.vanes, one.blades, FRESH.density, point, lines) for point in (one.point, still)
    )
    between = (lines.x > one.vanes.place_x) & (lines.x < one.blades.place_x)
    swirl = np.interp(
        lines.within[0], [0.0, 1.0], one.point.triangles.radius[[0, -1]] * one.point.triangles.swirl_in[[0, -1]]
    )
    want = -0.5 * FRESH.density * (swirl / lines.radius[0, between]) ** 2
    assert (with_ - without)[0, between] == pytest.approx(want, rel=0.02)
    assert np.all((with_ - without)[:, lines.x < one.vanes.place_x] == 0.0)


def test_the_nadir_is_below_what_the_fish_is_used_to():
    found = felt()
    assert np.all(found.nadir < found.acclimation)
    assert np.all(found.ratio >= 1.0)
    worst = found.worst_acclimation / found.worst_nadir
    assert worst >= found.ratio.max()
    undisturbed = STANDARD_ATMOSPHERE + FRESH.density * GRAVITY * DEPTH
    assert found.nadir.min() > undisturbed - 2.5e4


def test_a_fish_from_the_bed_suffers_more_and_depth_eases():
    assert np.all(felt(acclimation_depth=8.0).ratio > felt().ratio)
    assert np.all(felt(20.0).ratio < felt().ratio)


def test_a_fish_is_used_to_the_depth_of_its_line():
    found = felt()
    weight = FRESH.density * GRAVITY
    for line, used in zip(found.lines.far_radius, found.acclimation, strict=True):
        below, above = (STANDARD_ATMOSPHERE + weight * (DEPTH + side * line) for side in (1.0, -1.0))
        assert min(abs(used - below), abs(used - above)) < 1e-6 * used


def test_mean_suction_of_the_rows():
    """Half of rho W Gamma over chord, W the mean of before and behind, Gamma = pitch x change of swirl."""
    one = machine()
    known = one.point.triangles
    pitch = 2.0 * np.pi * known.radius
    turned = known.swirl_in - known.swirl_out
    blade = np.hypot(known.axial_speed, 0.5 * (known.swirl_in + known.swirl_out) - known.blade_speed)
    blade = 0.5 * FRESH.density * blade * pitch / 5 * turned / one.blades.chord
    vane = np.hypot(known.axial_speed, 0.5 * known.swirl_in) * pitch / 7 * known.swirl_in
    vane = 0.5 * FRESH.density * vane / np.interp(known.radius, one.vanes.radius, one.vanes.chord)
    want = max(blade.max(), vane.max())
    assert row_suction(one.vanes, one.blades, FRESH.density, one.point) == pytest.approx(want, rel=1e-12)


def test_strain_rates_by_place():
    one = machine()
    rates = dict(zip(felt().strains.place, felt().strains.rate, strict=True))
    blade = np.hypot(one.point.triangles.axial_speed, one.point.triangles.blade_speed - one.point.triangles.swirl_out)
    assert rates["blades"] == pytest.approx(blade.max() / 0.018, rel=1e-12)
    assert rates["through-flow"] < rates["walls"]
    assert felt().strains.largest == max(rates.values())


def test_above_the_solved_loads_it_says_so():
    one = machine()
    heavy = replace(one.point, load=0.97)
    found = exposure(one.vanes, one.blades, one.flow, FRESH, heavy, DEPTH)
    assert any(remark.about == "streamlines" for remark in found.remarks)
    assert found.lines.load == pytest.approx(0.9)


def test_pressure_below_zero_absolute_is_no_answer():
    one = machine()
    fast = replace(one.point, stream_speed=40.0)
    with pytest.raises(NoAnswerError, match="absolute"):
        exposure(one.vanes, one.blades, one.flow, FRESH, fast, DEPTH)


@pytest.mark.parametrize(
    ("depth", "more", "said"),
    [
        (0.4, {}, "below the surface"),
        (math.nan, {}, "hub_depth"),
        (DEPTH, {"acclimation_depth": -1.0}, "acclimation_depth"),
        (DEPTH, {"atmosphere": 0.0}, "atmosphere"),
        (DEPTH, {"count": 1}, "4 to 40"),
    ],
)
def test_refused(depth, more, said):
    with pytest.raises(InputError, match=said):
        felt(depth, **more)
