"""What the comparison says, prefers and refuses."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.flow.response import response_at
from racewright.trials import blockage, blockage_record
from racewright.trials.blockage_methods import CORRECTIONS
from racewright.trials.blockage_result import ChannelReading
from racewright.trials.machine_response import MachineResponse, bare_response, response_of_flow, wall_radius
from racewright.trials.unbounded_record import RecordReading
from racewright.uncertainty import Input, propagate
from tests.trials.ducts import reference_duct

BARE = ChannelReading(0.42, 0.75, 4.5, 0.08)
DUCTED = replace(BARE, thrust_coefficient=0.6, blockage=0.05, ducted=True)
RECORD = (
    RecordReading(0.04, 0.400, 0.70, 4.5, 0.004, 0.005),
    RecordReading(0.08, 0.420, 0.75, 4.5, 0.004, 0.005),
)


def test_a_bare_disc_correction_on_a_ducted_rig_is_indicative() -> None:
    found = blockage(DUCTED)
    answered = [one for one in found.estimates if one.state != "refused"]
    assert answered
    assert all(one.state == "indicative" and "ducted rig" in one.reasons[0] for one in answered)
    assert found.spread is None
    assert found.preferred == "closed"
    assert "indicative" in found.why
    assert "two blockages" in found.remarks[0].text


def test_the_same_rig_with_its_own_response_is_valid() -> None:
    found = blockage(DUCTED, free=response_of_flow(reference_duct()))
    assert found["closed"].state == "valid"
    assert found["closed"].thrust_ratio == pytest.approx(1.556, abs=0.01)
    assert found.spread is not None
    assert found.preferred == "closed"


def test_an_empty_ducts_thrust_ratio_would_correct_where_there_is_no_blockage() -> None:
    """The mistake this guards against: the empty duct's kappa at load leaves more than 1.2 at no blockage."""
    own = response_of_flow(reference_duct())
    right = blockage(replace(DUCTED, blockage=1e-6), free=own)["closed"]
    assert right.stream_ratio == pytest.approx(1.0, abs=1e-5)
    wrong = own.speed(0.0) * bare_response(0.6)
    assert wrong / own.speed(0.6) > 1.2
    assert right.disc_speed == pytest.approx(own.speed(0.6), rel=1e-5)


def test_bypass_and_rotor_speed_are_apart_and_never_averaged() -> None:
    found = blockage(BARE)
    low, high = found["bypass_closed"].power_coefficient, found["closed"].power_coefficient
    assert low is not None
    assert high is not None
    assert low < high
    assert found.spread is not None
    assert found.spread.power_coefficient == (low, high)


def test_the_record_is_preferred_when_it_is_complete() -> None:
    found = blockage(BARE, record=RECORD)
    assert found.preferred == "record"
    assert found.record is not None
    assert found.record.power_coefficient < 0.4
    lame = blockage(BARE, record=(RECORD[0], replace(RECORD[1], power_uncertainty=None)))
    assert lame.preferred == "closed"
    assert lame.record is not None
    assert not lame.record.complete
    assert lame.record.power_uncertainty is None
    assert any("CP 1" in one.text for one in lame.remarks)


def test_a_record_must_be_one() -> None:
    with pytest.raises(InputError, match="two blockages"):
        blockage_record(RECORD[:1])
    with pytest.raises(InputError, match="tip-speed ratios"):
        blockage_record((RECORD[0], replace(RECORD[1], tip_speed_ratio=5.0)))
    with pytest.raises(InputError, match="span"):
        blockage_record((RECORD[0], replace(RECORD[0], power_coefficient=0.41)))


def test_three_blockages_test_the_line() -> None:
    straight = [RecordReading(b, 0.4 + 0.5 * b, 0.7, 4.0, 0.002, 0.0) for b in (0.03, 0.06, 0.1)]
    good = blockage_record(straight)
    assert good.power_coefficient == pytest.approx(0.4, rel=1e-12)
    assert good.misfit == pytest.approx(0.0, abs=1e-9)
    bent = [*straight[:2], replace(straight[2], power_coefficient=0.50)]
    assert (blockage_record(bent).misfit or 0.0) > 2.0
    assert any("not straight" in one.text for one in blockage_record(bent).remarks)


