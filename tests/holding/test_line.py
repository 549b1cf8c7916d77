"""Lines: tables, growth, several segments, air over the water, slack in the current, strumming."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.holding import Segment, Stream, body_forces, breaking_strength, grown, line, line_march, segment
from racewright.holding.line_catenary import run_and_rise
from racewright.holding.line_elements import ELEMENTS, elements_of, flow_of
from racewright.holding.line_held import HeldLine
from racewright.holding.line_strum import drag_factor, strumming

G = 9.80665


def hanging(
    length: float, weight: float, stiffness: float = 1e8, drag: float = 0.0, diameter: float = 0.02
) -> Segment:
    area = 1e-4
    return Segment("invented", length, diameter, weight / G + 1000.0 * area, area, stiffness, 1e6, drag)


def test_table_values_are_replaced_and_say_so() -> None:
    plain = segment("polyester", 20.0, 0.024)
    own = segment("polyester", 20.0, 0.024, strength=70e3, stiffness=1e6)
    assert plain.strength == pytest.approx(0.9 * 93.2e3)
    assert (own.strength, own.stiffness, own.stiffness_low) == (70e3, 1e6, 1e6)
    assert "strength: given by the user" in own.basis
    assert any("BS 4928" in b for b in plain.basis)
    assert plain.stiffness_low == pytest.approx(13.0 * 93.2e3)
    assert segment("polyester", 20.0, 0.024, storm=True).stiffness == pytest.approx(30.0 * 93.2e3)
    assert breaking_strength("nylon", 0.0254).value == pytest.approx(
        0.85 * 0.9 * breaking_strength("nylon", 0.0254).new
    )


def test_growth_adds_weight_drag_and_water() -> None:
    bare = segment("studless chain", 30.0, 0.02)
    weedy = grown(bare, 0.01, 1200.0)
    ring = 0.25 * math.pi * (0.04**2 - 0.02**2)
    assert weedy.diameter == pytest.approx(0.04)
    assert weedy.mass - bare.mass == pytest.approx(1200.0 * ring)
    gain = weedy.submerged_weight(1000.0, G) - bare.submerged_weight(1000.0, G)
    assert gain == pytest.approx(200.0 * ring * G)
    assert (weedy.stiffness, weedy.strength) == (bare.stiffness, bare.strength)


def test_ends_count_in_the_utilisation() -> None:
    chain = hanging(60.0, 200.0, 1e9)
    found = line((chain,), (0.0, 0.0, 0.0), (57.0, 0.0, 10.0))
    assert found.utilisation == pytest.approx(np.linalg.norm(found.upper_force) / 1e6, rel=1e-12)
    taut = line((hanging(20.0, 2.0, 1e6),), (0.0, 0.0, 1.0), (20.2, 0.0, 4.0), on="bank")
    assert taut.form == "taut"
    assert taut.vertical - taut.lower_force[2] == pytest.approx(40.0, rel=1e-6)  # its own weight
    faint = line((hanging(20.0, 5e-4, 1e6),), (0.0, 0.0, 1.0), (20.2, 0.0, 4.0), on="bank")
    way = math.hypot(20.2, 3.0)
    assert faint.vertical == pytest.approx(1e6 * (way / 20.0 - 1.0) * 3.0 / way + 0.5 * 0.01, rel=1e-9)


@pytest.mark.parametrize("end", [0, 1])
def test_both_ends_may_move(end: int) -> None:
    """Forces on both ends against moves of either, in a current that changes with height."""
    stream = Stream(2.0, 8.0, 4.0, profile=3.0)
    cut = elements_of((segment("polyester", 20.0, 0.024),), stream, from_bed=False)
    held = HeldLine(cut, stream)
    ends = np.array([[0.0, 0.0, 1.0], [18.0, 5.0, 5.0]])
    assert held.reach(*ends)
    stiff = held.stiff.copy()
    for k in range(3):
        found = []
        for sign in (1.0, -1.0):
            moved = ends.copy()
            moved[end, k] += sign * 1e-4
            assert held.reach(*moved)
            found.append(held.force.copy())
        slope = -(found[0] - found[1]) / 2e-4
        for other in (0, 1):
            assert stiff[other, end, :, k] == pytest.approx(slope[other], rel=1e-5, abs=1e-6 * np.abs(stiff).max())


@pytest.mark.parametrize("on_bed", [True, False])
def test_two_segments_join_two_catenaries(on_bed: bool) -> None:
    """Rope over chain: run and rise of each in closed form, forces found back from the ends."""
    rope, chain = hanging(20.0, 5.0, 1e6), hanging(30.0, 120.0, 1e8)
    h, v = 4000.0, (1500.0 if on_bed else 5200.0)
    x1, z1, *_ = run_and_rise(h, v, 20.0, 5.0, 1e6, False)
    x2, z2, *_ = run_and_rise(h, v - 100.0, 30.0, 120.0, 1e8, on_bed)
    found = line(
        (chain, rope), (0.0, 0.0, 0.0), (x1 + x2, 0.0, z1 + z2), on="bed" if on_bed else "bank", elements=200
    )
    assert found.form == ("grounded" if on_bed else "taut" if found.chord > 50.0 else "suspended")
    assert (found.horizontal, found.vertical) == pytest.approx((h, v), rel=1e-3)
    assert found.uplift == pytest.approx(0.0 if on_bed else v - 100.0 - 3600.0, rel=1e-3, abs=1e-9)
    if on_bed:
        assert found.grounded_length == pytest.approx(30.0 - 1400.0 / 120.0, abs=0.3)


def test_a_line_from_a_bridge_weighs_more_in_air() -> None:
    """The ends together bear weight in air of what is above and weight in water of what is below."""
    rope = segment("studless chain", 14.0, 0.02)
    found = line((rope,), (0.0, 0.0, 12.0), (6.0, 0.0, 3.0), Stream(0.0, 8.0, 4.0), on="bridge", elements=400)
    borne = -found.lower_force[2] - found.upper_force[2]
    middle = 0.5 * (found.points[1:, 2] + found.points[:-1, 2])
    above = float(np.mean(middle > 8.0))
    air, water = rope.mass * G * 14.0, rope.submerged_weight(1000.0, G) * 14.0
    assert borne == pytest.approx(above * air + (1.0 - above) * water, rel=2e-3)
    assert found.method == "elements"


def test_ends_bear_drag_and_weight_of_the_whole_line() -> None:
    """Sum of end forces = loads of the elements, along and across the stream."""
    rope = segment("polyester", 20.0, 0.024)
    stream = Stream(2.0, 8.0, 4.0, heading=0.3)
    found = line((rope,), (0.0, 0.0, 0.5), (18.5, 5.0, 5.0), stream, on="bank", elements=400)
    middle = 0.5 * (found.points[1:] + found.points[:-1])
    way = np.diff(found.points, axis=0)
    way /= np.linalg.norm(way, axis=1)[:, None]
    flow = np.array([stream.speed_at(z) for z in middle[:, 2]])[:, None] * np.array([*stream.direction, 0.0])
    across = flow - np.sum(flow * way, axis=1)[:, None] * way
    drag = 0.5 * 1000.0 * 1.6 * 0.024 * np.linalg.norm(across, axis=1)[:, None] * across
    total = (drag * 20.0 / 400.0).sum(axis=0) - [0.0, 0.0, rope.submerged_weight(1000.0, G) * 20.0]
    ends = np.array(found.lower_force) + np.array(found.upper_force)
    assert ends == pytest.approx(total, rel=1e-3, abs=1e-3)


def test_stiffness_is_the_slope_of_the_force() -> None:
    rope = (segment("studless chain", 12.0, 0.013), segment("polyester", 20.0, 0.024))
    stream = Stream(2.0, 8.0, 4.0)
    place = np.array([29.5, 4.0, 5.0])
    found = line(rope, (0.0, 0.0, 0.0), place, stream)
    for k in range(3):
        step = np.eye(3)[k] * 1e-4
        high, low = (np.array(line(rope, (0.0, 0.0, 0.0), place + s * step, stream).upper_force) for s in (1.0, -1.0))
        assert found.stiffness[:, k] == pytest.approx(
            -(high - low) / 2e-4, rel=1e-4, abs=1e-4 * found.stiffness.max()
        )


@pytest.mark.parametrize("speed", [0.0, 0.3, 1.0, 3.0])
@pytest.mark.parametrize("share", [0.3, 0.6, 0.9, 0.99, 1.02])
def test_every_line_gets_an_answer_whose_forces_add_up(speed: float, share: float) -> None:
    """Taut to very slack, from still to fast water: finite forces, and the ends bear no more than the loads allow."""
    rope = segment("polyester", 20.0, 0.024)
    stream = Stream(speed, 8.0, 4.0)
    for azimuth in (0.2, 1.4, 2.9):
        way = share * 20.0
        place = np.array([0.0, 0.0, 4.0])
        flat = math.sqrt(way**2 - 16.0)
        place[:2] = flat * math.cos(azimuth), flat * math.sin(azimuth)
        found = line((rope,), (0.0, 0.0, 0.0), place, stream)
        assert np.isfinite(found.tension).all()
        assert np.linalg.norm(found.points[-1] - place) < 1e-6 * 20.0
        assert np.linalg.norm(found.points[0]) < 1e-6 * 20.0
        if share < 0.95 and speed < 0.5:
            assert found.form in ("slack", "grounded", "suspended")
        if share > 1.0:
            assert found.form == "taut"
            assert found.tension.mean() == pytest.approx(rope.stiffness * 0.02, rel=0.05)


def test_the_usual_number_of_elements_is_enough() -> None:
    """Against 400 elements: taut rope, hanging rope, chain on the bed, all in 2.5 m/s."""
    stream = Stream(2.5, 8.0, 4.0)
    rope, chain = segment("polyester", 20.0, 0.024), segment("studless chain", 40.0, 0.020)
    for part, place, wanted in (
        (rope, (19.5, 0.0, 5.0), 1e-5),
        (rope, (18.5, 5.0, 5.0), 3e-3),
        (chain, (37.5, 3.0, 6.0), 4e-3),
    ):
        few, many = (line((part,), (0.0, 0.0, 0.0), place, stream, elements=n).tension.max() for n in (ELEMENTS, 400))
        assert few == pytest.approx(many, rel=wanted)


def test_slack_lines_are_told() -> None:
    rope = segment("polyester", 20.0, 0.024)
    found = line((rope,), (0.0, 0.0, 0.0), (8.0, 0.0, 4.0))
    assert found.form == "slack"
    assert found.horizontal == 0.0
    assert found.vertical == pytest.approx(rope.submerged_weight(1000.0, G) * 4.0, rel=1e-3)


def test_a_dip_below_the_bed_is_told() -> None:
    chain = segment("studless chain", 40.0, 0.02)
    found = line((chain,), (0.0, 0.0, 3.0), (30.0, 0.0, 3.0), on="bank")
    assert [r.about for r in found.remarks] == ["bed"]
    floating = Segment("float", 30.0, 0.05, 0.5, 0.25 * math.pi * 0.05**2, 1e6, 1e5, 1.2)
    risen = line((floating,), (0.0, 0.0, 3.0), (20.0, 0.0, 3.0), Stream(0.0, 4.0, 2.0), on="bank")
    assert [r.about for r in risen.remarks] == ["surface"]


@pytest.mark.parametrize("profile", [6.0, 2.0, math.inf])
def test_three_copies_of_the_profile_agree(profile: float) -> None:
    """Each kernel file carries its own: a compiled function and all it calls live in one file."""
    stream = Stream(2.0, 8.0, 4.0, profile=profile)
    for height in (-0.5, 0.0, 0.05, 0.16, 1.0, 4.0, 8.0, 9.0):
        found = stream.speed_at(height)
        assert line_march._speed(height, flow_of(stream))[0] == pytest.approx(found, abs=1e-12)
        assert body_forces._speed(height, flow_of(stream)) == pytest.approx(found, abs=1e-12)
    assert stream.speed_at(4.0) == pytest.approx(2.0)


def test_strumming_ranges() -> None:
    still = strumming(0.0, 0.024, 20.0, 5000.0, 0.45, 0.45)
    assert not still.cross_flow
    slow = strumming(0.05, 0.024, 20.0, 5000.0, 0.45, 0.45)  # below the first mode: U/(f d) = 1.1
    assert (slow.cross_flow, slow.in_line) == (False, True)
    fast = strumming(2.5, 0.024, 20.0, 5000.0, 0.45, 0.45)
    assert fast.cross_flow
    assert fast.reduced_velocity == pytest.approx(5.0, rel=0.1)
    assert strumming(1.0, 0.024, 20.0, 0.0, 0.45, 0.45).mode == math.inf
    assert drag_factor(0.5) == pytest.approx(2.05)


@pytest.mark.parametrize(
    "bad",
    [
        lambda: segment("polyester", math.nan, 0.024),
        lambda: segment("polyester", 20.0, 0.5),
        lambda: segment("hemp", 20.0, 0.024),  # type: ignore[arg-type]
        lambda: segment("studless chain", 20.0, 0.024, "R9"),
        lambda: grown(segment("polyester", 20.0, 0.024), -0.01),
        lambda: line((), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
        lambda: line((hanging(1.0, 1.0),), (0.0, 0.0, math.inf), (1.0, 0.0, 0.0)),
        lambda: line((hanging(1.0, 1.0),), (0.0, 0.0, 0.0), (1.0, 0.0)),
        lambda: line((hanging(1.0, 1.0),), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), on="moon"),  # type: ignore[arg-type]
        lambda: Stream(math.nan, 8.0, 4.0),
        lambda: Stream(2.0, 8.0, 9.0),
        lambda: Stream(2.0, 8.0, 4.0, profile=math.nan),
        lambda: hanging(1.0, 1.0, math.inf),
    ],
)
def test_what_cannot_be_is_refused(bad: object) -> None:
    with pytest.raises(InputError):
        bad()  # type: ignore[operator]
