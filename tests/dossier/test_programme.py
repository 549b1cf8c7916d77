"""The programme's chapter and drawing, and its place in the dossier."""

from __future__ import annotations

from dataclasses import replace

import pytest

from racewright.dossier.chapters import programme
from racewright.dossier.compose import compose
from racewright.dossier.document import Table, Text
from racewright.dossier.figures import programme_cash
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.growth_drawings import draw_growth
from racewright.ledger.growth_findings import ProgrammeFound
from tests.dossier import sample
from tests.dossier.growth_sample import GROWN
from tests.dossier.test_figures import check_labels

assert GROWN.programme is not None
FOUND: ProgrammeFound = GROWN.programme


def test_the_chapter_says_the_worth_of_stopping_and_every_quarter() -> None:
    chapter = programme.write(FOUND, invented=True)
    lead = next(block.text for block in chapter.blocks if isinstance(block, Text))
    assert lead.startswith("Invented figures. ")
    assert "right to stop" in lead
    tables = {block.caption.split(",")[0]: block for block in chapter.blocks if isinstance(block, Table)}
    assert len(tables["Cash by quarter"].rows) == FOUND.cash.expected.size
    assert len(tables["Steps and gates"].rows) == 4
    for table in tables.values():
        assert all(len(row) == len(table.columns) for row in table.rows)


def test_without_a_leap_and_units_nothing_is_said_of_them() -> None:
    value = replace(FOUND.value, leap=None, steps_over_leap=None)
    chapter = programme.write(replace(FOUND, leap=None, value=value, costs=()), invented=False)
    words = " ".join(block.text for block in chapter.blocks if isinstance(block, Text))
    assert "leap" not in words
    assert "Invented" not in words
    assert len([block for block in chapter.blocks if isinstance(block, Table)]) == 3


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_no_label_of_the_cash_is_cut_or_covered(width: float) -> None:
    check_labels(programme_cash.draw(FOUND.cash, width))


def test_growth_has_its_chapters_pictures_and_place() -> None:
    found = replace(sample.full(), growth=GROWN)
    document = compose(found)
    anchors = [chapter.anchor for chapter in document.chapters]
    assert anchors.index("programme") == anchors.index("growth") + 1
    assert f"chapter {anchors.index('missing') + 1}" in sample.told_on_page_one(document)
    named = {
        block.name
        for chapter in document.chapters
        if chapter.anchor in ("growth", "programme")
        for block in chapter.blocks
        if block.kind == "picture"
    }
    assert named == set(draw_growth(found, WIDE))
    assert draw_growth(sample.full(), WIDE) == {}
