"""Taut stiff lines: a search in whole steps ends where the answer moves to by small turns of the stream."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from racewright.holding import Layout, segment
from racewright.holding.statics_problem import Balance, Pose, Problem
from racewright.holding.statics_solve import search
from tests.holding.bodies import STREAM, machine, spread, states

SPEED, TURN, SMALL = 2.4, math.radians(10.0), 20
FEW = 25
"""Balances of a search that whole steps end [-]."""


def stiff() -> Layout:
    """The four lines of `spread` of HMPE, a hair too short, on a body that hardly floats."""
    layout = spread(machine(buoyancy=9000.0), share=0.999)
    ropes = ((segment("HMPE", t.segments[0].length, 0.016),) for t in layout.tethers)
    return replace(layout, tethers=tuple(replace(t, segments=r) for t, r in zip(layout.tethers, ropes, strict=True)))


def test_a_turned_stream_is_answered_where_small_turns_lead(monkeypatch: pytest.MonkeyPatch) -> None:
    counted = [0]
    real = Problem.balance

    def balance(self: Problem, pose: Pose) -> Balance | None:
        counted[0] += 1
        return real(self, pose)

    monkeypatch.setattr(Problem, "balance", balance)
    many = cases = 0
    for lost in ("port bow", "port stern"):
        layout = stiff().without(lost)
        for state in states():
            still = Problem(layout, replace(STREAM, speed=SPEED), state)
            ahead = search(still, still.start())
            assert ahead is not None
            assert ahead.settled
            pose = ahead.pose
            for step in range(1, SMALL + 1):
                turned = replace(STREAM, speed=SPEED, heading=TURN * step / SMALL)
                found = search(Problem(layout, turned, state), pose)
                assert found is not None
                assert found.settled, (lost, state.name, step)
                pose = found.pose
            counted[0] = 0
            at_once = search(Problem(layout, turned, state), ahead.pose)
            assert at_once is not None
            assert at_once.stable
            assert at_once.pose.place == pytest.approx(pose.place, abs=1e-6), (lost, state.name)
            many += counted[0] > FEW
            cases += 1
    assert many <= cases // 4, "taut lines hold the search up"
