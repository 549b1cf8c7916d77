"""Trials: blockage corrections and the propagation of uncertainty, at full counts."""

from __future__ import annotations

import math
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from tests.ledger.trials_kills import killed

from racewright.errors import NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.trials import blockage
from racewright.trials.blockage_result import ChannelReading
from racewright.trials.machine_response import response_of_flow
from racewright.trials.open_channel import open_at
from tools.proofs.line import Line, Measured, by_tests, run_tests
from tools.proofs.trials_coverage import coverage
from tools.proofs.trials_fouling import count
from tools.proofs.trials_size import long_log

LOADS = (0.2, 0.4, 0.6, 0.8)
CAMPAIGNS = 2000
RECORDS = 100
KILLS = 30
READS, AGAIN = 4.0, 5.0
"""Most plain reads that an import may take; how many times faster the store must be than the text."""


def corrections() -> Measured:
    """Tables and worked numbers by the suite; the reference duct at 120 panels a side here."""
    x, r = section_contour(AnnularSection(0.75, math.radians(10.0), 1.0, 0.15), 120)
    own = response_of_flow(axisymmetric(x, r, rotor_x=float(x[int(np.argmin(r[:120]))])))
    worst = 0.0
    for load in LOADS:
        for small in (1e-4, 1e-6, 1e-9):
            one = blockage(ChannelReading(0.5, load, 4.0, small, 0.2, ducted=True), free=own)
            found = [e.stream_ratio for e in one.estimates if e.method not in ("wall", "optimum")]
            worst = max(worst, max(abs((value or 2.0) - 1.0) for value in found))
    bare = blockage(ChannelReading(0.5, 0.6, 4.0, 0.05, ducted=True))
    flagged = all(one.state != "valid" for one in bare.estimates)
    try:
        open_at(1.0 / 3.0, 0.4, 0.3)
        refused = False
    except NoAnswerError:
        refused = True
    passed, failed, notes = run_tests(
        "tests/external/test_trials_channel_theory.py", "tests/external/test_trials_blockage.py"
    )
    text = (
        f"reference duct 1.000 within {worst:.0e} at B 1e-4 and less; no root at B 0.4, Fr 0.3, a4 1/3: "
        f"{'refused' if refused else 'ANSWERED'}; bare-disc form on a ducted rig: "
        f"{'indicative' if flagged else 'NOT FLAGGED'}; {passed} checks pass; {notes}"
    )
    return Measured(text, worst < 1e-3 and refused and flagged and not failed and passed > 0)


def propagation() -> Measured:
    """The guide's examples, its supplement's, binomial limits, the mean of a record, the reduction."""
    passed, failed, notes = run_tests(
        "tests/external/test_uncertainty_guide.py",
        "tests/external/test_uncertainty_monte_carlo.py",
        "tests/external/test_uncertainty_reduction.py",
    )
    fails = f", {len(failed)} fail: {', '.join(failed[:4])}" if failed else ""
    return Measured(f"{passed} checks pass{fails}; {notes}", not failed and passed > 0)


def covered() -> Measured:
    """Short invented campaigns at two loads."""
    found = coverage(CAMPAIGNS)
    shares = (*found.power, *found.thrust)
    return Measured(found.text(), all(0.935 <= share <= 0.965 for share in shares))


def fouled() -> Measured:
    """A loss of 3 % over an hour, found and feigned."""
    found = count(RECORDS)
    ok = found.found >= 0.95 * RECORDS and found.false_alarms <= 0.05 * RECORDS
    return Measured(found.text(), ok)


def long_logs() -> Measured:
    """12.5 million rows of eight columns; memory from 10^6 values to 10^8.

    A ratio that is not reached fails the line, which then says so and, for the import, where its time goes.
    """
    small, large = long_log(125_000), long_log(12_500_000, repeats=3, most=READS)
    read, again = large.taken / large.plain, large.from_text / large.reduced
    text = (
        f"{large.rows:,} rows: import with flags and {large.readings} windows {large.taken:.1f} s, pandas.read_csv "
        f"{large.plain:.1f} s, ratio {read:.2f}; reduced again from the store {large.reduced:.1f} s, from the text "
        f"{large.from_text:.1f} s, ratio {again:.1f}; largest memory {small.peak / 2**30:.2f} GiB at 10^6 values, "
        f"{large.peak / 2**30:.2f} GiB at 10^8; load {large.load:.1f}"
    )
    if read > READS:
        text += f"; not reached: {READS:g} times a plain read, {large.stages}"
    if again < AGAIN:
        text += (
            f"; not reached: {AGAIN:g} times faster, since the readings are made anew from either source and only "
            "the text, flags, cells and windows are spared"
        )
    return Measured(text, read <= READS and again >= AGAIN and large.peak < 2 * 2**30)


def kills() -> Measured:
    """Import and reduction killed at random moments."""
    with TemporaryDirectory() as folder:
        found = killed(Path(folder), KILLS)
    text = f"{found.kills} kills, {found.at_work} of them at work; {len(found.faults)} faults"
    return Measured("; ".join([text, *found.faults[:4]]), not found.faults)


LINES = [
    Line(
        "trials-1",
        "closed and open channel tables 1e-5, optimum 1e-6, no root where none exists; a duct's own u(CT) gives "
        "1.000 +- 0.001 as B goes to 0 at CT 0.2 to 0.8; bare-disc form on a ducted rig flagged",
        corrections,
        2,
    ),
    Line(
        "trials-2",
        "GUM 4.4.3, G.4.1, H.1, H.2 from raw readings; JCGM 101 9.2.2 to 9.2.4 and 9.4; cubic bias; 0 of 100: "
        "one-sided 2.95 %, two-sided 3.62 %",
        propagation,
        1,
    ),
    Line(
        "trials-3",
        "over 2,000 invented campaigns at two loads the 95 % intervals of CP and CT hold the truth 93.5 to 96.5 %",
        covered,
        12,
    ),
    Line(
        "trials-4",
        "12.5 million rows x 8: import with flags and windows at most 4 times pandas.read_csv; reduced again from "
        "the store 5 times faster than from text; below 2 GiB from 10^6 to 10^8 values",
        long_logs,
        3,
        quiet=True,
    ),
    Line(
        "trials-5",
        "kill -9 at 30 random moments of import and reduce: every reopened store consistent, nothing said done is "
        "lost, a rerun completes",
        kills,
        4,
    ),
    Line(
        "trials-6",
        "each malformed logger file is refused or repaired as the table says, with a report",
        by_tests("tests/records/campaign/test_logger.py", "tests/records/campaign/test_even_rows.py"),
        1,
    ),
    Line(
        "trials-7",
        "a fouling of 3 % over an hour is found in 95 of 100 records or more, feigned in 5 clean ones at most",
        fouled,
        12,
    ),
]
