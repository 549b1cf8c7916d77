"""Availability from parts against closed forms."""

from __future__ import annotations

import math

import pytest

from racewright.upkeep.parts import MachinePart, sure_band
from racewright.upkeep.parts_availability import parts_availability
from racewright.upkeep.standstill import PartNumbers, standstills
from tests.external.record import Record

DAY = 86400.0


@pytest.mark.outside(
    source="alternating renewal, T/(T + w): 120 d and 14 d, 60 d and 30 d",
    status="closed form",
    tolerance="1e-12",
)
@pytest.mark.parametrize(("between", "wait", "printed"), [(120.0, 14.0, 0.90), (60.0, 30.0, 0.67)])
def test_one_part_flown_in(record_property: Record, between: float, wait: float, printed: float) -> None:
    part = MachinePart("seal", sure_band(1.0 / (between * DAY)), sure_band(0.0), sure_band(wait * DAY))
    found = parts_availability((part,)).share.value
    record_property("measured", f"{abs(found - between / (between + wait)):.0e}")
    assert found == pytest.approx(between / (between + wait), rel=1e-12)
    assert found == pytest.approx(printed, abs=0.005)


@pytest.mark.outside(
    source="Erlang's loss formula: s spares and no mending wait as s + 1 lines lose, loss / (1 - loss)",
    status="closed form",
    tolerance="1e-6 relative",
)
@pytest.mark.parametrize("held", [0, 1, 4, 11])
@pytest.mark.parametrize("offered", [0.01, 0.7, 3.0, 15.0])
def test_spares_without_mending_are_lines_of_erlang(held: int, offered: float) -> None:
    """Time goes on for orders and failures alike: only waiting stops the failures."""
    terms = [offered**k / math.factorial(k) for k in range(held + 2)]
    loss = terms[-1] / sum(terms)
    found = waiting(held, offered)
    assert found == pytest.approx(loss / (1.0 - loss), rel=1e-6)


@pytest.mark.outside(
    source="tables of Erlang's loss formula: 2 lines 1 erlang 0.2000, 5 lines 3 erlang 0.1101, 10 lines 5 "
    "erlang 0.0184",
    status="from memory",
    tolerance="5e-5: printed to four places",
)
@pytest.mark.parametrize(("lines", "offered", "loss"), [(2, 1.0, 0.2000), (5, 3.0, 0.1101), (10, 5.0, 0.0184)])
def test_tables_of_erlang(lines: int, offered: float, loss: float) -> None:
    found = waiting(lines - 1, offered)
    assert found / (1.0 + found) == pytest.approx(loss, abs=5e-5)


def waiting(held: int, offered: float) -> float:
    """Waiting for each running second, `offered` failures in the time of one order."""
    part = MachinePart("seal", sure_band(1.0 / DAY), sure_band(0.0), sure_band(offered * DAY), held=held)
    return standstills([PartNumbers(part, 1.0 / DAY, 0.0, offered * DAY)])[0].waiting
