"""Growth: step-up, similarity and exponents against the outside; geometry out; the programme's money."""

from __future__ import annotations

from tools.proofs.line import Line, by_tests
from tools.proofs.solids import SOLID_LINES

LINES = [
    Line(
        "grow-1",
        "published and worked figures of step-up, specific numbers, learning and size exponents; power, size and "
        "stream identities exact; equal Reynolds numbers give no gain; parts of the power multiply to it",
        by_tests(
            "tests/external/test_growth_scale.py",
            "tests/external/test_growth_money.py",
            "tests/growth",
            "tests/ledger/test_growth_nodes.py",
        ),
        2,
    ),
    *SOLID_LINES,
]