def test_refusals_carry_their_reason() -> None:
    found = blockage(replace(BARE, thrust_coefficient=1.4, blockage=0.02))
    assert found.preferred is None
    assert "stands still" in found["closed"].reasons[0]
    beyond = blockage(replace(BARE, thrust_coefficient=1.32, blockage=0.1))
    assert "momentum theory ends" in beyond["closed"].reasons[0]
    assert "Froude" in beyond["open"].reasons[0]
    assert "1 or more" in beyond["first_order"].reasons[0]
    choked = blockage(replace(BARE, thrust_coefficient=6.5, blockage=0.4, froude=0.3))
    assert "no root" in choked["open"].reasons[0]
    assert choked.preferred is None
    assert all(one.reasons for one in found.estimates if one.state == "refused")


def test_walls_must_be_those_of_the_channel() -> None:
    free, walled = response_of_flow(reference_duct()), response_of_flow(reference_duct(0.05))
    assert walled.blockage == pytest.approx(0.05)
    found = blockage(replace(DUCTED, blockage=0.06), free=free, walled=walled)
    assert "solved for a blockage of 0.05" in found["wall"].reasons[0]
    heavy = blockage(replace(DUCTED, thrust_coefficient=1.0), free=free, walled=walled)
    assert "to which the flow was solved" in heavy["wall"].reasons[0]


@pytest.mark.parametrize("method", ["closed", "wall"])
def test_whole_thrust_finds_the_rotors_load(method: str) -> None:
    """A reading of whole thrust gives what one of rotor thrust gives, when they are of one flow."""
    free, walled = response_of_flow(reference_duct()), response_of_flow(reference_duct(0.05))
    for load in (0.2, 0.4, 0.6):
        by_rotor = blockage(replace(DUCTED, thrust_coefficient=load), free=free, walled=walled)[method]
        kappa = by_rotor.thrust_ratio or 0.0
        if method == "wall":
            from racewright.flow.far_wake import channel_thrust, far_wake

            through = walled.speed(load)
            far = far_wake(load, 0.5 * through, 0.05**-0.5)
            kappa = channel_thrust(far, math.pi * through, math.pi / 0.05) / math.pi / load
        whole = replace(DUCTED, thrust_coefficient=kappa * load, thrust="total")
        by_total = blockage(whole, free=free, walled=walled)[method]
        assert by_total.stream_ratio == pytest.approx(by_rotor.stream_ratio, rel=1e-8)
        assert by_total.load == pytest.approx(by_rotor.load, rel=1e-8)
        assert by_total.thrust_coefficient == pytest.approx(kappa * (by_rotor.thrust_coefficient or 0.0), rel=1e-8)


def test_whole_thrust_above_what_the_duct_can_have_is_refused() -> None:
    whole = replace(DUCTED, thrust_coefficient=1.6, thrust="total")
    found = blockage(whole, free=response_of_flow(reference_duct()))
    assert "gives a whole thrust" in found["closed"].reasons[0]


def test_more_blockage_corrects_more() -> None:
    """Random bare and ducted readings: U_F/U_T rises with blockage and stays above 1, CP falls as its cube."""
    random, own = np.random.default_rng(4), response_of_flow(reference_duct())
    for _ in range(30):
        load, froude = random.uniform(0.05, 0.85), random.uniform(0.05, 0.25)
        ducted = bool(random.random() < 0.5)
        for method in ("closed", "open", "bypass_closed", "bypass_open"):
            before = 1.0
            for b in (0.01, 0.04, 0.08):
                one = ChannelReading(0.4, load, 4.0, b, froude, ducted)
                found = CORRECTIONS[method](one, own if ducted else None, None)
                assert found.stream_ratio is not None
                assert found.stream_ratio > before
                assert found.power_coefficient == pytest.approx(0.4 / found.stream_ratio**3)
                before = found.stream_ratio


def test_a_surface_that_falls_takes_the_rigid_lid_its_validity() -> None:
    found = blockage(replace(BARE, froude=0.45))
    assert found["closed"].state == "indicative"
    assert "rigid lid" in found["closed"].reasons[0]
    assert found["open"].state == "valid"
    assert found.preferred == "open"


def test_bad_readings_are_refused() -> None:
    for load, b, froude in ((0.7, 0.0, None), (0.7, 1.0, None), (0.7, 0.1, 1.2), (math.nan, 0.1, None)):
        with pytest.raises(InputError):
            ChannelReading(0.4, load, 4.0, b, froude)
    with pytest.raises(InputError):
        MachineResponse(bare_response, 0.0)
    with pytest.raises(InputError):
        wall_radius(1.0, 0.0)
    with pytest.raises(KeyError):
        blockage(BARE)["none such"]


