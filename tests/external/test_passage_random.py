"""Random rows, fish and plates against the closed forms; the proof runs the same at full counts."""

from __future__ import annotations

import pytest

from tests.external.passage_random import worst_plates, worst_strike
from tests.external.record import Record
from tests.frame.common import count


@pytest.mark.outside(
    source="moving blades and bodies marched through time, at random rows, speeds, bodies and headings",
    status="computed",
    tolerance="1 %",
)
def test_random_strikes_against_moving_blades(record_property: Record) -> None:
    worst, mean = worst_strike(count(4, 200))
    record_property("measured", f"{100.0 * worst:.2f} % at most, {100.0 * mean:.2f} % on average")
    assert worst < 0.01


@pytest.mark.outside(
    source="plane geometry of random rows of overlapping plates: opening = s cos b - t",
    status="closed form",
    tolerance="0.5 %",
)
def test_random_plate_rows(record_property: Record) -> None:
    worst = worst_plates(count(10, 300))
    record_property("measured", f"{100.0 * worst:.1g} %")
    assert worst < 5e-3
