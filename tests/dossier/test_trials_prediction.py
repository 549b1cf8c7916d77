"""What the dossier says of readings against the prediction, and of ripple on the shaft."""

from __future__ import annotations

import dataclasses

import pytest

from racewright.ledger.trials_check import band_words
from racewright.ledger.trials_findings import PredictionCheck
from tests.dossier.trials_chapter import NEAREST, TRIALS, alone, said, table, with_reading


def test_residuals_count_inside_and_outside_by_region() -> None:
    rows = table("tip-speed ratio")
    assert [(r["readings"], r["intervals reach"], r["do not"], r["CP off"]) for r in rows] == [
        ("1", "1", "0", "-6.0 %"), ("2", "2", "0", "-2.5 %"), ("1", "0", "1", "-31.0 %"),
    ]  # fmt: skip
    assert "In 1 of 4 not even the interval reaches the band: quote neither test nor prediction alone" in said()
    rows = [dataclasses.replace(r, inside=True) for r in TRIALS.check.rows]
    calm = dataclasses.replace(TRIALS, check=dataclasses.replace(TRIALS.check, rows=tuple(rows)))
    assert "quote neither" not in said(calm)
    assert "The interval reaches the predicted band in 4 of 4 compared readings" in said(calm)


def test_values_within_the_band_are_told_apart_from_intervals_that_reach_it() -> None:
    """Every value is put beside the band, every interval reaches it: one sentence has both counts."""
    rows = [dataclasses.replace(r, measured_power=(r.predicted_high or 0.0) + 0.001, inside=True)
            for r in TRIALS.check.rows]  # fmt: skip
    rows[1] = dataclasses.replace(rows[1], measured_power=rows[1].predicted_low or 0.0)
    assert band_words(rows) == (
        "the interval reaches the predicted band in 4 of 4 compared readings, the value itself lies within it in 1"
    )
    beside = dataclasses.replace(TRIALS, check=dataclasses.replace(TRIALS.check, rows=tuple(rows)))
    assert band_words(rows)[1:] in said(beside)
    lost = dataclasses.replace(rows[0], predicted_power=None, predicted_low=None, predicted_high=None, inside=None)
    assert lost.value_within is None
    assert band_words([lost]) == ""


@pytest.mark.usefixtures("drawn_once")
def test_a_reading_without_prediction_says_why() -> None:
    lost = dataclasses.replace(
        TRIALS.check.rows[0], predicted_power=None, predicted_low=None, predicted_high=None, power_residual=None,
        inside=None, reason="no operating point there",
    )  # fmt: skip
    check = PredictionCheck((lost, *TRIALS.check.rows[1:]), TRIALS.check.regions, ())
    assert "1 reading without a prediction: no operating point there." in said(
        dataclasses.replace(TRIALS, check=check)
    )
    assert alone(dataclasses.replace(TRIALS, check=check)).html


def test_ripple_names_its_peaks() -> None:
    row = table("order")[0]
    assert (row["order"], row["what passes"], row["over the mean"]) == ("5", "blade passing", "3.99 %")


def test_a_slow_logger_is_blamed_for_what_it_cannot_see() -> None:
    ripple = NEAREST.ripple
    slow = dataclasses.replace(ripple, order=ripple.order[:4], amplitude=ripple.amplitude[:4], peaks=())
    words = said(with_reading(dataclasses.replace(NEAREST, ripple=slow)))
    assert "The torque was logged too slowly to see blade passing (order 5) and vane passing (order 9)" in words
    assert "too slowly" not in said()
