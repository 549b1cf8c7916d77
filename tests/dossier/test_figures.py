"""The drawings: nothing cut off, no label on another, the same bytes again."""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from racewright.dossier.figures import (
    coefficients,
    control,
    cost,
    duration,
    power,
    sketch,
    standings,
    stream,
    triangles,
)
from racewright.dossier.figures.house import DARK, NARROW, WIDE, in_house_style
from racewright.dossier.figures.save import inline, svg
from racewright.ledger.findings import PlaceFindings
from tests.dossier import sample
from tests.drive_case import drive_findings

MACHINE, PLACE, ENERGY = sample.machine(), sample.place(), sample.energy()
COMPARISON = sample.community().comparison


def _deep(depth: float, hub: float) -> PlaceFindings:
    levels = tuple(dataclasses.replace(s, depth=depth) for s in PLACE.site.standings)
    return dataclasses.replace(PLACE, hub_depth=hub, site=dataclasses.replace(PLACE.site, standings=levels))


def _histogram_only() -> PlaceFindings:
    site = dataclasses.replace(PLACE.site, standings=(), discharge_curve=None, speed_curve=None)
    return dataclasses.replace(PLACE, site=site)


DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "stream": lambda w: stream.draw(MACHINE, PLACE, w),
    "stream, no place": lambda w: stream.draw(MACHINE, None, w),
    "stream, deep": lambda w: stream.draw(MACHINE, _deep(30.0, 9.0), w),
    "stream, no bed": lambda w: stream.draw(MACHINE, _histogram_only(), w),
    "triangles": lambda w: triangles.draw(MACHINE.design_point.triangles, w),
    "coefficients": lambda w: coefficients.draw(MACHINE.curve, MACHINE.design_point, w),
    "power": lambda w: power.draw(MACHINE.power_curve, MACHINE.drive, w),
    "duration": lambda w: duration.draw(PLACE.site, ENERGY, w),
    "duration, no energy": lambda w: duration.draw(PLACE.site, None, w),
    "duration, histogram": lambda w: duration.draw(_histogram_only().site, ENERGY, w),
    "standings": lambda w: standings.draw(PLACE.site.standings, w),
    "standings, aground": lambda w: standings.draw(sample.place(-0.12).site.standings, w),
    "cost": lambda w: cost.draw(COMPARISON, w),
    "sketch": lambda w: sketch.draw(MACHINE),
    "power, not held": lambda w: power.draw(MACHINE.power_curve, MACHINE.drive, w, holds=False),
    "control": lambda w: control.draw(MACHINE.control.control, 0.8, w),
    "control, slowing": lambda w: control.draw(drive_findings(torque_limit="1.5 kN m").control, 0.8, w),
    "control, not held": lambda w: control.draw(drive_findings(hold="dump").control, 0.8, w),
    "control, soon rated": lambda w: control.draw(drive_findings(rated_power="200 W").control, 0.8, w),
    "control, never rated": lambda w: control.draw(drive_findings(rated_power="90 kW").control, 0.8, w),
}