def test_an_unloaded_reading_needs_no_correction() -> None:
    found = blockage(replace(BARE, thrust_coefficient=0.0, froude=0.2))
    for method in ("closed", "open", "bypass_closed", "bypass_open", "first_order"):
        assert found[method].stream_ratio == pytest.approx(1.0, abs=1e-12)


def test_a_response_is_the_solvers_own() -> None:
    flow = reference_duct()
    own = response_of_flow(flow)
    for load in (0.0, 0.33, 0.77, own.reach):
        assert own.speed(load) == pytest.approx(response_at(flow, load).speed_ratio, rel=1e-13)


def test_the_equivalent_load_rises_with_the_load_until_it_is_refused() -> None:
    before, refused = 0.0, False
    for load in np.linspace(0.05, 1.6, 80):
        one = blockage(replace(BARE, thrust_coefficient=float(load), blockage=0.1))["closed"]
        if one.load is None:
            refused = True
            continue
        assert not refused
        assert before < one.load < 1.0
        before = one.load
    assert before > 0.99


def test_any_reading_is_answered_or_refused_in_words() -> None:
    """400 random readings, bare and ducted, far beyond what theory bears: no NaN, no exception, reasons given."""
    random = np.random.default_rng(9)
    free, walled = response_of_flow(reference_duct()), response_of_flow(reference_duct(0.05))
    for _ in range(400):
        reading = ChannelReading(
            random.uniform(0.0, 2.0),
            random.uniform(0.0, 2.5),
            random.uniform(0.0, 8.0),
            float(random.choice([0.05, random.uniform(1e-4, 0.95)])),
            None if random.random() < 0.3 else random.uniform(0.0, 0.99),
            bool(random.random() < 0.7),
            "total" if random.random() < 0.3 else "rotor",
            bool(random.random() < 0.5),
        )
        found = blockage(reading, free=free if random.random() < 0.7 else None, walled=walled)
        for one in found.estimates:
            assert (one.state == "valid") == (not one.reasons)
            assert (one.state == "refused") == (one.power_coefficient is None)
            values = (one.stream_ratio, one.power_coefficient, one.thrust_coefficient, one.load, one.disc_speed)
            assert all(value is None or (math.isfinite(value) and value >= 0.0) for value in values)
        assert found.why
        assert (found.preferred is None) == all(
            found[method].state == "refused" for method in ("closed" if reading.froude is None else "open", "wall")
        ) or found.preferred == "closed"


def test_a_choked_open_channel_is_said_beside_the_lid() -> None:
    found = blockage(ChannelReading(0.4, 0.8, 4.0, 0.2, 0.75))
    assert found["open"].state == "refused"
    assert found.preferred == "closed"
    assert "'open' is refused" in found.why
    assert found["closed"].state == "indicative"


def test_uncertainty_goes_through_the_correction() -> None:
    """Reduction and correction as one model: first order against draws; the stream speed counts less than cubed."""

    def corrected(v: Mapping[str, Any]) -> dict[str, Any]:
        dynamic = 0.5 * 998.2 * math.pi * 0.04 * v["stream"] ** 2
        reading = ChannelReading(v["power"] / dynamic / v["stream"], v["thrust"] / dynamic, 3.0, v["blockage"])
        one = CORRECTIONS["closed"](reading, None, None)
        return {"CP": one.power_coefficient, "CT": one.thrust_coefficient}

    inputs = [
        Input("power", 49.0, 0.3),
        Input("thrust", 62.0, 0.5),
        Input("stream", 1.2, 0.012),
        Input("blockage", 0.13, 0.001),
    ]
    found = propagate(corrected, inputs, draws=True, seed=1, cap=10_000, elementwise=False)["CP"]
    assert found.monte_carlo is not None
    assert found.standard_uncertainty == pytest.approx(found.monte_carlo.standard_uncertainty, rel=0.03)
    slope = {line.name: line.sensitivity for line in found.budget}
    assert slope["power"] == pytest.approx(found.value / 49.0, rel=1e-6)
    assert -3.0 < slope["stream"] * 1.2 / found.value < -2.5
    assert slope["blockage"] < 0.0 < slope["power"]
