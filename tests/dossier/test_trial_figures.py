"""The drawings of the trials: nothing cut off, to scale, the data where they belong."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Rectangle

from racewright.dossier import trials_figures
from racewright.dossier.figures import (
    trial_budget,
    trial_fouling,
    trial_readings,
    trial_residuals,
    trial_rig,
    trial_ripple,
)
from racewright.dossier.figures.house import DARK, NARROW, WIDE
from racewright.dossier.figures.label import label
from racewright.dossier.figures.save import svg
from racewright.dossier.trials_view import (
    blockage_groups,
    channel_shapes,
    every_reading,
    group_of,
    nearest,
)
from racewright.trials.ripple import Ripple
from tests.dossier import sample, trials_sample
from tests.dossier.test_figures import check_labels

MACHINE, TRIALS = sample.machine(), trials_sample.trials()
SHOWN, SHAPES = every_reading(TRIALS), channel_shapes(TRIALS)
DESIGN = MACHINE.unit.design.tip_speed_ratio
TRACE = trials_figures.traces(TRIALS)[0][1]
LONG = "W" * 300 + " \u6c34\u202e"
RIPPLE = SHOWN[1].reading.ripple


def _bars(count: int) -> list[trial_budget.Bar]:
    return [
        (f"{LONG if k == 0 else 'channel_of_thrust'}: reference standard", 0.01 / (k + 1), 0.005)
        for k in range(count)
    ]


DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "rig": lambda w: trial_rig.draw(SHAPES[0], MACHINE, "free", w, invented=True),
    "rig, narrow": lambda w: trial_rig.draw(SHAPES[1], MACHINE, "lid", w, invented=False),
    "rig, wide and shallow": lambda w: trial_rig.draw(
        dataclasses.replace(SHAPES[0], width=30.0, depth=1.6, axis_height=0.8), MACHINE, "free", w, invented=True
    ),
    "rig, tight": lambda w: trial_rig.draw(
        dataclasses.replace(SHAPES[0], width=1.5, depth=1.5, axis_height=0.75, froude=None, speed=None),
        MACHINE, "lid", w, invented=True,
    ),
    "readings": lambda w: trial_readings.draw(
        trials_figures.clouds(SHOWN), trials_figures.predicted(TRIALS), w, invented=True
    ),
    "readings, one without prediction": lambda w: trial_readings.draw(
        trials_figures.clouds([dataclasses.replace(SHOWN[0], corrected=None)]), None, w, invented=False
    ),
    "budget": lambda w: trial_budget.draw(*trials_figures.budget(SHOWN[1].reading), w, invented=True),
    "budget, long": lambda w: trial_budget.draw(_bars(10), (0.02, 0.015), w, invented=True),
    "residuals": lambda w: trial_residuals.draw(
        TRIALS.check.rows, TRIALS.check.regions, DESIGN, w, coverage=1.96, invented=True
    ),
    "residuals, one": lambda w: trial_residuals.draw(
        TRIALS.check.rows[1:2], TRIALS.check.regions[1:2], DESIGN, w, coverage=1.96, invented=False
    ),
    "ripple": lambda w: trial_ripple.draw(RIPPLE, SHOWN[1].reading.torque, (5, 9), w, invented=True),
    "ripple, slow logger": lambda w: trial_ripple.draw(
        Ripple(RIPPLE.order[:4], RIPPLE.amplitude[:4], ()), 120.0, (5, 9), w, invented=True
    ),
    "fouling": lambda w: trial_fouling.draw(TRACE, trials_sample.FOULING, w, invented=True),
    "fouling, cleaned soon": lambda w: trial_fouling.draw(
        dataclasses.replace(TRACE, cleaned=2050.0),
        dataclasses.replace(trials_sample.FOULING, alarm_time=2040.0, onset=2000.0), w, invented=True,
    ),
    "fouling, none": lambda w: trial_fouling.draw(
        dataclasses.replace(TRACE, cleaned=None),
        dataclasses.replace(trials_sample.FOULING, found=False, alarm_time=None), w, invented=False,
    ),
}  # fmt: skip


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    check_labels(DRAWINGS[name](width))


@pytest.mark.parametrize("name", DRAWINGS)
def test_every_axis_has_a_unit_and_every_colour_turns_dark(name: str) -> None:
    figure = DRAWINGS[name](WIDE)
    for axes in figure.axes:
        if axes.axison:
            told = [axes.get_xlabel()] + ([] if "budget" in name else [axes.get_ylabel()])
            assert [words.rsplit(", ")[-1] in ("–", "%", "min") for words in told] == [True] * len(told)
    assert set(re.findall(r"#[0-9a-f]{6}\b", svg(figure).decode())) <= set(DARK)


@pytest.mark.parametrize("name", DRAWINGS)
def test_what_is_invented_says_so_in_the_title(name: str) -> None:
    title = DRAWINGS[name](WIDE).get_suptitle().replace("\n", " ")
    without = {"rig, narrow", "readings, one without prediction", "residuals, one", "fouling, none"}
    assert ("(invented data)" in title) == (name not in without)


def test_two_widths_make_two_channels_and_the_fouled_run_shares_one() -> None:
    assert [s.runs for s in SHAPES] == [("loads", "weed"), ("narrow",)]
    assert SHAPES[0].blockage == pytest.approx(trials_sample.blocked(trials_sample.RIG), rel=1e-3)
    assert SHAPES[1].blockage / SHAPES[0].blockage == pytest.approx(6.0 / 3.6, rel=1e-3)


def test_two_scales_are_told() -> None:
    figure = DRAWINGS["rig, wide and shallow"](WIDE)
    figure.draw_without_rendering()
    along, side = (a.bbox.width / np.ptp(a.get_xlim()) for a in figure.axes)
    assert side > 2.0 * along
    assert figure.axes[1].get_title(loc="left") == "seen from the side, on a larger scale"


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", ["rig", "rig, narrow", "rig, tight"])
def test_rig_is_to_scale_in_both_views(name: str, width: float) -> None:
    figure = DRAWINGS[name](width)
    figure.draw_without_rendering()
    along, side = figure.axes
    scales = [a.bbox.width / np.ptp(a.get_xlim()) for a in (along, side)]
    assert scales[0] == pytest.approx(scales[1], rel=1e-6)
    assert along.bbox.height / np.ptp(along.get_ylim()) == pytest.approx(scales[0], rel=1e-6)
    if name != "rig":
        return
    duct = max((p for p in along.patches if isinstance(p, Circle)), key=lambda p: p.radius)
    assert duct.radius == pytest.approx(SHAPES[0].duct_radius)
    assert duct.center == (0.0, SHAPES[0].axis_height)
    widths = [p.get_width() for p in along.patches if isinstance(p, Rectangle)]
    assert SHAPES[0].width == pytest.approx(min(widths, key=lambda w: abs(w - SHAPES[0].width)))


def test_rig_says_blockage_of_duct_and_rotor_and_the_froude_number() -> None:
    title = DRAWINGS["rig"](WIDE).get_suptitle().replace("\n", " ").replace("\u202f", " ")
    area = SHAPES[0].width * SHAPES[0].depth
    assert f"the duct's circle blocks {100 * SHAPES[0].blockage:.1f} %" in title
    assert f"the rotor annulus {100 * MACHINE.flow.annulus_area / area:.1f} %" in title
    assert "Froude number 0.24" in title
    assert "under a lid" in DRAWINGS["rig, tight"](WIDE).get_suptitle().replace("\n", " ")


def test_clouds_hold_each_reading_once_by_kind_and_blockage() -> None:
    found = trials_figures.clouds(SHOWN)
    assert [(c.kind, c.marker, c.ratio.size) for c in found] == [
        ("fouled", 0, 30), ("channel", 0, 30), ("channel", 1, 1), ("open", 0, 30), ("open", 1, 1),
    ]  # fmt: skip
    measured = SHOWN[1].reading.power_coefficient
    assert found[1].power[1] == measured.value
    assert found[1].power_half[1] == pytest.approx(measured.high - measured.value, rel=1e-6)
    assert found[3].power[0] == TRIALS.corrected[0].power_coefficient


def test_legend_names_only_what_is_there() -> None:
    def names(name: str) -> list[str]:
        return [t.get_text().replace("\u202f", " ") for t in DRAWINGS[name](WIDE).legends[0].get_texts()]

    assert names("readings, one without prediction") == ["in the channel, 5.0 % blocked"]
    whole = names("readings")
    assert "in the open stream, from 8.3 % blocked" in whole
    assert whole[-2:] == ["predicted, as built", "band of the prediction (CP)"]
    assert "CP, outside the band" not in [
        t.get_text() for t in DRAWINGS["residuals, one"](WIDE).legends[0].get_texts()
    ]


def test_prediction_rises_in_tip_speed_ratio_and_neighbours_are_one_point() -> None:
    told = trials_figures.predicted(TRIALS)
    assert told is not None
    assert told.ratio.size == 3, "two readings at the middle load are one point"
    assert np.all(np.diff(told.ratio) > 0.0)
    assert np.all((told.low < told.power) & (told.power < told.high))


def test_blockages_are_told_apart_from_a_tenth_on() -> None:
    groups = blockage_groups(SHOWN)
    assert list(groups) == [0, 1]
    assert group_of(SHOWN[0], groups) == 0
    assert group_of(SHOWN[3], groups) == 1
    assert len(blockage_groups(SHOWN[:3])) == 1


def test_nearest_reading_is_of_the_clean_machine() -> None:
    near = nearest(SHOWN, DESIGN)
    assert near is not None
    assert not near.fouled
    assert abs(near.reading.tip_speed_ratio.value - DESIGN) < 0.01
    exact = dataclasses.replace(near.reading.tip_speed_ratio, value=DESIGN)
    weed = [
        dataclasses.replace(s, reading=dataclasses.replace(s.reading, tip_speed_ratio=exact))
        for s in SHOWN
        if s.fouled
    ]
    assert nearest([*weed, *SHOWN], DESIGN) is near
    fouled = [s for s in SHOWN if s.fouled]
    assert nearest(fouled, DESIGN) is fouled[0]
    assert nearest([], DESIGN) is None


def test_budget_keeps_all_variance_whatever_it_joins() -> None:
    reading = SHOWN[1].reading
    many = tuple(
        dataclasses.replace(reading.sources[1], name=f"s{k}", effect=np.array([1e-3 / (k + 1), 0.0, 2e-3, 0.0]))
        for k in range(30)
    )
    for sources in (reading.sources, (reading.sources[0], *many)):
        bars, together = trials_figures.budget(dataclasses.replace(reading, sources=sources))
        assert len(bars) <= 10
        for k in (1, 2):
            assert np.sqrt(sum(b[k] ** 2 for b in bars)) == pytest.approx(together[k - 1])
        assert bars[0][0] == "scatter of the window (random)"
    whole = reading.power_coefficient
    assert trials_figures.budget(reading)[1][0] == pytest.approx(whole.standard_uncertainty / whole.value)
    assert trials_figures.budget(dataclasses.replace(reading, sources=())) == ((), (0.0, 0.0))


def test_fouling_trace_starts_at_one_and_ends_as_much_lower_as_was_lost() -> None:
    """The sample's torque falls by 6 % to minute 50; else it goes by its curve, with 0.3 % of noise."""
    assert TRACE.cleaned == 3000.0
    first, last = TRACE.share[TRACE.time < 1000.0], TRACE.share[(TRACE.time > 2800.0) & (TRACE.time < 3000.0)]
    assert float(first.mean()) == pytest.approx(1.0, abs=0.003)
    assert float(first.std()) < 0.006, "3 % of rotor speed and 1 % of stream speed are explained"
    assert float(last.mean()) == pytest.approx(0.943, abs=0.005)
    assert float(TRACE.share[TRACE.time > 3000.0].mean()) == pytest.approx(1.0, abs=0.005)


def test_ripple_marks_the_blade_passing() -> None:
    title = DRAWINGS["ripple"](WIDE).get_suptitle().replace("\n", " ").replace("\u202f", " ")
    assert "order 5 (blade passing): 4.0 % either side" in title
    assert "No order of the torque stands out up to 2 times" in DRAWINGS["ripple, slow logger"](
        WIDE
    ).get_suptitle().replace("\n", " ")


def test_names_for_drawings_are_short_and_drawable() -> None:
    assert label("flow_a: zero", 20) == "flow_a: zero"
    assert label("n" * 11, 10) == "n" * 8 + "\u2026"
    assert len(label(LONG, 10)) < 7, "a wide letter takes more room"
    assert label("a\u6c34\u202eb", 10) == "a\ufffd\ufffdb"
