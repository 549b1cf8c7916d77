"""The chapter on strikes: its tables and its remarks say the same of a log."""

from __future__ import annotations

from dataclasses import replace

from racewright.dossier.chapters import struck, struck_tables
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Table, Text
from racewright.holding.strike_outcome import FrictionSensitivity, outcome_by_friction
from racewright.holding.strike_two_phase import two_phase
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.struck_findings import StruckBy
from tests.dossier.holding_found import found
from tests.holding.machines import strike

ASKED = (0.1, 0.3, 0.5)


def blunt() -> StruckBy:
    """A log on a face that leans less than its friction asks for, and is pushed aside all the same."""
    one = strike(lean=10.0, offset=0.5, friction=0.3)
    return replace(found().struck[0], phases=two_phase(one), frictions=outcome_by_friction(one, ASKED, until=60.0))


def beside() -> StruckBy:
    """A log five metres off."""
    one = strike(offset=5.0)
    missed = outcome_by_friction(one, ASKED, until=10.0)
    return replace(found().struck[0], name="stray log", phases=None, frictions=missed, beside_fixed=())


def told(*logs: StruckBy) -> HoldingFindings:
    return replace(found(), struck=logs, year=None)


def remarks(findings: HoldingFindings) -> list[str]:
    table = next(b for b in struck.blocks(findings) if isinstance(b, Table) and b.caption == "Remarks on strikes")
    return [" ".join(row) for row in table.rows]


def test_the_remark_on_the_lean_has_the_endings_of_the_table() -> None:
    log = blunt()
    endings = {f"{o.friction:g}": o.ending for o in log.frictions.outcomes}
    assert endings["0.3"] == "pushed aside and cleared"
    (said,) = [text for text in remarks(told(log)) if "degrees from square-on" in text]
    assert "saw log" in said
    assert "slide off" not in said
    assert "does not slide along it, and comes free only as log or machine turn" in said
    assert f"What becomes of it then: {struck_tables.ends(log.frictions.outcomes[1:])}." in said
    assert "pushed aside and cleared at friction 0.3" in said


def test_a_log_that_passes_by_does_not_reach_it() -> None:
    table = struck_tables.logs((beside(), blunt()), SafetyNotes())
    place = [c.name for c in table.columns].index("reaches it")
    assert [row[place] for row in table.rows] == ["no: passes beside it", "yes"]
    lead = struck.blocks(told(beside(), blunt()))[0]
    assert isinstance(lead, Text)
    assert "Passing beside the machine: stray log." in lead.text


def test_a_log_over_the_machine_has_its_room() -> None:
    over = replace(beside(), over=0.4, frictions=FrictionSensitivity((), False, None))
    assert struck_tables.logs((over,), SafetyNotes()).rows[0][5].startswith("no: 0.40")
