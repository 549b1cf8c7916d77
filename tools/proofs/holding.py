"""Holding and strength: outside values, built layouts, strikes, speed, cautions, load cases, at full counts."""

from __future__ import annotations

import time

import numpy as np
from tests.holding.bodies import STREAM, spread, states
from tests.holding.machines import machine
from tests.holding.random_strikes import random_strikes
from tests.holding.test_layouts_backward import right_reason_share, solved_share

from racewright.holding import statics
from racewright.holding.log_draws import Front
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_tether import front_tether
from tools.proofs.line import Line, Measured, by_tests

LAYOUTS = 1000
STRIKES = 200
SPEEDS = np.linspace(0.1, 2.6, 30)
LOGS = 10_000
OUTSIDE = (
    "tests/external/test_holding_anchors.py",
    "tests/external/test_holding_body.py",
    "tests/external/test_holding_debris.py",
    "tests/external/test_holding_lines.py",
    "tests/external/test_holding_safety_factors.py",
    "tests/external/test_holding_strike.py",
    "tests/external/test_strength_fatigue.py",
    "tests/external/test_strength_frequencies.py",
    "tests/external/test_strength_parts.py",
    "tests/external/test_strength_sections.py",
)


def layouts() -> Measured:
    """Built balances are found; what cannot hold is refused for the built reason."""
    solved, near, worst = solved_share(LAYOUTS, 20)
    right, wrong = right_reason_share(LAYOUTS, 21)
    others = ", ".join(f"{a} told as {b} {n} times" for (a, b), n in wrong.most_common(3))
    text = (
        f"{LAYOUTS} built balances: {100 * solved:.1f} % solved ({100 * near:.1f} % at the built place), worst "
        f"residual {worst:.1e}; {LAYOUTS} that cannot hold: right reason in {100 * right:.1f} %"
        f"{f' ({others})' if others else ''}"
    )
    return Measured(text, solved >= 0.98 and worst < 1e-6 and right >= 0.95)


def strikes() -> Measured:
    """Halved steps, closed form of the first blow, stiffer tethers, work."""
    found = random_strikes(STRIKES)
    text = (
        f"{found.strikes} strikes, {found.steps} steps or more in the contact; half the step moves the first peak by "
        f"{100 * found.halved_first:.2f} %, the slow tension by {100 * found.halved_slow:.2f} %; two-phase estimate "
        f"within {100 * found.estimate:.2f} % ({found.shared} strikes with two places left out), slow tension within "
        f"2 % in {100 * found.slow_within:.0f} % (worst {100 * found.slow_worst:.0f} %); tether tenfold: "
        f"{found.tenfold:.3f} of itself per kt/k; work left over {found.work:.1e}"
    )
    small = found.halved_first < 0.01 and found.halved_slow < 0.01 and found.estimate < 0.02
    return Measured(text, small and found.steps >= 50 and found.tenfold < 0.06 and found.work < 1e-3)


def speed() -> Measured:
    """Wall time of one process with its kernels loaded; aims, the bench has the ratios."""
    statics(spread(), STREAM, states()[:1], SPEEDS[:1])
    start = time.perf_counter()
    statics(spread(), STREAM, states(), SPEEDS)
    first = time.perf_counter() - start
    kind = LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (1e-6,))
    speeds, shares = np.array([1.0, 2.0, 3.0]), np.array([0.3, 0.5, 0.2])
    population = LogPopulation((kind,), (Season("all year", 1.0, speeds, shares),))
    tether = front_tether(20e3, 3e3, 20.0, 0.3, 12e3)
    start = time.perf_counter()
    log_exceedance(population, machine(), tether, Front(0.6, 0.1, 1.2), strikes=LOGS)
    second = time.perf_counter() - start
    text = f"four lines, 30 speeds, 5 states: {first:.2f} s; {LOGS} two-phase strikes in one process: {second:.1f} s"
    return Measured(text, first < 1.0 and second < 40.0)


LINES = [
    Line(
        "holding-1",
        "published values of lines, ropes, anchors, debris, strikes, ring, shaft, rainflow, Miner, ring-wing slope",
        by_tests(*OUTSIDE),
        3.0,
    ),
    Line(
        "holding-2",
        "1,000 built layouts: 98 % solved, residual < 1e-6; 1,000 that cannot hold: right reason in 95 %",
        layouts,
        20.0,
    ),
    Line(
        "holding-3",
        "200 strikes, 50 steps in the contact: step halved < 1 %, estimate < 2 %, tether tenfold < 0.06, work 0.1 %",
        strikes,
        15.0,
    ),
    Line(
        "holding-4",
        "statics of four lines over 30 speeds and 5 states (aim 1 s); 10,000 strikes (aim 20 s on two cores)",
        speed,
        2.0,
        quiet=True,
    ),
    Line(
        "holding-5",
        "safety numbers in text, JSON and pages with caution, basis, edition; slow tension never an impact force",
        by_tests(
            "tests/safety/test_carried.py",
            "tests/safety/test_holding_faces.py",
            "tests/dossier/test_holding_tables.py",
            "-k",
            "not worst_case_table and not sizes_name",
        ),
        2.0,
    ),
    Line(
        "holding-6",
        "loss of load, clogged and held tree in the worst-case table by default; they drive the proposed sizes",
        by_tests("tests/safety/test_holding_faces.py", "-k", "worst_case_table or sizes_name"),
    ),
]
