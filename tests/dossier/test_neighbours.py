"""What the dossier says of fish, debris and sound."""

from __future__ import annotations

import dataclasses

import pytest

from racewright.cautions import caution
from racewright.dossier.chapters import debris, fish, sound
from racewright.dossier.compose import compose
from racewright.dossier.document import Picture, Table
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.neighbours_figures import draw_neighbours, felt_at_design
from racewright.dossier.neighbours_view import against
from racewright.ledger.neighbours_findings import NeighboursFindings
from tests.dossier import sample
from tests.dossier.neighbours_sample import coarse, findings, neighbours
from tests.dossier.words import said_in


def changed(**fields: object) -> NeighboursFindings:
    return dataclasses.replace(neighbours(), **fields)  # type: ignore[arg-type]


def test_sign_and_size_are_told_also_against_the_machine() -> None:
    words = said_in(fish.write(neighbours()))
    worse = [row for row in against(neighbours().beside) if row.struck_flow > 0.005]
    assert worse
    assert "Not everything speaks for two rows" in words
    for row in against(neighbours().beside):
        sign = "+" if round(100.0 * row.struck_flow) > 0 else ""
        assert f"{sign}{100.0 * row.struck_flow:.0f} %" in words


def test_every_chapter_carries_its_caution() -> None:
    for chapter, hazard in ((fish, "fish"), (debris, "flood_and_debris"), (sound, "sound")):
        assert caution(hazard).sentence in said_in(chapter.write(neighbours()))


def test_invented_fish_are_said_to_be() -> None:
    assert "invented: nobody counted" in said_in(fish.write(neighbours()))
    assert "nobody counted" not in said_in(fish.write(changed(invented=False)))


def test_what_has_no_figure_is_told_with_its_ends() -> None:
    words = said_in(fish.write(neighbours()))
    assert "0 to 100 %, no figure" in words
    assert "pressure, shear" in words


def test_names_of_the_user_cannot_turn_the_page() -> None:
    words = said_in(fish.write(neighbours()))
    assert "<b>eel</b> & \ufffdreversed" in words
    assert "\u202e" not in words


def test_counted_doses_stand_with_their_limits() -> None:
    words = said_in(debris.write(neighbours()))
    assert "dose autumn of the trials" in words
    assert "4 of 80" in words
    assert "belt over a nose" in words


def test_screen_and_trade_stand_where_they_are_asked() -> None:
    words = said_in(debris.write(neighbours()))
    assert "Kirschmer" in words
    assert "cannot be:" in words
    assert "tip-speed ratio 1.8" in words
    plain = said_in(debris.write(changed(screen=None, trade=None)))
    assert "Kirschmer" not in plain
    assert "another design" not in plain


def test_thresholds_name_their_edition_and_levels_their_uncertainty() -> None:
    chapter = sound.write(neighbours())
    table = next(b for b in chapter.blocks if isinstance(b, Table) and b.caption.startswith("How far thresholds"))
    edition = [column.name for column in table.columns].index("edition")
    assert all(row[edition] for row in table.rows)
    assert {"2024", "2014"} <= {row[edition] for row in table.rows}
    level = neighbours().sound[0].level
    assert level is not None
    assert f"\u00b1 {level.uncertainty:.0f} dB" in said_in(chapter)


def test_no_answer_is_said_with_its_reason() -> None:
    at = dataclasses.replace(neighbours().sound[0], level=None, reason="the rows stall")
    assert "No answer at the design point, 2.40 m/s: the rows stall" in said_in(sound.write(changed(sound=(at,))))
    one = neighbours().fish[-1]
    dumb = dataclasses.replace(one, at=tuple(dataclasses.replace(a, passage=None, reason="stalled") for a in one.at))
    words = said_in(fish.write(changed(fish=(dumb,), beside=())))
    assert "no answer: stalled" in words
    assert "No fish has an answer" in words
    assert felt_at_design(changed(fish=(dumb,)), coarse()) is None


def test_without_fish_or_debris_the_chapters_say_what_they_need() -> None:
    assert "[neighbours.NAME.fish.NAME]" in said_in(fish.write(changed(fish=(), beside=())))
    empty = dataclasses.replace(neighbours().debris, drift=())
    assert "[neighbours.NAME.debris.NAME]" in said_in(debris.write(changed(debris=empty)))


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_every_picture_of_the_chapters_is_drawn(width: float) -> None:
    found = findings()
    drawn = draw_neighbours(found, width)
    chapters = [c for c in compose(found).chapters if c.anchor in ("fish", "debris", "sound")]
    named = {b.name for c in chapters for b in c.blocks if isinstance(b, Picture)}
    assert named == set(drawn)
    assert all(svg.startswith(b"<?xml") for svg in drawn.values())
    assert draw_neighbours(sample.full(), width) == {}


@pytest.mark.parametrize("change", [{}, {"sound": ()}])
def test_page_one_points_at_the_right_chapter(change: dict[str, object]) -> None:
    found = findings(**change)
    document = compose(found)
    chapters = [c.anchor for c in document.chapters]
    assert f"chapter {chapters.index('missing') + 1}" in sample.told_on_page_one(document)
