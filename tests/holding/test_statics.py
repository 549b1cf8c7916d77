"""Equilibrium and stability of a machine on its lines."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from racewright.errors import InputError
from racewright.holding import (
    Bridle,
    FixedPoint,
    Layout,
    LoadState,
    Stream,
    Tether,
    equilibrium,
    ring_wing,
    segment,
    steady_state,
)
from racewright.holding.body_forces import body_numbers, forces
from racewright.holding.statics_problem import Problem
from tests.holding.bodies import STREAM, light, machine, spread

ON_LOAD = steady_state("on load", 4000.0, 150.0, 300.0, 2.5)


def bridled(half: float = 0.6, body: object = None) -> Layout:
    """One chain-and-rope line from an anchor upstream, two legs to the machine."""
    legs = tuple((light(2.0, 1e7),) for _ in range(2))
    bridle = Bridle(((-0.4, half, 0.0), (-0.4, -half, 0.0)), legs)
    parts = (segment("studless chain", 30.0, 0.020), segment("polyester", 12.0, 0.024))
    tether = Tether("front", FixedPoint((-41.0, 0.0, 0.0)), parts, bridle)
    return Layout(machine(buoyancy=7000.0, **(body or {})), (tether,), (0.0, 0.0, 4.5))  # type: ignore[arg-type]


@pytest.mark.parametrize("layout", [spread(), bridled()], ids=["spread", "bridle"])
def test_stiffness_is_the_slope_of_the_forces(layout: Layout) -> None:
    """Following loads, drag of the lines, joint of the bridle: all in the matrix."""
    problem = Problem(layout, STREAM, ON_LOAD)
    pose = problem.start()
    size = 6 + pose.joints.size
    pose = pose.moved(np.random.default_rng(3).normal(0.0, 0.02, size))
    balance = problem.balance(pose)
    assert balance is not None
    for k in range(size):
        step = np.zeros(size)
        step[k] = 1e-5
        high, low = problem.balance(pose.moved(step)), problem.balance(pose.moved(-step))
        assert high is not None
        assert low is not None
        slope = -(high.total - low.total) / 2e-5
        assert balance.matrix[:, k] == pytest.approx(slope, rel=1e-3, abs=2e-6 * np.abs(balance.matrix).max())


@pytest.mark.parametrize("layout", [spread(), bridled()], ids=["spread", "bridle"])
def test_turning_everything_turns_the_answer(layout: Layout) -> None:
    turn = 1.1
    c, s = math.cos(turn), math.sin(turn)

    def about(p: tuple[float, float, float]) -> tuple[float, float, float]:
        return (c * p[0] - s * p[1], s * p[0] + c * p[1], p[2])

    tethers = tuple(replace(t, fixed=replace(t.fixed, position=about(t.fixed.position))) for t in layout.tethers)
    turned = replace(layout, tethers=tethers, position=about(layout.position), yaw=turn)
    first, second = equilibrium(layout, STREAM, ON_LOAD), equilibrium(turned, replace(STREAM, heading=turn), ON_LOAD)
    assert first.feasible
    assert second.position == pytest.approx(about(first.position), abs=1e-6)
    assert (second.roll, second.pitch, second.yaw - turn) == pytest.approx(
        (first.roll, first.pitch, first.yaw), abs=1e-6
    )
    assert first.stability is not None
    assert second.stability is not None
    for name in ("sway_from_yaw", "yaw_from_sway", "heave_from_pitch", "pitch_from_heave"):
        assert getattr(second.stability, name) == pytest.approx(getattr(first.stability, name), rel=1e-4, abs=1.0)
    rates = [[mode.growth_rate for mode in s.modes] for s in (first.stability, second.stability)]
    assert rates[1] == pytest.approx(rates[0], rel=1e-3, abs=1e-5)
    for a, b in zip(first.lines, second.lines, strict=True):
        assert b.tension == pytest.approx(a.tension, rel=1e-6)


def test_lines_and_loads_balance() -> None:
    found = equilibrium(bridled(), STREAM, ON_LOAD)
    assert found.feasible
    assert found.residual < 1e-8
    upright = np.array([0.0, 0.0, 1000.0])
    total = np.array(found.stream_force) + upright + np.sum([line.pull_on_body for line in found.lines], axis=0)
    assert np.abs(total).max() < 1e-5 * found.load
    assert found.lines[0].form == "grounded"
    assert found.lines[0].uplift == 0.0
    assert len(found.lines[0].leg_tensions) == 2


def test_forces_on_the_body_point_the_right_way() -> None:
    """Thrust along the axis, drag along the stream, the ring's force with the cross-flow and ahead of mid-chord."""
    body = machine(duct=ring_wing(1.4, 1.0, slope=3.0, force_place=0.2), side_drag_area=0.0)
    stream = Stream(2.0, 50.0, 25.0, profile=math.inf)
    flow = np.array([2.0, 1.0, 0.0, 25.0, 0.0, 50.0])
    turn = np.ascontiguousarray(Rotation.from_euler("z", 0.1).as_matrix())
    out, part = np.zeros(6), np.zeros(3)
    given = (body_numbers(body, stream), np.ascontiguousarray(body.outline), flow)
    place = np.array([0.0, 0.0, 25.0])

    def told(state: LoadState, speed: float = 2.0) -> np.ndarray:
        flow[0] = speed
        forces(place, turn, np.zeros(6), *given, state.coefficients, out, part)
        return out.copy()

    nothing = told(steady_state("none", 0.0, 0.0, 0.0, 2.0))
    thrust = told(steady_state("thrust", 1000.0, 0.0, 0.0, 2.0)) - nothing
    assert thrust[:3] == pytest.approx(1000.0 * math.cos(0.1) ** 2 * turn[:, 0])
    drag = told(steady_state("drag", 0.0, 0.0, 500.0, 2.0)) - nothing
    assert drag[:3] == pytest.approx([500.0, 0.0, 0.0])
    side = 0.5 * 1000.0 * 1.4 * 3.0 * 4.0 * math.cos(0.1) * math.sin(0.1)
    assert part[:2] - drag[:2] == pytest.approx([side * math.sin(0.1), -side * math.cos(0.1)])
    assert nothing[5] == pytest.approx(0.3 * side)  # ahead of the middle: it turns the nose further away
    roll = told(steady_state("roll", 0.0, 100.0, 0.0, 2.0)) - nothing
    assert roll[3:] == pytest.approx(100.0 * math.cos(0.1) ** 2 * turn[:, 0])
    back = told(steady_state("thrust", 1000.0, 0.0, 0.0, 2.0), -2.0) - told(
        steady_state("none", 0.0, 0.0, 0.0, 2.0), -2.0
    )
    assert back[:3] == pytest.approx(-thrust[:3])


