"""Harmonic analysis: gaps, uneven stamps, errors, what a record is too short for, bad input."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import predict, tide, tide_record
from racewright.place.tide_constants import apart, separable
from tests.place.tides import START, stamps, strait, wave

LATITUDE = math.radians(55.0)
TWO = {"M2": (2.0, 40.0), "S2": (0.6, 75.0)}


def amplitudes(found, *names):
    return [found.named(name).amplitude for name in names]


def test_gaps_and_uneven_stamps_do_not_move_the_answer():
    time = stamps(60.0)
    rng = np.random.default_rng(1)
    keep = rng.random(time.size) > 0.3
    keep[3000:3800] = False
    shaken = time[keep] + rng.integers(0, 200, int(keep.sum()))
    for some in (time, time[keep], shaken[::4]):
        found = tide(tide_record(some, along=wave(some, TWO)), LATITUDE, nodal=False, infer=False)
        assert amplitudes(found, "M2", "S2") == pytest.approx([2.0, 0.6], abs=1e-5)
        assert found.explained == pytest.approx(1.0, abs=1e-6)
    assert tide(tide_record(time[keep], along=wave(time[keep], TWO)), LATITUDE).longest_gap >= 800 * 600.0


def test_prediction_gives_the_record_back_and_even_and_uneven_stamps_agree():
    record = strait(60.0)
    found = tide(record, LATITUDE, nodal=False, infer=False)
    assert predict(found, record.time) == pytest.approx(record.value, abs=1e-4)
    later = START + 400 * 86400 + 600 * np.arange(3000)
    jagged = np.delete(later, [1000])
    real = tide(record, LATITUDE)
    assert np.delete(predict(real, later), [1000], axis=0) == pytest.approx(predict(real, jagged), abs=1e-12)


def test_prediction_equals_the_librarys_own_seventeen_years_on():
    import utide

    record = strait(60.0, noise=0.1)
    found = tide(record, LATITUDE, infer=False)
    theirs = utide.solve(
        record.time.astype("datetime64[s]"),
        *record.value.T,
        lat=55.0,
        constit=[row.name for row in found.constituents],
        trend=False,
        verbose=False,
    )
    time = START + 3600 * 37 * np.arange(4000)
    wanted = utide.reconstruct(time.astype("datetime64[s]"), theirs, verbose=False)
    got = predict(found, time)
    assert got[:, 0] == pytest.approx(wanted.u, abs=1e-5)
    assert got[:, 1] == pytest.approx(wanted.v, abs=1e-5)


def test_errors_hold_the_truth_about_as_often_as_they_say():
    """95 % intervals of 5 constituents in 12 records: 57 of 60 expected, fewer than 50 would be no interval."""
    truth = {"M2": 2.0, "S2": 0.6, "N2": 0.4, "K1": 0.2, "O1": 0.1}
    held = 0
    for seed in range(12):
        found = tide(strait(35.0, noise=0.3, seed=seed), LATITUDE, nodal=False, infer=False)
        held += sum(
            abs(found.named(name).amplitude - size) <= found.named(name).amplitude_error
            for name, size in truth.items()
        )
    assert 50 <= held <= 60


def test_residual_current_and_trend():
    time = stamps(40.0)
    drift = 1e-8 * (time - 0.5 * (time[0] + time[-1]))
    found = tide(
        tide_record(time, along=wave(time, TWO) + 0.15 + drift), LATITUDE, nodal=False, infer=False, trend=True
    )
    assert found.mean == pytest.approx((0.15,), abs=1e-4)
    assert found.trend == pytest.approx((1e-8,), rel=1e-3)


@pytest.mark.parametrize(
    ("days", "missing"),
    [
        (10.0, {"S2", "N2", "O1", "K2", "P1", "Q1"}),
        (20.0, {"N2", "K2", "P1", "Q1"}),
        (60.0, {"K2", "P1"}),
        (190.0, set()),
    ],
)
def test_a_record_too_short_for_a_constituent_says_so(days, missing):
    time = stamps(days, 1800)
    found = tide(tide_record(time, along=wave(time, TWO)), LATITUDE)
    assert {row.name for row in found.unseparated} == missing
    told = " ".join(remark.text for remark in found.remarks)
    for row in found.unseparated:
        assert f"{row.name} cannot be told from {row.neighbour}" in told
        assert found.last - found.first < row.wanted == apart(row.name, row.neighbour)
        assert (found.named(row.name) is not None) == row.inferred


def test_k2_follows_s2_only_when_asked():
    record = strait(60.0)
    with_it, without = tide(record, LATITUDE), tide(record, LATITUDE, infer=False)
    assert with_it.named("K2").origin == "inferred"
    assert with_it.named("K2").amplitude == pytest.approx(0.272 * with_it.named("S2").amplitude, rel=1e-9)
    assert without.named("K2") is None


def test_inferring_predicts_another_season_better():
    """S2 and K2 in the equilibrium ratio: sixty days in winter tell nothing of spring unless K2 is inferred."""
    base = tide(strait(60.0), LATITUDE)
    k2 = dataclasses.replace(base.named("K2"), name="K2")
    later = stamps(30.0) + 91 * 86400
    truth = predict(base, later)
    assert k2.kept
    record = tide_record(stamps(60.0), **dict(zip(("east", "north"), predict(base, stamps(60.0)).T, strict=True)))
    errors = [np.abs(predict(tide(record, LATITUDE, infer=infer), later) - truth).max() for infer in (True, False)]
    assert errors[0] < 0.1 * errors[1]


def test_speeds_leave_weather_out_levels_keep_the_slow_constituents():
    half_year = 190 * 86400.0
    assert "MM" in separable(half_year, "level")
    assert "MM" not in separable(half_year, "along")


def test_a_storm_matters_less_to_the_robust_method():
    time = stamps(35.0)
    along = wave(time, TWO)
    along[2000:2600] += 1.5
    record = tide_record(time, along=along)
    plain, robust = (tide(record, LATITUDE, nodal=False, infer=False, method=m) for m in ("least squares", "robust"))
    assert abs(robust.mean[0]) < 0.2 * abs(plain.mean[0])


@pytest.mark.parametrize(
    ("columns", "words"),
    [
        ({}, "nothing"),
        ({"east": 1.0}, "both east and north"),
        ({"level": 1.0, "along": 1.0}, "level and along"),
        ({"along": np.nan}, "finite"),
        ({"along": 400.0}, "is the unit right"),
        ({"along": 0.0}, "never changes"),
    ],
)
def test_bad_columns_are_refused(columns, words):
    time = stamps(10.0)
    given = {name: scale * np.cos(np.arange(time.size) / 12.0) for name, scale in columns.items()}
    with pytest.raises(InputError, match=words):
        tide_record(time, **given)


@pytest.mark.parametrize(
    ("time", "words"),
    [
        (stamps(2.0), "at least 3 d"),
        (stamps(40.0, 6 * 3600), "every 3 h"),
        (stamps(10.0)[::-1], "must grow"),
        (np.zeros(200), "must grow"),
        (START + np.arange(130_000) * 60, "at most 120000"),
    ],
)
def test_bad_stamps_are_refused(time, words):
    with pytest.raises(InputError, match=words):
        tide_record(time, along=np.cos(np.arange(time.size)))


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"latitude": 2.0}, "latitude"),
        ({"latitude": math.nan}, "latitude"),
        ({"constituents": ("M2", "XX")}, "no known constituent"),
        ({"constituents": ("M2", "M2")}, "named twice"),
        ({"constituents": ("S2", "K2")}, "come apart in 182.6 d"),
        ({"method": "guess"}, "least squares"),
    ],
)
def test_bad_options_are_refused(options, words):
    with pytest.raises(InputError, match=words):
        tide(strait(40.0), **({"latitude": LATITUDE} | options))


def test_the_equator_is_no_trap():
    found = tide(strait(35.0, noise=0.05), 0.0)
    assert all(math.isfinite(row.amplitude) for row in found.constituents)


@pytest.mark.parametrize("half_week", [1.0, 2.0, 5.0, 8.0])
def test_a_record_that_is_mostly_gap_claims_less_instead_of_guessing(half_week):
    """Data at both ends of sixty days only: with every constituent fitted, predictions missed by 5 m/s and more."""
    time = stamps(60.0)
    day = (time - time[0]) / 86400.0
    time = time[(day < half_week) | (day > 60.0 - half_week)]
    rng = np.random.default_rng(4)
    record = tide_record(time, along=wave(time, TWO) + 0.1 * rng.standard_normal(time.size))
    found = tide(record, LATITUDE, nodal=False, infer=False)
    later = stamps(30.0) + 15 * 86400
    assert found.told_apart < found.last - found.first
    assert float(np.std(predict(found, later)[:, 0] - wave(later, TWO))) < 0.7
    assert any("with such gaps" in remark.text for remark in found.remarks)
    with pytest.raises(InputError, match="name fewer"):
        tide(record, LATITUDE, constituents=separable(record.span, "along"))
