"""From a tide to what a one-way machine meets: turning, flood and ebb, springs, slack, years."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import site_from_tide, tide, tide_record
from racewright.place.tide_doubt import tide_causes
from racewright.place.tide_stream import stream_of
from racewright.place.tide_turning import Turning, met
from tests.place.tides import stamps, strait, wave

LATITUDE = math.radians(55.0)
HEADING = 0.9
FITTED = tide(strait(60.0, heading=HEADING), LATITUDE)
OPTIONS = {"first_year": 2027, "period": "year", "flood_direction": 0.6, "cut_in_speed": 0.9}


def site(way="swings", fitted=FITTED, **options):
    return site_from_tide(fitted, Turning(way), **(OPTIONS | options))


def test_flood_and_ebb_share_time_and_energy():
    found = site()
    flood, ebb = found.ways
    assert (flood.name, ebb.name) == ("flood", "ebb")
    assert flood.time_share + ebb.time_share == pytest.approx(1.0)
    assert flood.cube_share + ebb.cube_share == pytest.approx(1.0)
    assert flood.direction == pytest.approx(HEADING, abs=1e-3)
    assert ebb.direction == pytest.approx(HEADING + math.pi, abs=1e-3)
    assert found.misalignment == pytest.approx(0.0, abs=2e-3)
    cube = sum(w.time_share * w.cube_speed**3 for w in found.ways)
    assert cube == pytest.approx(found.water.mean_cube_speed**3, rel=1e-9)


def test_the_flood_is_the_end_that_the_user_names():
    other = site(flood_direction=0.6 + math.pi)
    assert other.ways[0].direction == pytest.approx(HEADING + math.pi, abs=1e-3)
    with pytest.raises(InputError, match="which end is flood"):
        site(flood_direction=HEADING + 0.5 * math.pi)


def test_energy_adds_up_however_the_machine_turns():
    for way in ("swings", "half turn", "fixed"):
        found = site(way)
        counted = (found.site.climate.mean_cube_speed / found.water.mean_cube_speed) ** 3
        lost = found.lost_turning + found.lost_off_axis + found.lost_direction
        assert counted + lost == pytest.approx(1.0, abs=1e-9)


def test_a_fixed_machine_counts_one_direction_and_says_so():
    found = site("fixed")
    assert found.faces in ("flood", "ebb")
    assert 0.4 < found.lost_direction < 0.5
    assert any("none of it is counted" in remark.text for remark in found.site.remarks)
    weaker = "ebb" if found.faces == "flood" else "flood"
    other = site_from_tide(FITTED, Turning("fixed", faces=weaker), **OPTIONS)
    assert other.lost_direction == pytest.approx(1.0 - found.lost_direction)


def test_a_one_way_machine_without_a_way_of_turning_is_refused_with_the_reason():
    with pytest.raises(InputError, match="takes water from one side only"):
        site_from_tide(FITTED, None, **OPTIONS)


def test_turning_takes_time_and_a_still_machine_counts_nothing():
    time = stamps(35.0)
    fitted = tide(tide_record(time, along=wave(time, {"M2": (2.0, 0.0), "S2": (0.001, 0.0)})), LATITUDE, nodal=False)
    stream = stream_of(fitted, stamps(10.0, 60))
    at_once, slow = (met(stream, Turning("swings", swing_speed=0.5, time=t)) for t in (0.0, 1800.0))
    still = (at_once.speed == 0.0).mean()
    assert still == pytest.approx(math.asin(0.25) / math.pi, abs=0.005)
    assert (slow.speed == 0.0).mean() - still == pytest.approx(1800.0 / (0.5 * 44714.0), abs=0.005)
    assert slow.lost_turning > at_once.lost_turning > 0.0
    assert slow.turns == pytest.approx(10.0 * 86400.0 / 22357.0, abs=1.0)


def test_ebb_out_of_line_costs_a_machine_of_two_headings_only():
    time = stamps(60.0)
    along = wave(time, {"M2": (2.0, 40.0), "S2": (0.6, 75.0)})
    heading = np.where(along > 0.0, 0.9, 0.9 - math.radians(30.0))
    record = tide_record(time, east=along * np.sin(heading), north=along * np.cos(heading))
    fitted = tide(record, LATITUDE)
    swings, half = site(fitted=fitted), site("half turn", fitted=fitted)
    assert swings.lost_off_axis == 0.0
    assert abs(half.misalignment) == pytest.approx(math.radians(30.0), abs=math.radians(3.0))
    assert half.lost_off_axis == pytest.approx(1.0 - math.cos(math.radians(15.0)) ** 3, abs=0.02)
    assert any("out of line" in remark.text for remark in half.site.remarks)


def test_springs_neaps_slack_and_cut_in():
    found = site(step=300.0)
    assert found.springs.spring_peak > 1.5 * found.springs.neap_peak
    assert found.springs.spring_cube_speed > found.springs.neap_cube_speed
    assert found.slack.daily == pytest.approx(found.turns / 365.25, rel=0.01)
    assert found.slack.share == pytest.approx(found.slack.daily * found.slack.mean / 86400.0, rel=0.01)
    assert found.below_cut_in > found.slack.share


def test_the_nodal_cycle_shows_its_years():
    found = site(period="nodal cycle", step=1800.0)
    assert found.yearly_cube.size == 18
    assert 1.1 < found.yearly_cube.max() / found.yearly_cube.min() < 1.35
    assert found.site.calendar.year.size == 19
    assert any("18.6-year cycle" in remark.text for remark in found.site.remarks)


def test_the_climate_does_not_hang_on_the_step():
    coarse, fine = (site(step=s).site.climate.mean_cube_speed for s in (600.0, 120.0))
    assert coarse == pytest.approx(fine, rel=2e-3)


def test_a_speed_factor_scales_the_water():
    assert site(speed_factor=1.2).water.mean_cube_speed == pytest.approx(
        1.2 * site().water.mean_cube_speed, rel=1e-12
    )


def test_along_channel_records_need_no_direction():
    time = stamps(40.0)
    fitted = tide(tide_record(time, along=wave(time, {"M2": (2.0, 0.0), "S2": (0.5, 0.0)})), LATITUDE)
    found = site_from_tide(fitted, Turning("swings"), first_year=2027, period="year")
    assert found.misalignment is None
    assert found.axis is None
    assert found.below_cut_in is None


def test_what_cannot_be_answered_is_refused():
    short = tide(strait(10.0), LATITUDE)
    with pytest.raises(InputError, match="springs from neaps"):
        site(fitted=short)
    time = stamps(40.0)
    level = tide(tide_record(time, level=wave(time, {"M2": (1.0, 0.0)})), LATITUDE)
    with pytest.raises(InputError, match="not how fast"):
        site(fitted=level)
    for options in ({"first_year": 1800}, {"step": 10.0}, {"period": "month"}, {"slack_speed": math.nan}):
        with pytest.raises(InputError):
            site(**options)
    with pytest.raises(InputError, match="which way is flood"):
        site(flood_direction=None)
    for bad in ({"way": "spins"}, {"way": "swings", "faces": "ebb"}, {"way": "swings", "time": -1.0}):
        with pytest.raises(InputError):
            Turning(**bad)


def test_causes_of_doubt_grow_with_noise():
    quiet, noisy = (
        {c.cause: c.speed_error for c in tide_causes(tide(strait(40.0, noise=n), LATITUDE, infer=False))}
        for n in (0.05, 0.4)
    )
    assert noisy["tidal constituents"] > 3.0 * quiet["tidal constituents"] > 0.0
    assert noisy["what the tide leaves over"] > quiet["what the tide leaves over"]
    moved = dataclasses.replace(FITTED, kind="level")
    with pytest.raises(InputError):
        tide_causes(moved)


def test_no_heavy_library_is_loaded_with_the_room():
    import subprocess
    import sys

    code = "import sys, racewright.place; print({'utide', 'pandas', 'scipy.stats', 'matplotlib'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"
