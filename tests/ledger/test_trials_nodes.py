"""The trials' nodes on the half-kilowatt example, whose truth is known since it is invented."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import decode, encode
from racewright.ledger.graph import NODES, evaluate, plan
from racewright.ledger.inputs import case_of
from racewright.ledger.nodes_trials import TRIALS_NODES, fouled_readings
from racewright.ledger.trials_corrected import in_open_stream
from racewright.ledger.trials_parts import trials_remarks
from racewright.records.campaign import invented
from racewright.scheme import load_scheme
from racewright.tick import silent
from racewright.trials import blockage
from racewright.trials.machine_response import response_of_flow
from tests.ledger.model_example import copied, model_scheme, model_values


def test_readings_hold_the_invented_truth() -> None:
    """CP of the invented machine in its channel, 22 readings of two runs; at least 20 within two standard errors.

    The truth is the plan's curve at the reading's own tip-speed ratio; errors that all readings share (speed
    probes, radius) are in the standard uncertainty.
    """
    inside, seen = 0, 0
    for run, width in (("loads", 3.0), ("narrow", 1.6)):
        model = invented._model(width)
        reduced = next(r for r in model_values()["campaign"].runs if r.run == run)
        for one in reduced.reduction.readings:
            truth = float(model.power_built(np.array([one.tip_speed_ratio.value]))[0])
            truth *= model.annulus_area / reduced.rig.annulus_area  # the invented curves stand on the tips' annulus
            inside += abs(one.power_coefficient.value - truth) < 2.5 * one.power_coefficient.standard_uncertainty
            seen += 1
    assert seen == 22
    assert inside >= 20


def test_walls_lower_what_was_measured_and_the_record_agrees_with_the_open_stream() -> None:
    """Invented CP grows by 1.45 B; taken back to B = 0 it must be the open stream's within two uncertainties."""
    open_stream = dataclasses.replace(invented._model(3.0), power=invented._curve(invented._POWER, 1.0))
    campaign = {r.run: r.reduction.readings for r in model_values()["campaign"].runs}
    for one in model_values()["corrected"]:
        measured = campaign[one.run][one.number - 1].power_coefficient.value
        assert one.power_coefficient is not None
        assert one.power_coefficient < measured
        if one.run == "weed":
            continue
        truth = float(open_stream.power_built(np.array([one.tip_speed_ratio]))[0])
        truth *= open_stream.annulus_area / model_values()["campaign"].runs[0].rig.annulus_area
        assert abs(one.power_coefficient - truth) < 3.0 * one.power_uncertainty
    for run, method in (("narrow", "record"), ("loads", "wall"), ("weed", "wall")):
        assert {one.blockage.preferred for one in model_values()["corrected"] if one.run == run} == {method}


def test_fouling_of_five_percent_is_found_and_its_stretch_is_not_compared() -> None:
    """Weed takes 5 % by minute 40; the true share lost at the end lies in the interval, cleaning gives back 4.5 %."""
    (found,) = model_values()["foulings"]
    assert found.found is not None
    assert found.found.found
    assert found.found.loss_low < 0.05 < found.found.loss_high
    assert found.found.recovered_low < 0.045 < found.found.recovered_high
    weed = next(r for r in model_values()["campaign"].runs if r.run == "weed").reduction.readings
    fouled = {
        k for run, k in fouled_readings(model_values()["foulings"], model_values()["campaign"]) if run == "weed"
    }
    assert all(
        (one.end > found.found.onset and one.start < found.cleaned) == (k in fouled)
        for k, one in enumerate(weed, start=1)
    )
    compared = [row.number for row in model_values()["prediction_check"].rows if row.run == "weed"]
    assert sorted({*range(1, len(weed) + 1)} - fouled) == compared
    assert 5 < len(compared) < len(weed) - 20
    told = [r.text for r in model_values()["prediction_check"].remarks if "not compared" in r.text]
    assert told == [f"{len(fouled)} of 71 readings are not compared: {len(fouled)} of the fouled machine."]


def test_tests_and_prediction_stand_on_one_area() -> None:
    rig = model_values()["campaign"].runs[0].rig
    assert rig.annulus_area == pytest.approx(model_values()["flow"].annulus_area, rel=1e-9)
    assert rig.annulus_area > math.pi * (rig.tip_radius**2 - rig.hub_radius**2)


def test_prediction_is_taken_at_the_tests_own_rotor_speed_and_stream() -> None:
    campaign = {r.run: r.reduction.readings for r in model_values()["campaign"].runs}
    corrected = {(c.run, c.number): c for c in model_values()["corrected"]}
    for row in model_values()["prediction_check"].rows:
        reading, one = campaign[row.run][row.number - 1], corrected[row.run, row.number]
        assert row.rotor_speed == reading.rotor_speed
        assert row.stream_speed == pytest.approx(reading.stream_speed * (one.stream_ratio or 1.0))
        assert row.predicted_power is not None
        assert row.power_residual == pytest.approx(row.measured_power / row.predicted_power - 1.0)
        assert row.inside
    regions = model_values()["prediction_check"].regions
    assert sum(r.readings for r in regions) == len(model_values()["prediction_check"].rows)
    assert [(r.region, r.loads, r.inside) for r in regions] == [("below", 4, 4), ("near", 4, 4), ("above", 4, 4)]


def test_every_value_survives_the_cache() -> None:
    for node in TRIALS_NODES:
        value = model_values()[node.name]
        again = decode(encode(value, "k"), "k", CLASSES)
        assert repr(again) == repr(value)


