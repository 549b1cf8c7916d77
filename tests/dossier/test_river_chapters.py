"""Chapters on place and energy for each kind of place, and their drawings."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.figure import Figure

from racewright.dossier.chapters import energy, place
from racewright.dossier.document import Chapter, Heading, Picture, Table, Text
from racewright.dossier.drawings import draw_all
from racewright.dossier.figures import energy_causes, months, rating, years
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.place.rating_band import rating_band
from racewright.place.rating_fit import rating as fitted
from racewright.supply.months import MonthlyEnergy, MonthRow
from racewright.supply.speed_band import BandRow, EnergyBand
from racewright.supply.spread import spread
from racewright.supply.years import YearlySpread
from racewright.uncertainty import Band
from tests.dossier.test_figures import _labels
from tests.ledger.river import findings_of

GWH = 3.6e12
LEVEL = np.array([1.0, 1.2, 1.5, 1.9, 2.4, 3.0, 3.3])
FLOW = 12.0 * (LEVEL - 0.4) ** 2.1 * np.exp([0.02, -0.03, 0.01, 0.03, -0.02, 0.01, -0.02])
FIT = fitted(LEVEL, FLOW)
OFF = fitted(LEVEL, np.where(LEVEL == 1.9, 2.0, 1.0) * FLOW, zero_level=0.4)


def _months(*lost: int) -> MonthlyEnergy:
    made = [GWH * (1.2 + np.cos(m)) for m in range(1, 13)]
    rows = tuple(
        MonthRow(m, 1.0, 1.0, 0.0 if m in lost else e, 0.5, e) for m, e in zip(range(1, 13), made, strict=True)
    )
    return MonthlyEnergy(rows, sum(r.energy for r in rows), sum(made), ())


def _years(count: int) -> YearlySpread:
    year = np.arange(2024 - count, 2024, dtype=np.int64)
    made = GWH * (4.0 + np.sin(year * 1.7))
    return YearlySpread(year, made, np.ones(count), (), spread(year, made), ())


def _band(low: float) -> EnergyBand:
    rows = (
        BandRow("spot speeds and their shape", low * GWH, 9.0 * GWH, 0.3),
        BandRow("power curve", 3.0 * GWH, 5.0 * GWH, 0.12),
    )
    return EnergyBand(Band(low * GWH, 4.0 * GWH, 9.2 * GWH, "all"), 0.1, 3.0, 0.32, rows, ())


DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "rating": lambda w: rating.draw(FIT, rating_band(FIT, np.linspace(0.9, 4.5, 60)), w),
    "rating, gauged range only": lambda w: rating.draw(FIT, rating_band(FIT, np.linspace(1.0, 3.3, 60)), w),
    "rating, outlier": lambda w: rating.draw(OFF, rating_band(OFF, np.linspace(0.9, 4.5, 60)), w),
    "months": lambda w: months.draw(_months(), w),
    "months, season": lambda w: months.draw(_months(1, 2, 12), w),
    "years": lambda w: years.draw(_years(12), w),
    "years, many": lambda w: years.draw(_years(60), w),
    "years, two": lambda w: years.draw(_years(2), w),
    "causes": lambda w: energy_causes.draw(_band(1.5), w),
    "causes, from nothing": lambda w: energy_causes.draw(_band(0.0), w),
}


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    labels = _labels(DRAWINGS[name](width))
    assert labels
    for text, (left, low, right, high) in labels:
        assert left >= -1e-3, text
        assert low >= -1e-3, text
        assert right <= 1 + 1e-3, text
        assert high <= 1 + 1e-3, text
    for (one, a), (other, b) in itertools.combinations(labels, 2):
        wide = min(a[2], b[2]) - max(a[0], b[0])
        tall = min(a[3], b[3]) - max(a[1], b[1])
        assert wide < 2e-3 or tall < 2e-3, f"{one!r} and {other!r}"


def test_titles_say_what_is_shown() -> None:
    def title(name: str) -> str:
        return " ".join(DRAWINGS[name](WIDE).get_suptitle().split())

    assert title("rating").startswith("7 gaugings from ")
    assert title("months, season").endswith("3 months give nothing")
    assert title("years").startswith("Half of all years pass ")
    assert title("causes") == "Spot speeds and their shape makes the band on the yearly energy widest"


def test_the_rating_is_dashed_beyond_the_gaugings() -> None:
    axes = DRAWINGS["rating"](WIDE).axes[0]
    drawn = [line for line in axes.lines if np.size(line.get_xdata()) and line.get_marker() == "None"]
    assert [line.get_linestyle() for line in drawn] == ["-", "--", "--"]


def _words(chapter: Chapter) -> str:
    return " ".join(b.text for b in chapter.blocks if isinstance(b, Text | Heading))


HEADINGS = {
    "gaugings": {"Rating curve", "How well the speed is known", "Season"},
    "rating": {"How well the speed is known", "Season"},
    "spots": {"Speed from spot speeds"},
    "speed": {"Season"},
    "histogram": set(),
}
YIELD = {"How sure the energy is", "Availability", "Turbulence"}


@pytest.mark.usefixtures("drawn_once")
@pytest.mark.parametrize("name", HEADINGS)
def test_chapters_hold_only_what_the_case_has(name: str) -> None:
    findings = findings_of(name)
    chapters = place.write(findings), energy.write(findings)
    found = [{b.text for b in c.blocks if isinstance(b, Heading)} for c in chapters]
    assert found[0] == HEADINGS[name]
    dated = {"By month", "By year"} if name in ("gaugings", "rating", "speed") else set()
    river = {"Beside the river"} if name in ("gaugings", "rating") else set()
    assert found[1] == YIELD | dated | river
    drawn = draw_all(findings)
    for chapter in chapters:
        assert {b.name for b in chapter.blocks if isinstance(b, Picture)} <= drawn.wide.keys()
        for block in chapter.blocks:
            if isinstance(block, Table):
                assert block.rows
                assert {len(row) for row in block.rows} == {len(block.columns)}


def test_words_for_a_place_without_transect() -> None:
    words = {name: _words(place.write(findings_of(name))) for name in ("spots", "speed", "histogram")}
    assert "estimated, not recorded" in words["spots"]
    assert "2 spot speeds scale" in words["spots"]
    assert "recorded where the machine hangs" in words["speed"]
    assert "given as shares of time" in words["histogram"]
    assert all("rating curve and the transect as given" not in text for text in words.values())


def test_several_machines_are_told_together() -> None:
    chapter = energy.write(findings_of("four"))
    assert any(isinstance(b, Heading) and b.text == "Several machines" for b in chapter.blocks)
    assert "The 4 machines together deliver" in _words(chapter)


def test_names_of_causes_cannot_turn_the_page() -> None:
    findings = findings_of("gaugings")
    assert findings.place is not None
    bad = dataclasses.replace(findings.place.site.outages[0], cause="ice\n<b>\u202e")
    site = dataclasses.replace(findings.place.site, outages=(bad,))
    chapter = place.write(dataclasses.replace(findings, place=dataclasses.replace(findings.place, site=site)))
    cells = [cell for b in chapter.blocks if isinstance(b, Table) for row in b.rows for cell in row]
    assert "ice <b>\ufffd" in cells
