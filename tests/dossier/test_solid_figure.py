"""The machine in three dimensions: labels, the same bytes again, and what is seen."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from racewright.dossier.figures import solid
from racewright.dossier.figures.house import NARROW, WIDE, in_house_style
from racewright.dossier.figures.save import svg
from tests.dossier.test_figures import check_labels
from tests.machine.random_solids import random_solid_machine
from tests.machine.rows import straight
from tests.machine.test_solids import DUCT, HUB


def drawn(seed: int | None, width: float = WIDE) -> Figure:
    if seed is None:
        return solid.draw(DUCT, HUB, straight(), straight("blades", 0.35, clearance=0.004), width)
    machine = random_solid_machine(seed)
    return solid.draw(machine.duct, machine.hub, machine.vanes, machine.blades, width)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("seed", [None, 6, 10, 17])
def test_no_label_is_cut_off_or_covered(seed: int | None, width: float) -> None:
    figure = drawn(seed, width)
    check_labels(figure)
    assert "vanes ahead of" in figure.get_suptitle().replace("\n", " ")
    wide, tall = figure.get_size_inches()
    assert tall < 1.1 * wide


def test_same_bytes_again_and_not_too_many() -> None:
    first, second = svg(drawn(None)), svg(drawn(None))
    assert first == second
    assert 20_000 < len(first) < 600_000


@in_house_style
def pixels(figure: Figure) -> np.ndarray[tuple[int, int, int], np.dtype[np.uint8]]:
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())


def test_water_comes_from_the_left_and_the_duct_is_cut() -> None:
    """The darker cut faces and the orange rotor are seen; arrows stand left of all of it."""
    seen = pixels(drawn(None)).astype(int)
    red, green, blue = seen[..., 0], seen[..., 1], seen[..., 2]
    cut = (abs(red - 10) < 6) & (abs(green - 67) < 6) & (abs(blue - 81) < 6)
    rotor = (red > green + 60) & (green > blue)
    assert cut.mean() > 0.01
    assert rotor.mean() > 0.01
    arrow = (abs(red - 14) < 3) & (abs(green - 90) < 3) & (abs(blue - 107) < 3) & (seen[..., 3] == 255)
    assert np.argwhere(arrow)[:, 1].min() < np.argwhere(cut)[:, 1].min() < np.argwhere(cut)[:, 1].max()
