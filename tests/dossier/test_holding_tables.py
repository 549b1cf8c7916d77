"""Tables of holding and strength: a note beside every number that safety hangs on, and the note says it all."""

from __future__ import annotations

from dataclasses import replace

import pytest

from racewright.dossier.chapters import holding_tables, strength_tables
from racewright.dossier.chapters.held import in_short
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Table
from racewright.holding.strike_fixed import beside_fixed
from tests.dossier import holding_sample as s
from tests.dossier.holding_found import found
from tests.holding.machines import strike


def _tables(notes: SafetyNotes) -> dict[str, Table]:
    both = [("trunk of 6 m", row) for row in beside_fixed(strike(), until=20.0)]
    return {
        "outcomes": holding_tables.outcomes(both, notes),
        "anchors": holding_tables.anchors(s.anchor_checks(), notes),
        "lines": holding_tables.lines(s.worst(), notes),
        "stresses": strength_tables.stresses(s.stress_checks(), notes),
        "damage": strength_tables.damage(s.damage_shares(), 20.0, notes),
    }


NOTES = SafetyNotes()
TABLES = _tables(NOTES)


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_a_note_that_is_told(name: str) -> None:
    table, told = TABLES[name], NOTES.points().items
    assert table.rows
    for row in table.rows:
        assert len(row) == len(table.columns)
        kind, _, places = row[-1].partition(" ")
        assert kind in ("note", "notes")
        for place in places.split(", "):
            note = told[int(place) - 1]
            assert note.startswith(f"Note {place}. ")
            assert all(word in note for word in ("Basis: ", "Edition: ", "Known how: "))


def test_equal_notes_are_told_once() -> None:
    told = NOTES.points().items
    assert len({note.partition(". ")[2] for note in told}) == len(told)


def test_tethered_and_fixed_stand_beside_each_other() -> None:
    tethered, fixed = TABLES["outcomes"].rows
    assert (tethered[1], fixed[1]) == ("on tethers", "rigidly fixed")
    assert " to " in tethered[2]
    assert fixed[5] == "none: the mount bears the blow"
    assert "slow line tension" in [c.name for c in TABLES["outcomes"].columns]
    assert not any("impact" in c.name for c in TABLES["outcomes"].columns)


def test_anchors_too_weak_and_refused_say_so() -> None:
    verdict = {row[0]: row[-2] for row in TABLES["anchors"].rows}
    assert verdict["port bow"].startswith("holds")
    assert verdict["starboard bow"] == "too weak"
    assert verdict["stern"] == s.anchor_checks()["stern"].cases[0].holding.reason
    assert "API RP 2SK" in TABLES["anchors"].rows[0][4]


def test_factor_and_source_stand_in_the_row() -> None:
    assert any(row[4].startswith("3, UFC 4-159-03, table 3-7 (2005)") for row in TABLES["lines"].rows)
    assert all(row[2].startswith("1.35, ") for row in TABLES["stresses"].rows)
    assert [row[7] for row in TABLES["stresses"].rows].count("too weak") == 1


def test_damage_is_summed() -> None:
    last = TABLES["damage"].rows[-1]
    assert last[0] == "all together"
    assert "of 20 wanted: enough" in last[4]


def test_the_lead_says_first_what_does_not_hang() -> None:
    """The sample's tree sinks or capsizes with a line lost: that stands before any share of a strength."""
    sample = found()
    bad = any(code for table in sample.held.lost for row in table.reason for code in row)
    said = in_short(sample, SafetyNotes())
    assert bad == said.startswith("It does not hang as wanted with")
    capsized = replace(sample.held.depths[0].intact, reason=tuple(("capsizes",) * 7 for _state in range(5)))
    held = replace(sample.held, depths=(replace(sample.held.depths[0], intact=capsized),))
    said = in_short(replace(sample, held=held), SafetyNotes())
    assert said.startswith("It does not hang as wanted with every line whole, in 35 of 35 points")
    assert "capsizes" in said.split(".")[0]
