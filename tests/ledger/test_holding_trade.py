"""The trade of stiffness: as many tethers as hold against a log, each at its own slant, length and tension."""

from __future__ import annotations

import math
from dataclasses import replace
from math import sqrt

import pytest

from racewright.holding import FixedPoint, Layout, Tether, equilibrium, line_choices, stiffness_at
from racewright.ledger.holding_trade import Holding, holding_against, stiffness_of_all, trade_of
from tests.dossier import holding_found, holding_sample
from tests.holding.bodies import STREAM, light, machine, states

EXTENSION = 4e5


def bow_lines(*, slant: float = 30.0, lengths: tuple[float, float] = (20.0, 20.0)) -> Layout:
    """Two level lines ahead of a body that neither sinks nor floats, and one behind that hangs slack."""
    body = replace(machine(), buoyancy=6000.0, duct=None)
    tethers = []
    for name, side, length in (("port bow", 1.0, lengths[0]), ("starboard bow", -1.0, lengths[1])):
        a = math.radians(slant)
        foot = (-0.4 - length * math.cos(a), side * (0.6 + length * math.sin(a)), 4.0)
        lead = (-0.4, side * 0.6, 0.0)
        tethers.append(Tether(name, FixedPoint(foot), (light(length, EXTENSION),), lead))
    behind = Tether("stern", FixedPoint((10.0, 0.0, 4.0)), (light(14.0, EXTENSION),), (0.4, 0.0, 0.0))
    return Layout(body, (*tethers, behind), (0.0, 0.0, 4.0))


def test_lines_that_hold_against_the_log() -> None:
    layout = bow_lines()
    rest = equilibrium(layout, STREAM, states()[0])
    assert rest.settled
    found = holding_against(layout, rest)
    assert [one.name for one in found] == ["port bow", "starboard bow"]
    for one in found:
        assert one.length == 20.0
        assert one.along == pytest.approx(math.cos(math.radians(30.0)), abs=2e-3)


def test_stiffness_of_all_is_that_of_the_statics() -> None:
    """Straight lines without weight: the balance's own derivative along the stream, body free to turn."""
    layout = bow_lines()
    rest = equilibrium(layout, STREAM, states()[0])
    wanted = stiffness_at(rest, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    assert stiffness_of_all(EXTENSION, holding_against(layout, rest)) == pytest.approx(wanted, rel=0.01)


def test_two_lines_raise_the_tension_by_the_root_of_two() -> None:
    """Two lines in the stream are twice as stiff as one, so what the blow adds to their pull is sqrt(2) times."""
    (choice, *_), hardest = line_choices(20e3, holding_sample.FACTORS[0], 20.0), holding_found.found().struck[0]
    one = Holding("port bow", 20.0, 1.0, 2e3)
    rise = []
    for lines in ((one,), (one, replace(one, name="starboard bow"))):
        (row,) = trade_of((choice,), lines, hardest)
        assert row.stiffness == pytest.approx(len(lines) * choice.stiffness / 20.0)
        assert row.tethers == tuple(line.name for line in lines)
        rise.append(row.slow_tension.high - hardest.pretension)
    assert rise[1] == pytest.approx(sqrt(2.0) * rise[0], rel=1e-9)


def test_no_line_that_holds_no_trade() -> None:
    choices = line_choices(20e3, holding_sample.FACTORS[0], 20.0)
    assert trade_of(choices, (), holding_found.found().struck[0]) == ()