def towed(lead: float) -> Layout:
    """One long light line to a point on the axis, body trimmed level, ring wing about the origin."""
    body = machine(weight=8000.0, buoyancy=8000.0, side_drag_area=0.0)
    tether = Tether("front", FixedPoint((-30.0 + lead, 0.0, 4.0), "bank"), (light(30.0),), (lead, 0.0, 0.0))
    return Layout(body, (tether,), (0.0, 0.0, 4.0))


def test_where_a_body_is_held_decides_whether_it_lies_still() -> None:
    """The ring's side force stands 0.3 m ahead of the middle. Held on a long nose the machine lies still; held near,
    it fishtails although the stiffness has no negative determinant; held behind, it swings round.
    """
    thrust = steady_state("thrust", 3000.0, 0.0, 0.0, 2.0)
    stream = Stream(2.0, 8.0, 4.0, profile=math.inf)
    far = equilibrium(towed(-2.0), stream, thrust)
    assert far.feasible
    assert abs(far.yaw) < 0.01
    assert far.stability is not None
    assert far.stability.holds_still
    assert far.stability.yaw_from_sway != pytest.approx(far.stability.sway_from_yaw, rel=0.1)
    near = equilibrium(towed(-0.6), stream, thrust)
    assert near.reason is not None
    assert (near.reason.code, near.reason.about) == ("unstable", "yaw")
    assert np.linalg.det(near.stiffness) > 0.0
    behind = equilibrium(towed(0.1), stream, thrust)
    assert abs(behind.yaw) > 0.5


def test_top_heavy_bodies_capsize() -> None:
    body = machine(centre_of_weight=(0.0, 0.0, 0.3), centre_of_buoyancy=(0.0, 0.0, -0.3))
    found = equilibrium(replace(towed(-0.6), body=body), STREAM, ON_LOAD)
    assert found.reason is not None
    assert found.reason.code == "capsizes"
    assert found.reason.value > found.reason.limit


