"""The reduction as a whole: chunks, windows, tares, probes, flags that are told, what is refused."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError
from racewright.trials import Channel, Chunk, Settings, Span, cube_mean, exact, fit_calibration, reduce
from tests.trials.record import MEANS, RATES, RIG, channels, cut, still, values


def test_means_and_their_names():
    raw = values(130)
    found = reduce(cut(raw, [0, 130]), channels(), RIG)
    assert [(r.start, r.end) for r in found.readings] == [(0.0, 60.0), (60.0, 120.0)]
    r = found.readings[0]
    assert r.torque == pytest.approx(raw["torque"][:6000].mean(), rel=1e-12)
    assert r.stream_speed == pytest.approx(cube_mean(raw["speed"][:1500]), rel=1e-12)
    assert r.turbulence_intensity == pytest.approx(raw["speed"][:1500].std() / raw["speed"][:1500].mean(), rel=1e-9)
    assert (r.depth, r.temperature) == pytest.approx((1.25, 285.15), rel=1e-3)
    assert r.power == pytest.approx(8.0 * 15.0, rel=1e-3)
    assert found.refusals[-1].reasons == ("shorter than a window",)
    assert found.duration == 130.0


def test_power_is_the_mean_of_the_product():
    """Torque and rotor speed that swing together carry 4.5 % more power than their means."""
    raw = values(60, scatter=0.0)
    swing = 0.3 * np.sin(2.0 * np.pi * 0.5 * np.arange(6000) / 100.0)
    raw["torque"] = 8.0 * (1.0 + swing)
    raw["rotor_speed"] = 15.0 * (1.0 + 0.3 * np.sin(2.0 * np.pi * 0.5 * np.arange(3000) / 50.0))
    loose = Settings(rotor_scatter=1.0, torque_scatter=1.0)
    own = channels(torque={"spike_floor": 0.5}, rotor_speed={"spike_floor": 0.5})
    (r,) = reduce(cut(raw, [0, 60]), own, RIG, settings=loose).readings
    assert r.power == pytest.approx(120.0 * (1.0 + 0.5 * 0.09), rel=1e-3)


@pytest.mark.parametrize("edges", [[0, 1, 2, 64, 130], list(range(0, 131, 13))])
def test_any_cut_of_the_record_gives_the_same_answer(edges):
    raw = values(130, scatter=0.03)
    raw["torque"][777] = 80.0
    still(raw, 0.0, 20.0)
    whole = reduce(cut(raw, [0, 130]), channels(), RIG, tares=[Span(0.0, 20.0)])
    parts = reduce(cut(raw, edges), channels(), RIG, tares=[Span(0.0, 20.0)])
    assert repr(parts) == repr(whole)


def test_memory_does_not_grow_with_the_rate():
    """200 s at 10 kHz: 2 million readings of torque pass, 16 MB; the peak stays below a few blocks."""
    fast = [replace(c, rate=10000.0) if c.role == "torque" else c for c in channels()]
    slow = values(1, scatter=0.0)
    slow["torque"] = np.full(10000, 8.0)
    reduce([Chunk(0.0, slow)], fast, RIG)
    tracemalloc.start()
    reduce((Chunk(float(k), slow) for k in range(200)), fast, RIG)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 6e6


def test_the_zero_is_linear_between_tares():
    raw = values(140, scatter=0.001)
    drift = 0.5 + 0.002 * np.arange(14000) / 100.0
    still(raw, 0.0, 20.0)
    still(raw, 100.0, 140.0)
    raw["torque"][:2000] = raw["torque"][-4000:] = 0.0
    raw["torque"] += drift
    own = channels(torque={"tared": True})
    found = reduce(cut(raw, [0, 140]), own, RIG, tares=[Span(100.0, 140.0), Span(0.0, 20.0)])
    assert [z.time for z in found.zeros] == [10.0, 120.0]
    assert [z.value for z in found.zeros] == pytest.approx([0.52, 0.74], abs=1e-3)
    (r,) = found.readings
    assert (r.start, r.end) == (20.0, 80.0)
    assert r.torque == pytest.approx(8.0, abs=2e-3)
    row = next(c for c in r.channels if c.name == "torque")
    assert row.zero == pytest.approx(0.6, abs=1e-3)
    assert r.power == pytest.approx(120.0, rel=1e-3)
    assert [f.reasons for f in found.refusals[:1]] == [("tare",)]
    assert found.series.torque[4] == pytest.approx(8.0, abs=0.01)


def test_a_tare_of_a_turning_rotor_is_refused_and_one_in_running_water_warned_of():
    with pytest.raises(InputError, match="the rotor turns at 15 rad/s"):
        reduce(cut(values(100), [0, 100]), channels(torque={"tared": True}), RIG, tares=[Span(0.0, 20.0)])
    raw = values(100)
    raw["rotor_speed"][: round(20 * RATES["rotor_speed"])] = 0.0
    found = reduce(cut(raw, [0, 100]), channels(torque={"tared": True}), RIG, tares=[Span(0.0, 20.0)])
    assert any("the water runs at 1.5 m/s" in r.text for r in found.remarks)


def test_a_tare_that_runs_into_the_start_up_is_refused():
    """The rotor turns in 5 of 20 s: the median of the tare would not see it, its mean does."""
    raw = values(100)
    still(raw, 0.0, 15.0)
    with pytest.raises(InputError, match=r"turns at 15 rad/s, for 25 % of the time"):
        reduce(cut(raw, [0, 100]), channels(torque={"tared": True}), RIG, tares=[Span(0.0, 20.0)])
    still(raw, 15.0, 20.0)
    reduce(cut(raw, [0, 100]), channels(torque={"tared": True}), RIG, tares=[Span(0.0, 20.0)])


def test_a_zero_that_is_left_in_is_warned_of():
    raw = values(100, scatter=0.001)
    still(raw, 0.0, 20.0)
    for offset, told in ((0.4, True), (0.001, False)):
        raw["torque"][:2000] = offset * (1.0 + 0.01 * np.random.default_rng(2).standard_normal(2000))
        raw["thrust"][:2000] = 0.0
        found = reduce(cut(raw, [0, 100]), channels(), RIG, tares=[Span(0.0, 20.0)])
        said = [r.text for r in found.remarks if "is not tared, yet reads" in r.text]
        assert bool(said) == told
        assert not told or said[0].startswith("torque is not tared, yet reads 0.4 (SI)")
        assert not told or "5 % of its readings" in said[0]


def test_a_zero_that_jumps_is_warned_of_and_its_change_over_root_twelve_counted():
    """The zero is 0 before and 1.2 N m after: 0.346 N m of 8 are 4.3 %, whatever the interpolated zero is."""
    raw = values(140, scatter=0.001)
    still(raw, 0.0, 20.0)
    still(raw, 100.0, 140.0)
    raw["torque"][:2000] *= 1e-3
    raw["torque"][-4000:] = 1.2 + 1e-3 * raw["torque"][-4000:]
    own = channels(torque={"tared": True, "zero_wander": 1e-3})
    found = reduce(cut(raw, [0, 140]), own, RIG, tares=[Span(0.0, 20.0), Span(100.0, 140.0)])
    (r,) = found.readings
    zero = next(s for s in r.sources if s.name == "torque: zero")
    assert zero.effect[1] == pytest.approx(1.2 / np.sqrt(12.0) / r.torque, rel=0.02)
    assert any("The zero of torque moved by 1.2" in one.text for one in found.remarks)


def test_a_missing_tare_is_said():
    found = reduce(cut(values(60), [0, 60]), channels(torque={"tared": True}), RIG)
    assert any("no tare" in r.text for r in found.readings[0].remarks)


def test_probes_are_weighted_over_the_capture_area():
    raw = values(60, scatter=0.0)
    raw["upper"] = np.full(1500, 2.0)
    own = [*channels(), Channel("upper", "speed", RATES["speed"], exact(0.0, 1.0))]
    chunk = Chunk(0.0, raw)
    (r,) = reduce([chunk], own, RIG, weights=[3.0, 1.0]).readings
    assert r.stream_speed == pytest.approx(cube_mean([1.5, 2.0], [3.0, 1.0]), rel=1e-9)
    assert r.mean_speed == pytest.approx(1.625)


def test_probe_noise_is_taken_out_of_speed_and_turbulence():
    raw = values(60, scatter=0.1)
    (noisy,) = reduce(cut(raw, [0, 60]), channels(), RIG).readings
    (clean,) = reduce(cut(raw, [0, 60]), channels(speed={"noise": 0.15}), RIG).readings
    assert noisy.turbulence_intensity == pytest.approx(0.1, abs=0.005)
    assert clean.turbulence_intensity < 0.03
    assert clean.stream_speed == pytest.approx(1.5, rel=4e-3)
    assert noisy.stream_speed > 1.008 * clean.stream_speed


def test_flagged_readings_are_told_and_the_mean_with_them_stands_beside():
    raw = values(60)
    raw["torque"][[100, 2000]] += 400.0
    raw["thrust"][3000:3050] = 500.0
    own = channels(thrust={"high": 500.0})
    found = reduce(cut(raw, [0, 60]), own, RIG)
    torque, thrust = (next(f for f in found.flags if f.channel == n) for n in ("torque", "thrust"))
    assert (torque.spike, thrust.out_of_range, thrust.readings) == (2, 50, 6000)
    assert thrust.share == pytest.approx(50 / 6000)
    row = next(c for c in found.readings[0].channels if c.name == "torque")
    assert row.with_spikes - row.mean == pytest.approx(800.0 / 6000, rel=0.01)
    assert row.flagged == pytest.approx(2 / 6000)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"rotor_speed": 15.0 * np.linspace(0.98, 1.02, 3000)}, "rotor speed: drifts"),
        ({"speed": 1.5 * np.linspace(0.95, 1.05, 1500)}, "speed: drifts"),
        ({"speed": np.zeros(1500)}, "still water"),
        ({"rotor_speed": np.zeros(3000)}, "rotor standing"),
        ({"torque": 8.0 + 4.0 * np.sin(np.arange(6000) / 300.0)}, "torque: scatters"),
        ({"torque": np.full(6000, 99.0)}, "torque: 100.0 % of readings flagged"),
    ],
)
def test_an_unsteady_window_is_refused_with_its_reason(change, words):
    raw = {**values(60), **change}
    found = reduce(cut(raw, [0, 60]), channels(torque={"high": 50.0}), RIG)
    assert not found.readings
    assert any(words in reason for reason in found.refusals[0].reasons)


def test_runaway_is_a_reading_though_its_torque_is_all_scatter():
    raw = values(60)
    raw["torque"] = 0.02 + 0.3 * np.repeat(np.random.default_rng(3).standard_normal(120), 50)
    (r,) = reduce(cut(raw, [0, 60]), channels(), RIG).readings
    assert r.power_coefficient.low < 0.0 < r.power_coefficient.high
    assert r.power_coefficient.standard_uncertainty < 0.01


def test_the_search_finds_the_steady_part_behind_a_change_of_load():
    raw = values(150)
    raw["rotor_speed"][:3000] = 10.0
    found = reduce(cut(raw, [0, 150]), channels(), RIG)
    assert [(r.start, r.end) for r in found.readings] == [(0.0, 60.0), (60.0, 120.0)]
    raw["rotor_speed"][:2000] = 10.0
    raw["rotor_speed"][2000:] = 15.0
    found = reduce(cut(raw, [0, 150]), channels(), RIG)
    assert found.readings[0].start == 45.0
    before = [f for f in found.refusals if f.end <= 45.0]
    assert [f.start for f in before] == [0.0, *(f.end for f in before[:-1])]
    assert before[-1].end == 45.0
    assert all("rotor speed" in f.reasons[0] for f in before)


def test_a_gap_is_told_and_spoils_its_window_only():
    raw = values(180)
    chunks = cut(raw, [0, 70, 80, 180])
    found = reduce([chunks[0], chunks[2]], channels(), RIG)
    assert all(f.gap == 10 * RATES[f.channel] for f in found.flags)
    assert found.readings[0].end == 60.0
    assert found.readings[1].start == 90.0


def test_an_unbelievable_temperature_is_replaced_and_said():
    raw = values(60, temperature=400.0)
    (r,) = reduce(cut(raw, [0, 60]), channels(), RIG).readings
    assert r.temperature == RIG.temperature
    assert any(remark.about == "temperature" for remark in r.remarks)


def test_a_dead_gauge_is_left_out_and_said():
    raw = values(60)
    raw["level"][:] = 9.0
    (r,) = reduce(cut(raw, [0, 60]), channels(level={"high": 5.0}), RIG).readings
    assert r.depth == RIG.depth
    assert "level" not in [c.name for c in r.channels]
    assert any("level has no good reading" in remark.text for remark in r.remarks)


def test_the_interval_counts_every_source_once():
    rng = np.random.default_rng(2)
    points = np.linspace(0.0, 20.0, 12)
    law = replace(fit_calibration(points, points + 0.02 * rng.standard_normal(12), 1), reference=0.01)
    rig = replace(RIG, radius_uncertainty=0.002, density_uncertainty=1e-4)
    raw = values(60, scatter=0.03)
    (r,) = reduce(cut(raw, [0, 60]), channels(torque={"calibration": law}), rig).readings
    names = [s.name for s in r.sources]
    assert names == [
        "scatter of the window",
        "torque: calibration fit",
        "torque: reference standard",
        "radius",
        "density",
        "cube mean of the speed",
    ]
    own = r.power_coefficient
    total = sum(s.effect[0] ** 2 for s in r.sources)
    assert own.standard_uncertainty == pytest.approx(own.value * total**0.5)
    assert own.random**2 + own.systematic**2 == pytest.approx(own.standard_uncertainty**2)
    assert r.covariance[0, 0] == pytest.approx(total)
    assert np.linalg.eigvalsh(r.covariance).min() > 0.0
    assert np.linalg.eigvalsh(r.mean_covariance).min() > 0.0
    ti2 = r.turbulence_intensity**2
    assert own.value / own.as_defined == pytest.approx(1.0 + 1.5 * ti2)
    assert r.thrust_coefficient.value / r.thrust_coefficient.as_defined == pytest.approx(1.0 + 1.5 * ti2)


def flow_and_machine(shared, seed=9):
    """Speed wanders cell by cell; torque and thrust follow it (shared) or not."""
    rng = np.random.default_rng(seed)
    cell = 0.04 * rng.standard_normal(120)
    own = cell if shared else 0.04 * rng.standard_normal(120)
    raw = values(60, scatter=1e-4)
    raw["speed"] = raw["speed"] * np.repeat(1.0 + cell, [13, 12] * 60)
    raw["torque"] = raw["torque"] * np.repeat((1.0 + own) ** 3, 50)
    raw["thrust"] = raw["thrust"] * np.repeat((1.0 + own) ** 2, 50)
    return reduce(cut(raw, [0, 60]), channels(), RIG, settings=Settings(torque_scatter=1.0)).readings[0]


def test_what_torque_and_speed_share_cancels_in_the_coefficients():
    together, apart = flow_and_machine(True), flow_and_machine(False)
    spread = together.mean_covariance[0, 0] ** 0.5 / together.stream_speed
    assert together.power_coefficient.random / together.power_coefficient.value < 0.1 * spread
    assert apart.power_coefficient.random / apart.power_coefficient.value > 2.5 * spread
    assert together.mean_covariance[0, 1] > 0.9 * np.sqrt(
        together.mean_covariance[0, 0] * together.mean_covariance[1, 1]
    )


def test_random_errors_of_power_and_tip_speed_ratio_share_the_speed_only():
    """CP goes as U^-3 and TSR as U^-1; with torque of its own scatter the correlation is 1/sqrt(2) or so, not 1."""
    found = flow_and_machine(False)
    random = found.sources[0]
    assert [s.name for s in found.sources] == [random.name, "cube mean of the speed"]
    bias = found.sources[1].effect
    part = found.covariance - np.outer(bias, bias)
    assert np.diag(part) == pytest.approx(random.effect**2)
    assert 0.4 < part[0, 3] / (random.effect[0] * random.effect[3]) < 0.95


def test_memory_widens_the_interval():
    rng = np.random.default_rng(8)
    raw = values(60, scatter=0.01)
    white = raw["torque"].copy()
    slow = np.repeat(rng.standard_normal(40), 150)
    raw["torque"] = 8.0 * (1.0 + 0.01 * slow)
    (kept,) = reduce(cut(raw, [0, 60]), channels(), RIG).readings
    (plain,) = reduce(cut({**raw, "torque": white}, [0, 60]), channels(), RIG).readings
    assert kept.mean_covariance[1, 1] > 20.0 * plain.mean_covariance[1, 1]
    assert kept.effective_count[1] < 60.0


def test_a_tick_may_cancel_and_sees_the_share_done():
    seen = []

    def stop(share):
        seen.append(share)
        if share > 0.5:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        reduce(cut(values(100), list(range(0, 101, 10))), channels(), RIG, duration=100.0, tick=stop)
    assert seen == pytest.approx([0.1, 0.2, 0.3, 0.4, 0.5, 0.6])


@pytest.mark.parametrize(
    ("keywords", "change", "words"),
    [
        ({}, lambda c: c[1:], "no channel has the role 'speed'"),
        ({}, lambda c: [k for k in c if k.role != "thrust"], "role 'thrust'"),
        ({}, lambda c: [*c, c[1]], "2 channels have the role 'torque'"),
        ({}, lambda c: [*c, c[0]], "share a name"),
        ({"weights": [1.0, 2.0]}, lambda c: c, "weights want 1"),
        ({"weights": [-1.0]}, lambda c: c, "weights want 1"),
    ],
)
def test_channels_that_do_not_fit_are_refused(keywords, change, words):
    with pytest.raises(InputError, match=words):
        reduce([], change(channels()), RIG, **keywords)


@pytest.mark.parametrize(
    "keywords",
    [
        {"rate": 0.0},
        {"low": 2.0, "high": 1.0},
        {"high": np.inf},
        {"stuck_count": 1},
        {"noise": -1.0},
        {"zero_wander": np.nan},
    ],
)
def test_channels_that_cannot_be_are_refused(keywords):
    with pytest.raises(InputError, match="torque"):
        channels(torque=keywords)


def test_wild_readings_are_flagged_and_nothing_overflows():
    raw = values(60)
    raw["torque"][500:520] = 1e300
    found = reduce(cut(raw, [0, 60]), channels(), RIG)
    assert next(f for f in found.flags if f.channel == "torque").out_of_range == 20
    assert found.readings[0].torque == pytest.approx(8.0, rel=1e-3)


@pytest.mark.parametrize(
    "keywords",
    [{"window": 5.0}, {"window": 60.2}, {"follow": (0.8, 0.2)}, {"hop": 2.0}, {"cell": -1.0}, {"halves": np.inf}],
)
def test_settings_that_cannot_be_are_refused(keywords):
    with pytest.raises(InputError):
        Settings(**keywords)


def test_an_empty_record_gives_an_empty_reduction():
    found = reduce([], channels(), RIG)
    assert (found.readings, found.refusals, found.duration) == ((), (), 0.0)
    assert found.series.time.size == 0
    assert MEANS.keys() == {f.channel for f in found.flags}
