"""Drawings in steps of one colour: they turn dark with the page, and nothing on them is a picture in dots."""

from __future__ import annotations

import re
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.figure import Figure

from racewright.dossier.figures import fuel_calendar, power_map
from racewright.dossier.figures.house import ACCENT, DARK, NARROW, WIDE, shades
from racewright.dossier.figures.save import inline, svg
from racewright.ledger.supply_things import SupplyYear
from tests.dossier import sample
from tests.dossier.test_figures import check_labels

MACHINE = sample.machine()


def _year() -> SupplyYear:
    """A set that burns 158 L a day, less of it in summer and nothing for ten days of July."""
    alone = np.full(365, 0.158)
    here = alone * (0.75 + 0.25 * np.cos(2.0 * np.pi * np.arange(365) / 365.0))
    here[200:210] = 0.0
    return SupplyYear(2023, (), 0, None, 19358, np.array([alone, here]), None, 2100.0, "EUR", ())  # type: ignore[arg-type]


SHADED: dict[str, Callable[[float], Figure]] = {
    "calendar": lambda width: fuel_calendar.draw(_year(), width),
    "map": lambda width: power_map.of(MACHINE.map, MACHINE.power_curve, width),
}


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", SHADED)
def test_every_shade_is_of_the_palette_and_none_is_an_image(name: str, width: float) -> None:
    text = inline(svg(SHADED[name](width)), "x", "wide")
    assert set(re.findall(r"(?<!,)#[0-9a-f]{6}", text)) == set(), "a colour outside the palette cannot turn dark"
    assert "<image" not in text
    assert len(set(re.findall(r"fill-opacity: ([\d.]+)", text))) >= 5


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_no_label_of_the_calendar_is_cut_off_or_covered(width: float) -> None:
    check_labels(SHADED["calendar"](width))


def test_the_calendar_has_a_square_a_day_and_the_fullest_step_where_most_burns() -> None:
    squares = SHADED["calendar"](WIDE).axes[0].collections[0]
    fuel = np.ma.filled(np.ma.masked_invalid(squares.get_array()), np.nan)
    assert np.isfinite(fuel).sum() == 365
    opacity = squares.cmap(squares.norm(fuel))[..., 3]
    assert opacity[0, 0] == opacity[np.isfinite(fuel)].max()
    assert opacity[6, 20] == opacity[np.isfinite(fuel)].min() > 0.0


def test_shades_go_from_faint_to_the_full_colour() -> None:
    steps = shades(ACCENT, 4)(np.arange(4))
    assert steps[:, 3] == pytest.approx([0.25, 0.5, 0.75, 1.0])
    assert np.ptp(steps[:, :3], axis=0) == pytest.approx(0.0)
    assert ACCENT in DARK
