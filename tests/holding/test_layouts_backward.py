"""Layouts built backward: the solver must find the balance, or say the reason that was built in."""

from __future__ import annotations

from collections import Counter

import numpy as np

from racewright.holding import equilibrium
from tests.holding.layouts import layouts, left_over
from tests.holding.layouts_wrong import wrong_layouts

COUNT = 100
"""A tenth of the full proof."""


def solved_share(count: int, seed: int) -> tuple[float, float, float]:
    """Share solved (held, residual by the tests' own sum below 1e-6), share within 5 % of a size, worst residual."""
    solved = near = 0
    worst = 0.0
    for built in layouts(count, seed):
        found = equilibrium(built.layout, built.stream, built.state)
        left = left_over(built, found) if found.settled else np.inf
        solved += found.feasible and left < 1e-6
        off = np.linalg.norm(np.array(found.position) - built.position) / built.layout.body.size
        near += bool(found.feasible and off < 0.05)
        worst = max(worst, left)
    return solved / count, near / count, worst


def right_reason_share(count: int, seed: int) -> tuple[float, Counter[tuple[str, str]]]:
    """Share of layouts that cannot hold whose first reason is the built one, and what was said instead."""
    wrong: Counter[tuple[str, str]] = Counter()
    for case in wrong_layouts(count, seed):
        found = equilibrium(case.built.layout, case.built.stream, case.built.state)
        said = found.reason.code if found.reason else "none"
        if said != case.code:
            wrong[case.code, said] += 1
    return 1.0 - wrong.total() / count, wrong


def test_built_balances_are_found() -> None:
    solved, near, worst = solved_share(COUNT, 20)
    assert solved >= 0.98
    assert near >= 0.97
    assert worst < 1e-6


def test_built_faults_are_named() -> None:
    share, wrong = right_reason_share(COUNT, 21)
    assert share >= 0.95, wrong
