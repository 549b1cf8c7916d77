"""The drawings of holding and strength: nothing cut off, to scale, the data where they belong."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.collections import PolyCollection
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon
from matplotlib.text import Text

from racewright.dossier.figures import (
    damage_cases,
    layout_plan,
    layout_side,
    line_use,
    pose_speeds,
    shaken,
    stress_use,
    strike_histories,
    strike_years,
)
from racewright.dossier.figures.holding_shape import hung
from racewright.dossier.figures.house import DARK, NARROW, WIDE
from racewright.dossier.figures.place_labels import around, in_rows, spread
from racewright.dossier.figures.save import svg
from racewright.holding.contact_table import contact_stiffnesses
from tests.dossier import holding_sample as s
from tests.dossier.test_figures import check_labels

REST = s.at_rest("cable", 0, 2.0)
TREE = s.at_rest("cable", 4, 2.0)
SURFACED = s.at_rest("long", 0, 1.6)


def _broken() -> Figure | object:
    """A sweep in which one state never settles and another does not hold."""
    table = s.swept()
    settled, feasible = table.settled.copy(), table.feasible.copy()
    settled[1], feasible[1], feasible[2, 8:] = False, False, False
    gone = {
        name: np.where(settled, getattr(table, name), np.nan)
        for name in ("cover", "bed_clearance", "pitch", "roll", "offset")
    }
    tension = np.where(settled[..., None], table.tension, np.nan)
    return dataclasses.replace(table, settled=settled, feasible=feasible, tension=tension, **gone)


DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "side": lambda w: layout_side.draw(s.with_cable(), REST, w, ghost=TREE, invented=True),
    "side, surfaced": lambda w: layout_side.draw(s.long_lines(), SURFACED, w),
    "plan": lambda w: layout_plan.draw(
        s.with_cable(), REST, w, ghost=TREE, watch=s.watched(), banks=(-18.0, 17.0), invented=True
    ),
    "plan, long": lambda w: layout_plan.draw(s.long_lines(), SURFACED, w, banks=(-40.0, 24.0)),
    "plan, bare": lambda w: layout_plan.draw(s.with_cable(), REST, w),
    "lines": lambda w: line_use.draw(s.worst(), w, tables=(s.swept(),)),
    "poses": lambda w: pose_speeds.draw(s.swept(), w, cover=1.0, bed_clearance=2.0),
    "poses, broken": lambda w: pose_speeds.draw(_broken(), w, invented=True),  # type: ignore[arg-type]
    "strike": lambda w: strike_histories.draw(s.two_phases(0.3), w, capacity=9e3),
    "strike, far from parting": lambda w: strike_histories.draw(s.two_phases(0.0), w, capacity=9e5, invented=True),
    "years": lambda w: strike_years.draw(s.years(), w, capacity=12e3),
    "shaken": lambda w: shaken.draw(s.shaken(), w),
    "shaken, apart": lambda w: shaken.draw(s.apart(), w, invented=True),
    "stresses": lambda w: stress_use.draw(s.stress_checks(), w),
    "damage": lambda w: damage_cases.draw(s.damage_shares(), 20.0, w),
}


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    check_labels(DRAWINGS[name](width))


@pytest.mark.parametrize("name", ["side", "plan", "lines", "strike", "years", "shaken", "damage"])
def test_colours_are_those_that_turn_dark(name: str) -> None:
    drawing = svg(DRAWINGS[name](WIDE)).decode("utf-8")
    assert set(re.findall(r"#[0-9a-f]{6}\b", drawing)) <= set(DARK)


def test_side_view_is_to_scale_and_the_water_stands_right() -> None:
    axes = DRAWINGS["side"](WIDE).axes[0]
    assert axes.get_aspect() == 1.0
    duct = next(p for p in axes.patches if isinstance(p, Polygon) and p.get_facecolor()[3] > 0.0)
    corners = duct.get_xy()
    assert corners[:, 1].max() == pytest.approx(REST.depth - REST.cover, abs=1e-9)
    assert corners[:, 1].min() == pytest.approx(REST.bed_clearance, abs=1e-9)
    water = [p for p in axes.collections if isinstance(p, PolyCollection)]
    assert any(
        np.allclose([v.vertices[:, 1].min(), v.vertices[:, 1].max()], [0.0, 8.0])
        for p in water
        for v in p.get_paths()
    )


def test_the_upstream_end_is_on_the_left_whatever_the_heading() -> None:
    for state in (REST, SURFACED):
        layout = s.with_cable() if state is REST else s.long_lines()
        shown = hung(layout, state)
        assert shown.axis[0, 0] < shown.axis[1, 0]
        assert {line.load.name for line in shown.lines} == {t.name for t in layout.tethers}
        for line in shown.lines:
            step = np.linalg.norm(np.diff(line.lying, axis=0), axis=1).sum() if line.lying.size else 0.0
            longest = np.linalg.norm(np.diff(line.main, axis=0), axis=1).max()
            assert abs(step - line.load.grounded_length) <= longest
    turned = dataclasses.replace(REST, heading=np.pi)
    assert hung(s.with_cable(), turned).outline[:, 0].mean() == pytest.approx(
        -hung(s.with_cable(), REST).outline[:, 0].mean()
    )


def test_line_ends_meet_the_fairleads() -> None:
    shown = hung(s.with_cable(), REST)
    for line, lead in zip(shown.lines, shown.fairleads, strict=True):
        assert line.main[-1] == pytest.approx(lead, abs=1e-3)


def test_watch_circle_has_its_radius() -> None:
    axes = DRAWINGS["plan"](WIDE).axes[0]
    radii = sorted(p.radius for p in axes.patches if isinstance(p, Circle))
    assert radii == pytest.approx([s.watched().radius, s.watched().swept_radius])
    assert not any(isinstance(p, Circle) for p in DRAWINGS["plan, bare"](WIDE).axes[0].patches)


def test_a_layout_that_does_not_hold_says_so_first() -> None:
    assert DRAWINGS["side, surfaced"](WIDE).get_suptitle().startswith("Does not hold (surfaced).")


def test_bars_end_at_the_use_of_each_line() -> None:
    axes = DRAWINGS["lines"](WIDE).axes[0]
    ends = [round(p.get_width(), 9) for p in axes.patches]
    for line in s.worst():
        assert round(max(u.value for u in line.utilisations), 9) in ends
        assert round(line.tension / line.strength, 9) in ends
    words = " ".join(t.get_text() for t in axes.texts)
    for line in s.worst():
        assert line.state in words


def test_slack_is_told_with_state_and_speeds() -> None:
    table = s.swept()
    slack = np.zeros_like(table.slack)
    slack[1, 2:5, 3] = True
    told = line_use.slack_states(table.lines[3], (dataclasses.replace(table, slack=slack),))
    assert told == "loss of load 0.6 to 1.0\u202fm/s"
    assert line_use.slack_states(table.lines[0], (table,)) == ""


def test_poses_break_where_nothing_settled_and_mark_what_does_not_hold() -> None:
    figure = DRAWINGS["poses, broken"](WIDE)
    lines = figure.axes[0].lines
    assert np.isnan(np.asarray(lines[2].get_ydata(), dtype=float)).all()
    crosses = [np.asarray(x.get_xdata()).size for x in lines if x.get_marker() == "x"]
    assert crosses[2] == s.SPEEDS.size - 8
    assert figure.get_suptitle().startswith("Crosses: the layout does not hold, first in held at")


def test_both_time_scales_stand_in_one_figure_and_keep_their_names() -> None:
    figure = DRAWINGS["strike"](WIDE)
    blow, lines = figure.axes
    assert "milliseconds" in blow.get_xlabel()
    assert "force at the place struck" in blow.get_ylabel()
    assert lines.get_xlabel().startswith("seconds")
    assert "slow line tension" in lines.get_ylabel()
    words = [t.get_text() for t in lines.findobj(Text) if isinstance(t, Text)]
    assert not re.search(r"impact|blow|strike|struck", " ".join(words))
    run = s.two_phases(0.3).run
    trace = max(lines.lines, key=lambda line: np.asarray(line.get_xdata()).size)
    assert np.asarray(trace.get_xdata())[-1] == run.trace_time[-1]


@pytest.mark.parametrize("which", [0, -1])
def test_a_pulse_has_the_impulse_and_the_peak_of_its_blow(which: int) -> None:
    """Quarter sines up and down: force x (2/pi) x duration, which is the impulse that the blow states."""
    first = s.two_phases(0.0).first
    blow = first.blows[which]
    time = np.linspace(0.0, blow.duration, 20001)
    force = strike_histories.pulse(blow, time)
    assert force.max() == pytest.approx(blow.force, rel=1e-6)
    assert float(np.trapezoid(force, time)) == pytest.approx(2.0 / np.pi * blow.force * blow.duration, rel=1e-4)
    assert strike_histories.pulse(blow, np.array([-1e-3, 2.0 * blow.duration])).max() == 0.0


def test_energy_pressed_in_is_that_of_either_contact() -> None:
    years = s.years()
    energy = strike_years.pressed_energy(years)
    reached = np.isfinite(energy) & (energy > 0.0)
    assert energy[reached] == pytest.approx(
        years.first_high[reached] ** 2 / (2.0 * contact_stiffnesses()[-1].value), rel=1e-6
    )


def test_yearly_chances_fall_and_lie_in_their_band() -> None:
    axes = DRAWINGS["years"](WIDE).axes[0]
    for line in axes.lines:
        chance = np.asarray(line.get_ydata(), dtype=float)
        assert np.all(np.diff(chance) <= 0.0)
    assert strike_years.levels_of(np.array([1.0, 2.0]), 10.0).size == 0


def test_rings_stand_where_both_meet() -> None:
    found = s.shaken()
    axes = DRAWINGS["shaken"](WIDE).axes[0]
    dots = [(float(x.get_xdata()[0]), float(x.get_ydata()[0])) for x in axes.lines if x.get_marker() == "o"]
    right, top = axes.get_xlim()[1], axes.get_ylim()[1]
    meets = [(m.critical_speed * 30.0 / np.pi, m.natural) for m in found.meetings]
    inside = [(speed, natural) for speed, natural in meets if speed <= right and natural <= top]
    assert inside
    assert np.array(sorted(dots)) == pytest.approx(np.array(sorted(inside)))
    assert "nearer than 20" in DRAWINGS["shaken"](WIDE).get_suptitle()
    assert "Nothing answers" in DRAWINGS["shaken, apart"](WIDE).get_suptitle()


def test_damage_adds_up() -> None:
    title = DRAWINGS["damage"](WIDE).get_suptitle()
    total = sum(share.yearly for share in s.damage_shares().values())
    assert f"{1.0 / total:.0f} years" in title
    none = {"idle": s.damage_shares()["start and stop"]._replace(times=0.0)}
    assert damage_cases.draw(none, 20.0, WIDE).get_suptitle() == "No load case damages the part"


def test_labels_move_apart() -> None:
    moved = spread([1.0, 1.1, 0.9, 5.0], 0.5, (0.0, 5.0))
    assert np.diff(np.sort(moved)).min() >= 0.5 - 1e-12
    assert np.argsort(moved).tolist() == [2, 0, 1, 3]
    rows = in_rows([0.0, 0.1, 9.0], ["one", "two", "three"], 1.0, (-5.0, 10.0))
    assert [row for _, row in rows] == [0, 1, 0]
    placed = around([(0.0, 0.0), (0.01, 0.0), (0.0, 0.01)], ["one", "two", "three"], 1.0, (-3.0, 3.0, -3.0, 3.0))
    assert not any(a.meets(b) for i, a in enumerate(placed) for b in placed[:i])
