"""Invented records: labelled, repeatable, with the spectrum, faults and truth that they claim."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.signal import welch

from racewright.errors import InputError
from racewright.trials import reduce
from racewright.trials.synthetic import synthetic_campaign
from racewright.trials.synthetic_flow import Turbulence, von_karman
from racewright.trials.synthetic_machine import Model
from racewright.trials.synthetic_plan import Leaves, Plan, Stretch
from racewright.trials.synthetic_sensor import Faults
from racewright.trials.synthetic_text import logger_lines
from racewright.trials.synthetic_truth import truth_over

SHORT = Plan(stretches=(Stretch(30.0, tare=True), Stretch(80.0, 2.0), Stretch(30.0, tare=True)))
SPOILT = replace(SHORT, faults=Faults(spikes=600.0, dropouts=100.0, nuts=100.0))


def test_everything_says_that_it_is_invented():
    campaign = synthetic_campaign(SHORT, 1)
    chunk, truth = next(campaign.record())
    assert "invented" in campaign.label
    assert "invented" in truth.label
    assert "invented" in truth_over(campaign.plan.model, [truth], 45.0, 60.0).label
    assert chunk.start == 0.0


def test_a_seed_gives_the_record_again_and_the_chunks_do_not_matter():
    a = synthetic_campaign(SPOILT, 5)
    b = synthetic_campaign(replace(SPOILT, chunk=20.0), 5)
    for name in a.channels:
        one = np.concatenate([c.values[name.name] for c in a.chunks()])
        again = np.concatenate([c.values[name.name] for c in a.chunks()])
        cut = np.concatenate([c.values[name.name] for c in b.chunks()])
        assert np.array_equal(one, again)
        assert np.isfinite(one).all()
        assert (
            np.abs(one - cut).max() <= 1e-9 * np.abs(one).max() + 2.0 * a.plan.sensors[0].step or name.role != "speed"
        )
    other = np.concatenate([c.values["flow_a"] for c in synthetic_campaign(SPOILT, 6).chunks()])
    assert not np.array_equal(other, np.concatenate([c.values["flow_a"] for c in a.chunks()]))


def test_turbulence_has_the_stated_intensity_and_spectrum():
    rate, time = 50.0, 0.2
    source = Turbulence(np.random.SeedSequence(2), rate, 0.08, time, 0.1, 1)
    machine, (probe,) = source.take(400_000)
    assert probe.std() == pytest.approx(0.08, rel=0.02)
    assert machine.std() == pytest.approx(source.machine_intensity, rel=0.03)
    assert machine.std() < 0.9 * probe.std()
    f, power = welch(probe, rate, nperseg=2048)
    band = (f > 0.2) & (f < 8.0)
    ratio = power[band] / (0.08**2 * von_karman(f[band], time))
    assert np.abs(np.log(ratio)).mean() < 0.15


def test_faults_are_found_with_their_reasons():
    campaign = synthetic_campaign(SPOILT, 3)
    found = reduce(campaign.chunks(), campaign.channels, campaign.rig, tares=campaign.tares)
    clean = synthetic_campaign(SHORT, 3)
    quiet = reduce(clean.chunks(), clean.channels, clean.rig, tares=clean.tares)
    for name in ("blank", "out_of_range", "stuck", "spike"):
        assert sum(getattr(f, name) for f in found.flags) > 10, name
        assert sum(getattr(f, name) for f in quiet.flags) == 0, name


def test_readings_of_a_spoilt_record_hold_the_truth():
    """One seed, a check of the plumbing; how often intervals hold the truth is counted elsewhere."""
    campaign = synthetic_campaign(replace(SPOILT, model=Model(angle_error=0.03)), 12)
    truths = []

    def chunks():
        for chunk, truth in campaign.record():
            truths.append(truth)
            yield chunk

    found = reduce(chunks(), campaign.channels, campaign.rig, tares=campaign.tares)
    reading = found.readings[0]
    truth = truth_over(campaign.plan.model, truths, reading.start, reading.end)
    for own, true in (
        (reading.power_coefficient, truth.power_coefficient),
        (reading.thrust_coefficient, truth.thrust_coefficient),
        (reading.tip_speed_ratio, truth.tip_speed_ratio),
    ):
        assert abs(own.value - true) < 4.0 * own.standard_uncertainty
    assert abs(truth.design_power_coefficient / truth.power_coefficient - 1.0) > 0.005


def test_leaves_take_torque_until_they_are_taken_off():
    leaves = Leaves(start=40.0, seconds=40.0, loss=0.1, cleaned=90.0, left=0.2)
    assert leaves.at(np.array([0.0, 60.0, 85.0, 95.0])) == pytest.approx([0.0, 0.05, 0.1, 0.02])
    bare = [t for _, t in synthetic_campaign(SHORT, 4).record()]
    fouled = [t for _, t in synthetic_campaign(replace(SHORT, leaves=leaves), 4).record()]
    ratio = fouled[1].torque[:90] / np.where(bare[1].torque[:90] == 0.0, 1.0, bare[1].torque[:90])
    assert ratio[50] == pytest.approx(0.9, abs=1e-9)
    assert fouled[1].cube == pytest.approx(bare[1].cube)


@pytest.mark.parametrize("comma", [False, True])
def test_lines_of_a_logger_file(comma):
    campaign = synthetic_campaign(replace(SPOILT, stretches=(Stretch(12.0, tare=True),)), 3)
    lines = list(logger_lines(campaign, decimal_comma=comma))
    mark, point = (";", ",") if comma else (",", ".")
    assert "invented" in lines[4]
    assert lines[5].split(mark)[:3] == ["time", "flow_a", "flow_b"]
    assert lines[6].split(mark)[3] == "mV"
    assert set(lines[7].split(mark)) == {"invented"}
    body = [line.split(mark) for line in lines[8:]]
    assert len(body) == 600
    assert {len(row) for row in body} == {9}
    assert body[1][0] == f"0{point}0200"
    assert [row[7] != "" for row in body].count(True) <= 12
    assert all(row[1] == "" for row in body[1::2])


def test_plans_that_cannot_be_are_refused():
    with pytest.raises(InputError, match="no longer than the ramp"):
        synthetic_campaign(replace(SHORT, stretches=(Stretch(5.0, 2.0),)), 1)
    odd = replace(SHORT, sensors=[replace(s, rate=30.0) if s.role == "level" else s for s in SHORT.sensors])
    with pytest.raises(InputError, match="must divide"):
        next(synthetic_campaign(odd, 1).record())
    with pytest.raises(InputError, match="no truth"):
        truth_over(Model(), [next(synthetic_campaign(SHORT, 1).record())[1]], 500.0, 600.0)