def test_nodes_read_nothing_that_they_do_not_declare() -> None:
    loaded = model_scheme()
    name, case = case_of(loaded, None)
    given = plan(loaded, name, case).given
    values = model_values()
    for node in TRIALS_NODES:
        if node.name in ("campaign", "corrected"):
            continue
        only = dataclasses.replace(given[node.name], nodes={up: values[up] for up in node.nodes})
        assert repr(node.compute(only, silent)) == repr(values[node.name])


def test_missing_uncertainty_names_its_channel(tmp_path: Path) -> None:
    path = copied(tmp_path)
    text = path.read_text("utf-8")
    text = text.replace("reference = 0.002\n", "", 1).replace('file = "loads.csv"', 'file = "narrow.csv"')
    path.write_text(text.replace('"1270 s"', '"520 s"').replace('"1320 s"', '"570 s"'), "utf-8")
    loaded = load_scheme(path)
    name, case = case_of(loaded, None)
    given = plan(loaded, name, case, ("doses",)).given
    assert set(given) == {"doses"}
    values = {**model_values(), "campaign": dataclasses.replace(model_values()["campaign"], remarks=())}
    assert not any("reference" in r.text for r in trials_remarks(values))
    campaign = NODES["campaign"]
    keys = plan(loaded, name, case, ("campaign",)).given["campaign"]
    told = campaign.compute(
        dataclasses.replace(keys, nodes={k: model_values()[k] for k in ("rows", "flow")}), silent
    ).remarks
    assert [r.text for r in told] == [
        "The uncertainty of the reference standard is not given for shaft_torque, so intervals that rest on it are"
        " too narrow."
    ]


def test_a_run_that_never_settles_is_a_warning(tmp_path: Path) -> None:
    campaign = model_values()["campaign"]
    empty = dataclasses.replace(campaign.runs[0].reduction, readings=())
    values = {
        **model_values(),
        "campaign": dataclasses.replace(
            campaign, runs=(dataclasses.replace(campaign.runs[0], reduction=empty), *campaign.runs[1:])
        ),
    }
    told = [r for r in trials_remarks(values) if r.about == "trials"]
    assert told[0].severity == "warning"
    assert "gave no steady reading" in told[0].text


def test_a_piece_of_an_unknown_dose_names_the_file(tmp_path: Path) -> None:
    path = copied(tmp_path)
    pieces = path.with_name("pieces.csv")
    pieces.write_text(pieces.read_text("utf-8").replace("sticks,passed", "stones,passed", 1), "utf-8")
    loaded = load_scheme(path)
    name, case = case_of(loaded, None)
    with pytest.raises(InputError, match=r"pieces\.csv.*stones"):
        evaluate(loaded, name, case, wanted=("doses",))


def test_uncertainty_of_a_corrected_value_holds_the_spread_of_the_methods() -> None:
    campaign = {r.run: r.reduction.readings for r in model_values()["campaign"].runs}
    wall = next(c for c in model_values()["corrected"] if c.blockage.preferred == "wall")
    own = campaign[wall.run][wall.number - 1].power_coefficient.standard_uncertainty
    least, most = wall.blockage.spread.stream_ratio
    spread = 3.0 * wall.power_coefficient * (most - least) / (2.0 * math.sqrt(3.0))
    scaled = own * wall.power_coefficient / campaign[wall.run][wall.number - 1].power_coefficient.value
    bare = in_open_stream(wall.run, wall.number, campaign[wall.run][wall.number - 1], wall.blockage)
    assert bare.power_uncertainty == pytest.approx(math.hypot(scaled, spread))
    assert bare.power_uncertainty < wall.power_uncertainty < 1.1 * bare.power_uncertainty, "the predicted load's band"


def test_one_record_stands_for_all_windows_of_a_load_and_knows_of_no_stream_ratio() -> None:
    narrow = [c for c in model_values()["corrected"] if c.run == "narrow"]
    assert [c.stream_ratio for c in narrow] == [None] * 6
    for first, second in zip(narrow[::2], narrow[1::2], strict=True):
        assert first.power_coefficient == second.power_coefficient
    assert all(len(c.blockage.record.blockages) == 2 for c in narrow)
    alone = max(c.power_uncertainty for c in model_values()["corrected"] if c.run == "loads")
    assert all(c.power_uncertainty < 1.3 * alone for c in narrow), "shared calibrations are not magnified"


def test_where_the_record_stands_beside_the_method_it_is_told() -> None:
    told = [r.text for r in trials_remarks(model_values()) if "stands beside 'wall'" in r.text]
    assert len(told) == 1
    assert "% off on average" in told[0]


def test_what_single_readings_remark_is_told_of_the_run_once() -> None:
    told = [r.text for r in trials_remarks(model_values()) if r.about == "Reynolds number"]
    assert len(told) == 1
    assert told[0].startswith("Run loads, 2 of 16 readings: Chord Reynolds 1.93e+05 is below")


def test_a_driven_rotor_keeps_the_sign_of_its_power() -> None:
    reading = model_values()["campaign"].runs[0].reduction.readings[0]
    driven = dataclasses.replace(
        reading, power_coefficient=dataclasses.replace(reading.power_coefficient, value=-0.05)
    )
    told = next(c for c in model_values()["corrected"] if c.blockage.preferred == "wall").blockage
    one = dataclasses.replace(told.reading, power_coefficient=0.05)
    again = blockage(one, free=response_of_flow(model_values()["flow"]))
    found = in_open_stream("loads", 1, driven, again)
    assert -0.05 < found.power_coefficient < -0.045
    assert found.power_uncertainty > 0.9 * driven.power_coefficient.standard_uncertainty
