"""Sweeps over speeds and states, lost lines, worst tensions, watch circle, low water."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError
from racewright.holding import (
    FixedPoint,
    Layout,
    Stream,
    StrengthFactor,
    Tether,
    equilibrium,
    low_water,
    one_line_lost,
    segment,
    statics,
    steady_state,
    still,
    watch_circle,
    worst_lines,
)
from tests.holding.bodies import STREAM, light, machine, spread, states

SPEEDS = np.linspace(0.2, 2.6, 7)
FACTORS = (
    StrengthFactor("intact, quasi-static", 2.0, "ISO 19901-7 and API RP 2SK, from memory", "not stated"),
    StrengthFactor("one line lost, quasi-static", 1.43, "ISO 19901-7, from memory", "not stated", "one line lost"),
    StrengthFactor("synthetic line", 3.0, "UFC 4-159-03, table 3-7", "2005", "both"),
)


def test_a_sweep_answers_every_point() -> None:
    seen: list[float] = []
    table = statics(spread(), STREAM, states(), SPEEDS, tick=seen.append)
    assert table.settled.all()
    assert table.tension.shape == (5, 7, 4)
    assert seen[-1] == pytest.approx(1.0)
    assert len(seen) == 35
    assert np.all(np.diff(seen) > 0.0)
    assert np.all(np.diff(table.knock_down, axis=1) > 0.0)
    one = equilibrium(spread(), replace(STREAM, speed=float(SPEEDS[5])), states()[3])
    assert table.tension[3, 5] == pytest.approx([line.tension for line in one.lines], rel=1e-6)
    assert table.points[3][5].position == pytest.approx(one.position, abs=1e-6)
    assert table.lines[0] == "port bow"
    assert "Slow tension" in table.safety.caution


def test_a_cancelled_sweep_stops() -> None:
    def stop(share: float) -> None:
        if share > 0.1:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        statics(spread(), STREAM, states(), SPEEDS, tick=stop)


def test_lost_lines_load_the_others() -> None:
    intact = statics(spread(), STREAM, states()[:1], [1.5])
    lost = one_line_lost(spread(), STREAM, states()[:1], [1.5])
    assert [table.lost for table in lost] == list(intact.lines)
    assert all(len(table.lines) == 3 for table in lost)
    after = lost[0].tension[0, 0, lost[0].lines.index("starboard bow")]
    assert after > 1.3 * intact.tension[0, 0, 1]


def test_the_last_tether_leaves_the_machine_adrift() -> None:
    tether = Tether("front", FixedPoint((-20.0, 0.0, 0.0), uplift_limit=math.inf), (light(20.0),), (-0.4, 0.0, 0.0))
    cable = Tether(
        "cable",
        FixedPoint((-20.0, 2.0, 0.0)),
        (segment("polyester", 30.0, 0.02),),
        (0.0, 0.0, -0.5),
        purpose="power cable",
    )
    lost = one_line_lost(Layout(machine(), (tether, cable), (-0.5, 0.0, 4.0)), STREAM, states()[:1], [1.0])
    assert len(lost) == 1
    assert lost[0].reason == (("adrift",),)
    assert not lost[0].settled.any()
    assert lost[0].points[0][0].reason is not None


def test_worst_lines_name_state_speed_and_factor() -> None:
    intact = statics(spread(), STREAM, states(), SPEEDS)
    lost = one_line_lost(spread(), STREAM, states()[-1:], SPEEDS[-2:])
    worst = worst_lines(intact, lost, FACTORS)
    assert [(w.name, w.case) for w in worst[:2]] == [("port bow", "intact"), ("port bow", "one line lost")]
    first, second = worst[:2]
    assert first.state == "tree"
    assert first.stream_speed == pytest.approx(SPEEDS[-1])
    assert first.tension == pytest.approx(np.nanmax(intact.tension[:, :, 0]))
    assert [u.name for u in first.utilisations] == ["intact, quasi-static", "synthetic line"]
    assert [u.factor for u in second.utilisations] == [1.43, 3.0]
    used = first.utilisations[0]
    assert used.value == pytest.approx(2.0 * first.tension / first.strength)
    assert used.wanted_strength == pytest.approx(2.0 * first.tension)
    assert used.holds == (used.value <= 1.0)
    assert second.tension > first.tension
    assert second.lost == "starboard bow"
    assert first.left_out == 0
    assert first.safety.edition == "BS 4928 (1985)"


def test_the_watch_circle_of_one_tether() -> None:
    """All round: a circle of the setback, the same at every heading; the yaw follows the stream."""
    tether = Tether("front", FixedPoint((0.0, 0.0, 0.0), uplift_limit=math.inf), (light(10.0),), (-0.6, 0.0, 0.0))
    layout = Layout(machine(), (tether,), (8.0, 0.0, 4.5))
    headings = np.radians(np.arange(0, 360, 40))
    circle = watch_circle(layout, STREAM, states()[0], headings, [1.0])
    assert circle.settled.all()
    away = np.hypot(circle.x[:, 0] + 8.0, circle.y[:, 0])
    assert away == pytest.approx(away[0], rel=1e-6)
    assert np.cos(circle.yaw[:, 0] - headings) == pytest.approx(np.ones(headings.size), abs=1e-3)
    assert circle.radius == pytest.approx(np.hypot(circle.x, circle.y).max())
    assert circle.swept_radius > circle.radius


def test_the_watch_circle_of_a_spread_is_small() -> None:
    circle = watch_circle(spread(), STREAM, states()[0], [0.0, math.pi / 2.0, math.pi], [0.5, 1.0])
    assert circle.settled.all()
    assert circle.radius < 1.0
    assert circle.x[0, 1] == pytest.approx(-circle.x[2, 1], rel=0.3)


def test_falling_level_surfaces_then_grounds() -> None:
    """A buoyant machine 4 m over the bed: cover goes first, then it follows the surface down to the bed."""
    found = low_water(spread(), STREAM, still(), [8.0, 6.0, 5.2, 4.7, 4.0, 1.0], cover=0.5)
    assert found.depth[0] == 8.0
    assert found.reason[0] == ""
    assert found.reason == ("", "", "", "cover", "surfaced", "sinks")
    assert found.least_depth == 5.2
    assert found.aground_at == 1.0
    assert list(found.holds) == [why == "" for why in found.reason]


@pytest.mark.parametrize(
    "bad",
    [
        lambda: statics(spread(), STREAM, (), SPEEDS),
        lambda: statics(spread(), STREAM, states()[:1] * 2, SPEEDS),
        lambda: statics(spread(), STREAM, states(), [1.0, 0.5]),
        lambda: statics(spread(), STREAM, states(), [-1.0, 0.5]),
        lambda: low_water(spread(), STREAM, still(), [3.0, 3.0]),
        lambda: watch_circle(spread(), STREAM, still(), [math.nan], [1.0]),
        lambda: StrengthFactor("x", 0.5, "y", "z"),
        lambda: StrengthFactor("x", 2.0, "", "z"),
    ],
)
def test_what_cannot_be_is_refused(bad: object) -> None:
    with pytest.raises(InputError):
        bad()  # type: ignore[operator]


def test_a_stream_from_astern_is_swept_too() -> None:
    table = statics(spread(), Stream(1.0, 8.0, 4.0, heading=math.pi), states()[:1], [0.5, 1.0, 1.5])
    assert table.settled.all()
    assert np.all(table.tension[0, -1, 2:] > table.tension[0, -1, :2])
    assert steady_state("x", 1.0, 1.0, 1.0, 1.0).drag[0] == 1.0