@in_house_style
def _labels(figure: Figure) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Every visible label with its box in fractions of the canvas; ticks outside the view are left out."""
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    hidden: set[int] = set()
    for axes in figure.axes:
        for axis in (axes.xaxis, axes.yaxis):
            low, high = sorted(axis.get_view_interval())
            for tick in (*axis.get_major_ticks(), *axis.get_minor_ticks()):
                if not low - 1e-9 <= tick.get_loc() <= high + 1e-9 or not axes.axison:
                    hidden |= {id(tick.label1), id(tick.label2)}
            if not axes.axison:
                hidden.add(id(axis.label))
    boxes = []
    size = figure.get_size_inches() * figure.dpi
    for text in figure.findobj(Text):
        assert isinstance(text, Text)
        if not text.get_text().strip() or not text.get_visible() or id(text) in hidden:
            continue
        box = Text.get_window_extent(text, canvas.get_renderer())
        boxes.append((text.get_text(), (box.x0 / size[0], box.y0 / size[1], box.x1 / size[0], box.y1 / size[1])))
    return boxes


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    check_labels(DRAWINGS[name](width))


def check_labels(figure: Figure) -> None:
    """No label of the figure is cut off or covers another."""
    labels = _labels(figure)
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


def test_the_check_on_labels_sees_a_cut_off_label() -> None:
    figure = Figure(figsize=(2, 1))
    figure.text(0.9, 0.5, "far too long for the canvas")
    assert any(box[2] > 1 for _, box in _labels(figure))


@pytest.mark.parametrize("name", ["stream", "duration", "cost"])
def test_same_bytes_again_and_no_date(name: str) -> None:
    first, second = svg(DRAWINGS[name](WIDE)), svg(DRAWINGS[name](WIDE))
    assert first == second
    assert b"<metadata" not in first
    assert b"dc:date" not in first


def test_titles_say_what_is_shown() -> None:
    title = DRAWINGS["coefficients"](WIDE).get_suptitle()
    assert title == "Power peaks at tip-speed ratio 2.0 with CP 0.69"
    assert "aground by 0.12" in DRAWINGS["standings, aground"](WIDE).get_suptitle()


def test_machine_is_drawn_to_scale() -> None:
    axes = DRAWINGS["stream"](WIDE).axes[0]
    assert axes.get_aspect() == 1.0
    tallest = max(float(np.max(p.get_path().vertices[:, 1])) for p in axes.patches)
    assert tallest == pytest.approx(float(np.max(MACHINE.flow.duct_r)))


def test_triangles_share_one_scale_and_close() -> None:
    figure = DRAWINGS["triangles"](WIDE)
    figure.draw_without_rendering()
    scales = [a.bbox.width / np.ptp(a.get_xlim()) for a in figure.axes]
    assert np.ptp(scales) < 1e-6 * scales[0]
    t = triangles.at(MACHINE.design_point.triangles, 8, behind=False)
    assert t.relative == pytest.approx(np.hypot(t.axial, t.blade - t.swirl))


def test_power_jumps_at_cut_in() -> None:
    line = DRAWINGS["power"](WIDE).axes[0].lines[0]
    x, y = np.asarray(line.get_xdata()), np.asarray(line.get_ydata())
    at = y[np.isclose(x, MACHINE.drive.cut_in_speed)]
    assert at[0] == 0.0
    assert at[-1] > 0.0
    assert not np.any(y[x < MACHINE.drive.cut_in_speed - 1e-9])


def test_half_of_the_energy_lies_between_the_middle_speeds() -> None:
    low, high = duration.middle_speeds(ENERGY)
    between = (ENERGY.speed > low) & (ENERGY.speed < high)
    assert float(ENERGY.energy[between].sum() / ENERGY.energy.sum()) == pytest.approx(0.5, abs=0.08)


def test_empty_curve_still_draws() -> None:
    none = np.array([])
    curve = dataclasses.replace(
        MACHINE.curve,
        tip_speed_ratio=none,
        power_coefficient=none,
        thrust_coefficient=none,
        head_coefficient=none,
    )
    assert (
        coefficients.draw(curve, MACHINE.design_point, WIDE).get_suptitle() == "Power and thrust over tip-speed ratio"
    )


def test_inline_drawing_has_own_ids_and_colours_that_turn() -> None:
    text = inline(svg(DRAWINGS["power"](NARROW)), "n-power", "narrow")
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert ids
    assert all(i.startswith("n-power-") for i in ids)
    assert set(re.findall(r'(?:href="#|url\(#)([^")]+)', text)) <= set(ids)
    assert not set(re.findall(r"(?<!,)#[0-9a-f]{6}", text)), "a colour outside the palette cannot turn dark"
    assert "http" not in text
    assert len(set(DARK.values())) == len(DARK)