def test_lying_far_over_counts_as_capsized() -> None:
    """sin(roll) = 0.9 is a balance at 64 degrees, and no safe one."""
    body = machine(weight=8000.0, buoyancy=8000.0, side_drag_area=0.0, drag_centre=(0.5, 0.0, 0.0), duct=None)
    righting = 8000.0 * (0.10 + 0.15)
    stream = Stream(2.0, 8.0, 4.0, profile=math.inf)
    for share, code in ((0.8, ""), (0.9, "capsizes")):
        state = steady_state("moment", 0.0, share * righting, 2000.0, 2.0)
        found = equilibrium(replace(towed(-0.6), body=body), stream, state)
        assert found.settled
        assert math.sin(found.roll) == pytest.approx(share, abs=1e-3)
        assert (found.reason.code if found.reason else "") == code


def test_reasons_are_data_in_their_order() -> None:
    weak = spread()
    thin = tuple(replace(t, segments=(replace(t.segments[0], strength=2000.0),)) for t in weak.tethers)
    found = equilibrium(replace(weak, tethers=thin), STREAM, ON_LOAD)
    assert [r.code for r in found.reasons] == ["line parts"] * len(found.reasons)
    assert found.reasons[0].value > found.reasons[0].limit == 2000.0
    assert found.settled
    assert not found.feasible
    flat = tuple(replace(t, fixed=replace(t.fixed, uplift_limit=0.0)) for t in weak.tethers)
    lifted = equilibrium(replace(weak, tethers=flat), STREAM, ON_LOAD)
    assert {r.code for r in lifted.reasons} == {"anchor lifts"}
    heavy = equilibrium(replace(weak, body=machine(weight=20000.0)), STREAM, ON_LOAD)
    assert heavy.reason is not None
    assert heavy.reason.code == "sinks"
    assert heavy.bed_clearance < 0.0
    buoyed = tuple(replace(t, segments=(replace(t.segments[0], length=25.0),)) for t in weak.tethers)
    risen = equilibrium(replace(weak, tethers=buoyed), replace(STREAM, speed=0.2), ON_LOAD)
    assert risen.reason is not None
    assert risen.reason.code == "surfaced"
    assert risen.cover < 0.0


def test_slack_and_strumming_lines_are_told() -> None:
    found = equilibrium(spread(share=1.2), STREAM, steady_state("hard", 9000.0, 0.0, 300.0, 2.0))
    assert found.settled
    about = {r.about for r in found.remarks}
    assert "slack" in about
    assert "strumming" in about
    slack = [line.name for line in found.lines if line.form == "slack"]
    assert slack == ["port stern", "starboard stern"]


def test_modes_of_a_spread() -> None:
    found = equilibrium(spread(), STREAM, ON_LOAD)
    still = found.stability
    assert still is not None
    assert still.holds_still
    assert len(still.modes) >= 6
    assert all(max(mode.shape) == pytest.approx(1.0) for mode in still.modes)
    assert still.stable == (still.modes[0].growth_rate <= 1e-6)
    values = np.linalg.eigvals(found.stiffness)
    assert values.real.min() > 0.0


@pytest.mark.parametrize(
    "bad",
    [
        lambda: machine(weight=math.nan),
        lambda: machine(outline=np.zeros((0, 3))),
        lambda: machine(centre_of_weight=(0.0, math.inf, 0.0)),
        lambda: machine(inertia=-np.eye(6)),
        lambda: FixedPoint((0.0, 0.0, 0.0), "moon"),  # type: ignore[arg-type]
        lambda: FixedPoint((0.0, 0.0, 0.0), uplift_limit=math.nan),
        lambda: Tether("x", FixedPoint((0.0, 0.0, 0.0)), (), (0.0, 0.0, 0.0)),
        lambda: Tether("", FixedPoint((0.0, 0.0, 0.0)), (light(1.0),), (0.0, 0.0, 0.0)),
        lambda: Bridle(((0.0, 0.0, 0.0),), ((light(1.0),),)),
        lambda: replace(spread(), tethers=()),
        lambda: replace(spread(), tethers=spread().tethers[:1] * 2),
        lambda: spread().without("nobody"),
        lambda: steady_state("x", math.nan, 0.0, 0.0, 2.0),
        lambda: LoadState("x", np.array([2.0, 1.0]), np.zeros(2), np.zeros(2)),
        lambda: LoadState("x", np.array([1.0]), np.zeros(1), np.zeros(1), np.array([-1.0])),
        lambda: ring_wing(1.0, 100.0),
    ],
)
def test_what_cannot_be_is_refused(bad: object) -> None:
    with pytest.raises(InputError):
        bad()  # type: ignore[operator]
