"""The growth chapter: drawings without a label cut off or covered, machines to scale, pages and claims in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.figure import Figure

from racewright.dossier.chapters import claims as claims_chapter
from racewright.dossier.chapters import growth as growth_chapter
from racewright.dossier.document import Picture, Table, Text
from racewright.dossier.figures import growth_factors, growth_ladder, growth_step_up
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.figures.save import svg
from racewright.growth.claims import Claim, claim_sheet
from racewright.growth.grow import grow
from racewright.growth.headline_figures import headline_claims
from racewright.growth.size_exponents import own_exponent, scaled
from racewright.growth.step import SolvedStep, StepPlace, like_step, sized_step, solve_step
from racewright.growth.step_comparison import step_comparison
from racewright.uncertainty import Band
from tests.dossier.test_figures import check_labels
from tests.growth.steps import FRESH, MODEL, RIVER, SEA, TIDAL

GROWTH = grow((MODEL, RIVER, TIDAL))
COMPARED = [page.before for page in GROWTH.pages if page.before]
LAST = GROWTH.pages[-1].scaled


def _named(solved: SolvedStep, name: str) -> SolvedStep:
    return replace(solved, step=replace(solved.step, name=name))


LONG = "W" * 60 + " \u202e<b>"
NEAR = solve_step(like_step(RIVER.step, 1.1, 2.4, FRESH, "a little larger"))
TIGHT = solve_step(sized_step(RIVER.step, "tight gap", 14.0, 3.0, SEA, StepPlace(), clearance=0.003))
POOR = replace(MODEL, point=replace(MODEL.point, hydraulic_efficiency=0.75))
SHRUNK = [scaled(one.exponent, {one.exponent.over: 1.0}, {one.exponent.over: 0.4}) for one in LAST]
OWN = scaled(own_exponent("paint", 2.0, 2.0, 2.0, ""), {"throat_diameter": 1.0}, {"throat_diameter": 14.0})

DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "ladder": lambda w: growth_ladder.draw((MODEL, RIVER, TIDAL), w),
    "ladder, two": lambda w: growth_ladder.draw((RIVER, NEAR), w),
    "ladder, long names": lambda w: growth_ladder.draw((_named(MODEL, LONG), _named(TIDAL, LONG)), w),
    "ladder, three long names": lambda w: growth_ladder.draw(
        (_named(MODEL, LONG), _named(RIVER, LONG), _named(TIDAL, LONG)), w
    ),
    "ladder, five": lambda w: growth_ladder.draw((MODEL, RIVER, _named(NEAR, "second river unit"), TIGHT, TIDAL), w),
    "step-up": lambda w: growth_step_up.draw(COMPARED, w),
    "step-up, near": lambda w: growth_step_up.draw([step_comparison(RIVER, NEAR)], w),
    "step-up, another gap": lambda w: growth_step_up.draw([step_comparison(RIVER, TIGHT)], w),
    "step-up, apart": lambda w: growth_step_up.draw([step_comparison(POOR, RIVER)], w),
    "factors": lambda w: growth_factors.draw(LAST, "river unit", "tidal unit", w),
    "factors, smaller": lambda w: growth_factors.draw(SHRUNK, LONG, LONG, w),
    "factors, one of one's own": lambda w: growth_factors.draw([OWN], "river unit", "tidal unit", w),
}


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    check_labels(DRAWINGS[name](width))


@pytest.mark.parametrize("name", ["ladder", "step-up", "factors"])
def test_same_bytes_again(name: str) -> None:
    assert svg(DRAWINGS[name](WIDE)) == svg(DRAWINGS[name](WIDE))


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_machines_stand_to_one_scale(width: float) -> None:
    """The strip has one scale for all; outlines are 0.43 to 14 m throats there, whatever the panels do."""
    figure = DRAWINGS["ladder"](width)
    strip = figure.axes[0]
    assert strip.get_aspect() == 1.0
    widths = sorted(float(np.ptp(p.get_path().vertices[:, 0])) for p in strip.patches)
    assert widths[-1] / widths[0] > 14.0 / 0.43
    hubs = [step.step.unit.hub for step in (MODEL, RIVER, TIDAL)]
    for hub in hubs:
        long = hub.nose_length + hub.cylinder_length + hub.tail_length
        assert any(abs(one / long - 1.0) < 1e-6 for one in widths)
    assert all(axes.get_aspect() in (1.0, "auto") for axes in figure.axes)


def test_titles_say_what_is_shown() -> None:
    assert DRAWINGS["ladder"](
        WIDE
    ).get_suptitle() == "From model to tidal unit: 33 times the size, 58 000 times the torque".replace(
        "58 000", "58\u202f000"
    )
    assert "lies within 0.2 points" in DRAWINGS["step-up"](WIDE).get_suptitle().replace("\n", " ")
    assert "points above" in DRAWINGS["step-up, apart"](WIDE).get_suptitle().replace("\n", " ")
    assert "duct mass ×200 to ×2700" in DRAWINGS["factors"](WIDE).get_suptitle().replace("\n", " ")


def test_a_page_a_step() -> None:
    own = Claim(
        "shaft power at 2.4 m/s",
        "measured by us",
        480.0,
        "W",
        step="model",
        band=Band(455.0, 480.0, 505.0, "budget"),
        last_test="channel, runs 12 to 19, 2026-05-14",
        next_test="a second channel",
    )
    sheet = claim_sheet([own, *headline_claims(TIDAL, "tidal unit")], steps=("model", "river unit", "tidal unit"))
    chapter = growth_chapter.write(GROWTH, sheet)
    headings = [block.text for block in chapter.blocks if block.kind == "heading"]
    assert headings == ["Step 1: model", "Step 2: river unit", "Step 3: tidal unit", "Claims"]
    pictures = {block.name for block in chapter.blocks if isinstance(block, Picture)}
    assert pictures == {"growth_ladder", "growth_step_up", "growth_factors_2", "growth_factors_3"}
    tables = [block for block in chapter.blocks if isinstance(block, Table)]
    assert all(len(row) == len(table.columns) for table in tables for row in table.rows)
    told = "\n".join(cell for table in tables for row in table.rows for cell in row)
    assert "nan" not in told.lower()
    assert "not known" not in told
    safety = [block for block in chapter.blocks if isinstance(block, Text) and block.tone == "safety"]
    assert len(safety) == 2
    lead = next(block for block in chapter.blocks if isinstance(block, Text))
    assert lead.tone == "lead"
    assert "2218 times as much" in lead.text


def test_what_is_not_known_is_asked_for_beside_the_table() -> None:
    bare = replace(TIDAL, step=replace(TIDAL.step, place=StepPlace()))
    chapter = growth_chapter.write(grow((RIVER, bare)), claim_sheet([]))
    points = next(block for block in chapter.blocks if block.kind == "points")
    assert len(points.items) == 7
    assert any("give the depth of the axis" in item for item in points.items)


def test_claims_table_shows_figure_basis_tests_and_whether_it_stands() -> None:
    whole = Claim("head", "published", 1.7, "J/kg", source="a <book>", why_no_band="none printed", next_test="2027")
    bare = Claim("good will", "memory", None)
    moved = Claim("power", "measured by us", 2000.0, "W", "river unit", last_test="flume, 2026", tested_step="model")
    sheet = claim_sheet([whole, bare, moved], steps=("model", "river unit"))
    rows = {row[0]: row for row in claims_chapter.table(sheet).rows}
    assert rows["head"][1:] == ("1.70\u202fJ/kg, no band", "published: a <book>", "none", "2027", "yes, untested")
    assert rows["good will"][1:] == ("none yet", "memory", "none", "none planned", "not yet")
    assert rows["power (river unit)"][1:4] == ("2.00\u202fkW, no band", "measured by us", "flume, 2026, on model")
    blocks = claims_chapter.write(sheet)
    assert isinstance(blocks[0], Text)
    assert blocks[0].text == "Of 3 claims 1 stands as written, none of them by our own measurement."
    assert isinstance(blocks[-1], Table)
    assert {row[0] for row in blocks[-1].rows} == {"warning", "caution"}
    (empty,) = claims_chapter.write(claim_sheet([]))
    assert isinstance(empty, Text)
    assert empty.text.startswith("Nothing is claimed")
