"""What the dossier says of strength."""

from __future__ import annotations

import dataclasses
import re

from racewright.cautions import caution
from racewright.dossier.chapters import strength
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Chapter, Picture, Points, Table, Text
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.strength_view import draw_strength
from racewright.safety import safety_basis
from tests.dossier import sample
from tests.ledger.test_strength_nodes import SERIES, found_with

FOUND = (("# ---- the community ---", SERIES), ("out_of_round = ", 'point_load = "50 kN"\nout_of_round = '))


def chapter() -> Chapter:
    return strength.write(found_with(*FOUND))


def words(chapter: Chapter) -> str:
    texts = [block.text for block in chapter.blocks if isinstance(block, Text)]
    points = [item for block in chapter.blocks if isinstance(block, Points) for item in block.items]
    return "\n".join([*texts, *points]).replace("\u202f", " ")


def test_every_picture_of_the_chapter_is_drawn_wide_and_narrow() -> None:
    named = {block.name for block in chapter().blocks if isinstance(block, Picture)}
    assert named == {"stress_use", "shaken", "damage_1"}
    findings = dataclasses.replace(sample.full(), strength=found_with(*FOUND))
    for width in (WIDE, NARROW):
        assert draw_strength(findings, width).keys() == named
    assert draw_strength(sample.full(), WIDE) == {}


def test_every_row_of_numbers_points_at_a_note_that_is_printed() -> None:
    whole = chapter()
    notes = words(whole)
    marks = [
        mark
        for block in whole.blocks
        if isinstance(block, Table) and block.columns[-1].name == "read with"
        for row in block.rows
        for mark in row[-1].removeprefix("notes ").removeprefix("note ").split(", ")
    ]
    assert len(marks) > 20
    assert all(f"Note {mark}." in notes for mark in marks)
    for hazard in ("structure", "fatigue"):
        assert caution(hazard).sentence in notes


def test_a_caution_is_told_once_and_goes_with_every_note() -> None:
    told = words(chapter())
    for hazard in ("structure", "fatigue"):
        assert told.count(caution(hazard).sentence.rstrip(".")) == 1
    assert "Caution as in" not in told
    numbers = sorted(int(number) for number in re.findall(r"^Note (\d+)\. Basis: ", told, re.MULTILINE))
    assert numbers == list(range(1, len(numbers) + 1))
    gone_with = re.findall(
        r"With notes? ([\d, to]+) goes the caution (at the head of this chapter|under Fatigue)\.", told
    )
    assert {where for _, where in gone_with} == {"at the head of this chapter", "under Fatigue"}
    spans = [span.split(" to ") for places, _ in gone_with for span in places.split(", ")]
    assert sorted(n for span in spans for n in range(int(span[0]), int(span[-1]) + 1)) == numbers


def test_a_caution_that_the_chapter_does_not_tell_stands_with_the_notes() -> None:
    notes = SafetyNotes()
    bases = [safety_basis(hazard, f"basis {k}", "x", "y") for k, hazard in enumerate(("anchors", "structure") * 2)]
    assert notes.mark((*bases, safety_basis("anchors", "more", "x", "y"))) == "notes 1, 2, 3, 4, 5"
    told, points = notes.apart({caution("structure").sentence: "above"})
    assert told == f"With notes 1, 3, 5: {caution('anchors').sentence} With notes 2, 4 goes the caution above."
    assert points.items[0] == "Note 1. Basis: basis 0. Edition: x. Known how: y."


def test_the_lead_says_what_is_too_weak() -> None:
    weak = strength.write(found_with(('diameter = "65 mm"', 'diameter = "45 mm"')))
    assert "Too weak under the factors asked for: shaft, braked" in words(weak)
    assert "Every part holds" in words(strength.write(found_with()))


def test_without_series_fatigue_is_said_to_be_missing() -> None:
    told = words(strength.write(found_with()))
    assert "Nothing counted: no series of stress is given" in told
    assert "Invented data." in next(b.caption for b in chapter().blocks if isinstance(b, Picture))
