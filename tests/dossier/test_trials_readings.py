"""What the dossier says of readings, their intervals and how the channel was taken out."""

from __future__ import annotations

import dataclasses

import pytest

from racewright.dossier.chapters.trials_table import MOST_ROWS, kept_rows
from racewright.dossier.chapters.trials_words import with_half, without_figures
from racewright.dossier.document import Table
from racewright.dossier.trials_view import every_reading
from tests.dossier.trials_chapter import NEAREST, TRIALS, blocks, said, table, with_reading


def test_sensors_stand_with_unit_rate_part_and_source() -> None:
    row = next(r for r in table("channel") if r["channel"] == "torque")
    assert list(row.values()) == ["torque", "torque", "mV", "100 Hz", "SH-6", "invented"]
    assert next(r for r in table("channel") if r["channel"] == "temperature")["part"] == "not told"


def test_readings_carry_their_95_percent_interval() -> None:
    rows = table("reading")
    one = TRIALS.campaign.runs[0].reduction.readings[1]
    row = next(r for r in rows if r["reading"] == "loads 2")
    half = one.power_coefficient.high - one.power_coefficient.value
    assert row["CP"] == f"{one.power_coefficient.value:.4f} ± {half:.4f}"
    numbers = next(r for r in table("in the channel") if r["in the channel"] == "loads 2")
    assert numbers["Froude"] == f"{one.numbers.froude_number:.3f}"
    assert row["CP as defined"] == f"{one.power_coefficient.as_defined:.3f}"
    own = next(c for c in TRIALS.corrected if (c.run, c.number) == ("loads", 2))
    assert row["CP in the open"].startswith(f"{own.power_coefficient:.3f} \u00b1 ")
    assert row["CP frontal"] == f"{own.power_coefficient * TRIALS.frontal_share:.3f}"
    assert row["speed, m/s"] == f"{one.stream_speed:.3f}"


def test_a_stated_confidence_is_that_of_every_interval() -> None:
    found = dataclasses.replace(TRIALS, confidence=0.68)
    one = TRIALS.campaign.runs[0].reduction.readings[1].power_coefficient
    row = next(r for r in table("reading", found) if r["reading"] == "loads 2")
    half = float(row["CP"].split("\u00b1")[1])
    assert half == pytest.approx(one.standard_uncertainty, rel=0.1)
    words = said(found)
    assert "68 %" in words
    assert "Intervals are those at 68 %" in words


def test_under_a_lid_there_is_no_froude_number_and_no_cavitation() -> None:
    lid = dataclasses.replace(TRIALS, surface="lid")
    (row, *_rest) = table("in the channel", lid)
    assert list(row) == ["in the channel", "begin, s", "turbulence, %", "Reynolds, thousands"]
    assert "Under a lid there is no Froude number" in said(lid)


def test_the_record_has_no_ratio_of_speeds() -> None:
    row = next(r for r in table("method") if r["method"].startswith("record"))
    assert row["speed ratio"] == "\u2013"


def test_a_long_campaign_is_thinned_and_the_rest_is_told() -> None:
    shown = every_reading(TRIALS)
    assert [s.run for s in kept_rows(shown, {"weed"})] == ["loads"] * 3 + ["narrow"] + ["weed"] * 3
    assert [s.number for s in kept_rows(shown, {"weed"})[-3:]] == [1, 29, 57]
    many = kept_rows(shown, set())
    assert len(many) == MOST_ROWS
    assert (many[0], many[-1]) == (shown[0], shown[-1])
    assert "Not in the table, 54 readings: 54 of run weed (CP " in said()
    assert "results.json holds every one" in said()


def test_every_method_stands_beside_the_reading_and_one_is_taken() -> None:
    rows = table("method")
    assert rows[0]["method"] == "in the channel, as measured"
    taken = [r for r in rows if r["method"].endswith("(taken)")]
    assert len(taken) == 1
    assert taken[0]["method"].startswith("record")
    told = TRIALS.corrected[1].blockage
    assert len(rows) == len(told.estimates) + 2
    refused = next(r for r in rows if r["state"] == "refused")
    assert refused["CP"] == "–"
    assert refused["why not valid"]
    assert "because the same model at several blockages is measured; every theory is not." in said()


def test_whole_thrust_is_scaled_with_the_speed_and_not_the_rotors_load() -> None:
    rows = {r["method"].removesuffix(" (taken)"): r for r in table("method")}
    told = TRIALS.corrected[3].blockage
    one = next(e for e in told.estimates if e.stream_ratio)
    thrust = NEAREST.thrust_coefficient.value
    assert one.stream_ratio is not None
    assert rows[one.title]["CT"] == f"{thrust / one.stream_ratio**2:.3f}"
    assert rows[one.title]["CT"] != f"{one.thrust_coefficient:.3f}"


def test_the_record_says_its_blockages() -> None:
    assert (
        "The record holds 2 blockages at the same tip-speed ratio, rotor annulus over channel 2.49 % to 4.15 %."
        in said()
    )


def test_confidence_is_told_in_words_with_degrees_of_freedom() -> None:
    words = said()
    freedom = NEAREST.power_coefficient.degrees_of_freedom
    assert f"at 95 % confidence, with {freedom:.0f} effective degrees of freedom" in words
    many = dataclasses.replace(NEAREST.power_coefficient, degrees_of_freedom=float("inf"))
    changed = with_reading(dataclasses.replace(NEAREST, power_coefficient=many))
    assert "with over 1000 effective degrees of freedom" in said(changed)


def test_refused_flagged_and_tared_are_counted() -> None:
    whole = {r["reason"]: r for r in table("reason")}
    refusals = [x for r in TRIALS.campaign.runs for x in r.reduction.refusals]
    tares = [x for x in refusals if x.reasons == ("tare",)]
    assert whole["tare"]["stretches"] == str(len(tares))
    assert whole["rotor speed: scatters"]["stretches"] == "3"
    flagged = [r for r in blocks(TRIALS) if isinstance(r, Table) and r.columns[2].name == "flagged"]
    assert [r[-1] for r in flagged[0].rows if r[0] == "torque"] == ["3"]
    drift = next(r for r in table("run and channel") if r["run and channel"] == "loads, torque")
    assert drift["tares"] == "2"
    assert drift["in"] == "5 min"


@pytest.mark.parametrize(
    ("given", "wanted"),
    [
        ("speed: drifts +49.5 %", "speed: drifts"),
        ("rotor speed: scatters 9.5 %", "rotor speed: scatters"),
        ("torque: scatter of the halves differs 12.2-fold", "torque: scatter of the halves differs"),
        ("torque: scatter of the halves differs 1e+300-fold", "torque: scatter of the halves differs"),
        ("flow_a2: 7.0 % of readings flagged", "flow_a2: readings flagged"),
        ("shorter than a window", "shorter than a window"),
    ],
)
def test_reasons_meet_without_their_figures(given: str, wanted: str) -> None:
    assert without_figures(given) == wanted


def test_half_widths_get_the_digits_they_deserve() -> None:
    assert with_half(0.49802, 0.0108) == "0.498 ± 0.011"
    assert with_half(0.49802, 0.00064) == "0.4980 ± 0.0006"
    assert with_half(0.5, 0.0) == "0.500"
    assert with_half(float("nan"), 0.1) == "not known"
