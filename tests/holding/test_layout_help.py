"""Line sizes, buoyancy, bridle width, stiffness at a point."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.holding import (
    FixedPoint,
    Layout,
    Stream,
    StrengthFactor,
    Tether,
    equilibrium,
    line_choices,
    one_line_lost,
    propose_bridle_width,
    propose_buoyancy,
    statics,
    steady_state,
    stiffness_at,
    still,
    worst_lines,
)
from racewright.holding.layout_lines import wanted_strength
from racewright.holding.layout_wishes import Wished, Wishes
from racewright.holding.load_state import LoadState
from racewright.holding.shape_drag import Part, drag_of, shapes
from tests.holding.bodies import STREAM, light, machine, spread, states

FACTOR = StrengthFactor("synthetic line", 3.0, "UFC 4-159-03, table 3-7", "2005", "both")


def test_sizes_are_the_least_that_bear() -> None:
    found = line_choices(15e3, FACTOR, 20.0, along_stream=0.9)
    assert {choice.kind for choice in found} >= {"studless chain", "polyester", "nylon", "HMPE", "six-strand wire"}
    for choice in found:
        assert choice.strength >= choice.wanted_strength == 45e3
        assert choice.utilisation <= 1.0
        assert round(1e3 * choice.diameter) == pytest.approx(1e3 * choice.diameter)
        assert choice.stream_stiffness_low <= choice.stream_stiffness <= choice.stream_stiffness_high
        assert choice.stored_energy == pytest.approx(0.5 * 15e3 * choice.stretch)
        assert choice.safety.caution
        assert choice.safety.edition
    soft = {c.kind: c for c in found}
    assert soft["nylon"].stream_stiffness < soft["polyester"].stream_stiffness < soft["HMPE"].stream_stiffness
    assert soft["nylon"].stored_energy > soft["HMPE"].stored_energy
    assert not any(c.kind == "nylon" for c in line_choices(3e5, FACTOR, 20.0))  # the table ends first


def test_parts_add_up_and_unknown_shapes_are_refused() -> None:
    one, two = Part("square pile", 0.1), Part("streamlined body", 0.4)
    both = drag_of((one, two), 2.0)
    assert both.value == pytest.approx(drag_of((one,), 2.0).value + drag_of((two,), 2.0).value)
    assert "FEMA" in both.basis
    assert len(shapes()) == 9
    with pytest.raises(InputError, match="No shape"):
        drag_of((Part("moon", 1.0),), 2.0)


def test_sizes_follow_the_worst_line() -> None:
    worst = worst_lines(statics(spread(), STREAM, states(), [1.0, 2.0]), (), (FACTOR,))
    need = wanted_strength(worst)
    assert need == pytest.approx(3.0 * max(w.tension for w in worst))
    with pytest.raises(InputError):
        wanted_strength(worst_lines(statics(spread(), STREAM, states()[:1], [1.0]), (), ()))


def test_stiffness_at_a_point() -> None:
    """Pushed along the one taut line at its fairlead: EA/L of the line; across it T/L."""
    body = machine(weight=8000.0, buoyancy=8000.0, side_drag_area=0.0)
    tether = Tether("front", FixedPoint((-20.0, 0.0, 4.0), "bank"), (light(19.98, 1e6),), (0.0, 0.0, 0.0))
    state = steady_state("drag", 0.0, 0.0, 1000.0, 1.0)
    stream = Stream(1.0, 8.0, 4.0, profile=math.inf)
    found = equilibrium(Layout(body, (tether,), (0.0, 0.0, 4.0)), stream, state)
    assert stiffness_at(found, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0)) == pytest.approx(1e6 / 19.98, rel=1e-4)
    across = stiffness_at(found, (0.0, 0.0, 0.0), (0.0, 0.0, 2.0))
    assert across == pytest.approx(1000.0 / 20.0, rel=1e-3)
    with pytest.raises(InputError):
        stiffness_at(found, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))


def asked(
    states: tuple[LoadState, ...], speeds: list[float], wishes: Wishes, layout: Layout | None = None, lost_in: int = 1
) -> Wished:
    return Wished(layout or spread(), ((STREAM, np.array(speeds)),), states, wishes, lost_in=lost_in)


def test_least_buoyancy_for_a_clearance() -> None:
    speeds, one = [0.5, 1.5, 2.5], states()[:1]
    choice = propose_buoyancy(asked(one, speeds, Wishes(bed_clearance=1.5, cover=1.0), lost_in=0))
    assert choice.bed_clearance >= 1.5
    assert choice.cover >= 1.0
    less = replace(spread(), body=machine(buoyancy=0.97 * choice.buoyancy))
    now, worse = statics(spread(), STREAM, one, speeds), statics(less, STREAM, one, speeds)
    forms = [[line.form for row in table.points for p in row for line in p.lines] for table in (now, worse)]
    let_go = any(a == "taut" != b for a, b in zip(*forms, strict=True))
    assert worse.bed_clearance.min() < 1.5 or let_go
    with pytest.raises(NoAnswerError, match="of cover"):
        propose_buoyancy(asked(one, [2.5], Wishes(bed_clearance=1.5, cover=6.0)))
    with pytest.raises(NoAnswerError, match="over the bed"):
        propose_buoyancy(asked(one, [2.5], Wishes(bed_clearance=3.9)), most=1.5)


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_least_bridle_width_for_a_roll(sense: float) -> None:
    strong = (steady_state("runaway", 3500.0, sense * 900.0, 300.0, 2.5),)
    choice = propose_bridle_width(asked(strong, [1.0, 2.0], Wishes(roll=math.radians(6.0)), lost_in=0))
    assert choice.roll <= math.radians(6.0)
    assert choice.roll == pytest.approx(math.radians(6.0), rel=0.02)
    assert choice.half_width == pytest.approx(0.6 * choice.factor)
    assert np.abs([t.fairlead[1] for t in choice.layout.tethers]).max() == pytest.approx(choice.half_width)  # type: ignore[index]
    flat = replace(spread(), tethers=tuple(replace(t, fairlead=(0.0, 0.0, 0.0)) for t in spread().tethers))
    with pytest.raises(NoAnswerError, match="middle plane"):
        propose_bridle_width(asked((still(),), [1.0], Wishes(roll=0.1), flat))


def test_a_proposal_keeps_every_wish_and_every_taut_line() -> None:
    """What clearance alone would allow lets lines go: the proposal stays above it, and tells what fails."""
    wished = asked(states()[:2], [0.5, 2.5], Wishes(bed_clearance=0.5, roll=math.radians(20.0)))
    choice = propose_buoyancy(wished)
    now = statics(spread(), STREAM, states()[:2], [0.5, 2.5])
    for row, was in zip(choice.statics.points, now.points, strict=True):
        for point, before in zip(row, was, strict=True):
            pairs = zip(point.lines, before.lines, strict=True)
            assert all(line.form == "taut" for line, old in pairs if old.form == "taut")
    assert choice.statics.feasible.all()
    low = replace(spread(), body=replace(spread().body, buoyancy=0.9 * spread().body.weight))
    assert wished.unmet(low)
    tight = asked(states()[:2], [0.5, 2.5], Wishes(line_use=1e-6))
    assert "of its strength" in tight.unmet(spread())


def test_a_proposal_goes_on_holding_when_a_tether_is_lost() -> None:
    one, speeds = states()[:1], [0.5, 2.0]
    kept = propose_buoyancy(asked(one, speeds, Wishes(bed_clearance=0.5)))
    heedless = propose_buoyancy(asked(one, speeds, Wishes(bed_clearance=0.5), lost_in=0))
    assert heedless.buoyancy <= kept.buoyancy * 1.01
    before = {t.lost: t.feasible[:, -1] for t in one_line_lost(spread(), STREAM, one, speeds)}
    layout = replace(spread(), body=replace(spread().body, buoyancy=kept.buoyancy))
    for table in one_line_lost(layout, STREAM, one, speeds):
        assert not np.any(before[table.lost] & ~table.feasible[:, -1])
