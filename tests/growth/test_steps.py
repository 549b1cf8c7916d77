"""Steps of growth beside each other: what size alone does, what shape does, what is kept and what is not."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError, NoAnswerError
from racewright.growth.grow import grow, rated_power
from racewright.growth.similarity import similarity
from racewright.growth.step import SolvedStep, Step, StepPlace, like_step, sized_step, solve_step
from racewright.growth.step_comparison import step_comparison
from racewright.growth.step_measures import measures_of
from racewright.growth.step_numbers import (
    blockage,
    cover_share,
    depth_froude,
    drive_mass_share,
    fish_over_chord,
    outer_radius,
    strike_energy,
    tip_cavitation_number,
)
from racewright.stage.design import design_rows
from racewright.trials.froude import froude_scale
from racewright.water import Water
from tests.growth.steps import FRESH, MODEL, RIVER, SEA, TIDAL


def _verdicts(first: SolvedStep, second: SolvedStep) -> dict[str, str]:
    return {number.name: number.verdict for number in similarity(first, second)}


def test_equal_reynolds_number_is_the_same_machine() -> None:
    """Half the size at twice the speed in the same water: every coefficient to the last digits, and no gain."""
    small = solve_step(like_step(RIVER.step, 0.5, 4.8, FRESH, "half size"))
    assert small.rotor_reynolds == pytest.approx(RIVER.rotor_reynolds, rel=1e-12)
    assert small.point.hydraulic_efficiency == pytest.approx(RIVER.point.hydraulic_efficiency, rel=1e-9)
    assert small.point.power_coefficient == pytest.approx(RIVER.point.power_coefficient, rel=1e-9)
    found = step_comparison(RIVER, small)
    assert (found.size_gain, found.shape_gain) == pytest.approx((0.0, 0.0), abs=1e-9)
    assert [form.gain for form in found.step_ups if form.by == "Reynolds number"] == pytest.approx(
        [0.0] * 3, abs=1e-12
    )


def test_froude_scaling_solved_anew() -> None:
    """Ten times the size at the same Froude number: loads by Froude's factors times what Reynolds number adds."""
    speed = RIVER.point.stream_speed * math.sqrt(10.0)
    large = solve_step(like_step(RIVER.step, 10.0, speed, SEA, "ten times"))
    law = froude_scale(10.0, SEA.density / FRESH.density, SEA.viscosity / FRESH.viscosity)
    a, b = RIVER.point, large.point
    assert large.rotor_reynolds / RIVER.rotor_reynolds == pytest.approx(law.reynolds, rel=1e-12)
    assert b.rotor_speed / a.rotor_speed == pytest.approx(law.rotor_speed, rel=1e-12)
    share = b.power_coefficient / a.power_coefficient
    assert 1.0 < share < 1.06
    assert b.shaft_power / a.shaft_power == pytest.approx(law.power * share, rel=1e-12)
    assert b.torque / a.torque == pytest.approx(law.torque * share, rel=1e-12)
    thrust = b.thrust_coefficient / a.thrust_coefficient
    assert b.thrust / a.thrust == pytest.approx(law.force * thrust, rel=1e-12)
    assert _verdicts(RIVER, large)["Froude number on throat diameter"] == "kept"


def test_step_up_agrees_with_the_stage_solved_at_each_size() -> None:
    """Two routes: friction of the rows at each Reynolds number, and the formula of hydraulic machines."""
    for first, second in ((MODEL, RIVER), (RIVER, TIDAL), (MODEL, TIDAL)):
        found = step_comparison(first, second)
        assert found.agrees
        assert abs(found.outside) < 0.004
        assert found.size_gain > 0.005
        assert found.shape_gain == pytest.approx(0.0, abs=1e-12)  # like shapes
        assert found.forms_low < found.forms_high


def test_a_disagreement_is_said() -> None:
    """A stage whose losses are made three times those that were solved cannot be reached by its own friction."""
    poor = replace(MODEL, point=replace(MODEL.point, hydraulic_efficiency=1.0 - 3.0 * (1.0 - 0.916)))
    found = step_comparison(poor, RIVER)
    assert not found.agrees
    assert found.outside > 0.1
    assert any(told.about == "step-up" and "Take the lower" in told.text for told in found.remarks)


def test_power_falls_apart_into_its_factors() -> None:
    found = step_comparison(RIVER, TIDAL).power
    product = found.density * found.area * found.speed_cubed * found.power_coefficient
    assert product == pytest.approx(found.shaft_power, rel=1e-12)
    assert (found.area, found.speed_cubed) == pytest.approx((196.0, 1.953125), rel=1e-12)
    assert found.density == pytest.approx(SEA.density / FRESH.density, rel=1e-12)


def test_shape_is_told_apart_from_size() -> None:
    """A tidal unit with half the gap, its rows drawn anew: shape gains, size does what it did."""
    step = TIDAL.step
    tight_unit = replace(step.unit, blades=replace(step.unit.blades, clearance=0.5 * step.unit.blades.clearance))
    vanes, blades = design_rows(tight_unit, step.flow, step.water)
    tight = solve_step(replace(step, unit=tight_unit, vanes=vanes, blades=blades))
    before, after = step_comparison(RIVER, TIDAL), step_comparison(RIVER, tight)
    assert after.size_gain == pytest.approx(before.size_gain, abs=1e-12)
    assert after.shape_gain > 0.002
    assert _verdicts(RIVER, tight)["tip gap over blade chord"] == "falls"


def test_what_is_kept_and_what_is_not() -> None:
    told = _verdicts(MODEL, TIDAL)
    for name in ("exit area ratio", "vanes", "tip-speed ratio", "tip gap over blade chord", "specific speed"):
        assert told[name] == "kept", name
    for name in ("chord Reynolds number of the blades", "turbulence intensity", "shaft torque"):
        assert told[name] == "grows", name
    for name in ("blockage", "fish length over blade chord", "Froude number on throat diameter"):
        assert told[name] == "falls", name
    assert len({number.name for number in similarity(MODEL, TIDAL)}) == len(similarity(MODEL, TIDAL))


def test_similarity_reads_the_same_both_ways() -> None:
    turn = {"grows": "falls", "falls": "grows", "kept": "kept", "not known": "not known"}
    there, back = _verdicts(MODEL, TIDAL), _verdicts(TIDAL, MODEL)
    assert back == {name: turn[verdict] for name, verdict in there.items()}
    assert set(_verdicts(RIVER, RIVER).values()) == {"kept"}


def test_what_is_not_known_is_asked_for() -> None:
    bare = replace(TIDAL, step=replace(TIDAL.step, place=StepPlace()))
    asked = {n.name: n for n in similarity(RIVER, bare) if n.verdict == "not known"}
    assert set(asked) == {
        "turbulence intensity",
        "cavitation number at the highest tip",
        "depth Froude number",
        "cover over drawing-air cover",
        "blockage",
        "fish length over blade chord",
        "fish length over edge thickness at the tip",
    }
    number = asked["depth Froude number"]
    assert (number.second, number.ratio) == (None, None)
    assert number.first is not None
    assert number.meaning == "Not known at tidal unit: give the depth of the water."


def test_kept_within_is_a_share() -> None:
    slow = replace(RIVER, step=replace(RIVER.step, place=replace(RIVER.step.place, turbulence=0.1212)))
    assert _verdicts(RIVER, slow)["turbulence intensity"] == "kept"
    strict = {n.name: n.verdict for n in similarity(RIVER, slow, kept_within=0.005)}
    assert strict["turbulence intensity"] == "grows"
    with pytest.raises(InputError, match="kept_within"):
        similarity(RIVER, slow, kept_within=math.nan)


def test_cavitation_number_falls_with_faster_water_and_less_depth() -> None:
    def at(depth: float) -> float:
        place = replace(TIDAL.step.place, hub_depth=depth)
        found = tip_cavitation_number(replace(TIDAL, step=replace(TIDAL.step, place=place)))
        assert found is not None
        return found

    assert at(10.0) < at(20.0) < at(39.0)
    assert at(1.0) == at(0.0)  # tips at the surface: atmosphere alone


def test_a_step_on_the_model_scale_is_remarked() -> None:
    told = {one.about for one in step_comparison(MODEL, RIVER).remarks}
    assert "Reynolds number" in told
    assert step_comparison(RIVER, TIDAL).remarks == ()


def test_measures_leave_out_what_is_not_above_0() -> None:
    found = measures_of(RIVER)
    assert found["rated_power"] == 5000.0
    assert found["flow_moment"] == pytest.approx(FRESH.density * 2.4**2, rel=1e-12)
    driven = replace(RIVER, point=replace(RIVER.point, torque=-1.0))
    assert "torque" not in measures_of(driven)


def test_growth_tells_a_page_a_step() -> None:
    found = grow((MODEL, RIVER, TIDAL))
    assert [page.solved.step.name for page in found.pages] == ["model", "river unit", "tidal unit"]
    assert found.pages[0].before is None
    assert found.pages[0].scaled == ()
    grown = {one.exponent.name: one for one in found.pages[2].scaled}
    torque = TIDAL.point.torque / RIVER.point.torque
    assert grown["shaft torque"].factor == pytest.approx(
        torque, rel=0.04
    )  # equal coefficients but for Reynolds number
    assert grown["drive mass"].low_factor < grown["drive mass"].factor < grown["drive mass"].high_factor
    speeds = [page.specific.specific_speed for page in found.pages]
    assert speeds == pytest.approx([speeds[0]] * 3, rel=0.01)


def test_rated_power_says_stream_or_size() -> None:
    """Solved again in the stream that it asks for, the river unit gives its 5 kW but for Reynolds number."""
    found = rated_power(RIVER)
    assert found is not None
    assert (found.wanted, found.found) == (5000.0, 0.85 * RIVER.point.shaft_power)
    faster = solve_step(like_step(RIVER.step, 1.0, found.speed_for_it, FRESH, "faster"))
    larger = solve_step(like_step(RIVER.step, found.diameter_for_it, 2.4, FRESH, "larger"))
    for one in (faster, larger):
        assert one.electrical_power == pytest.approx(5000.0, rel=0.01)
    assert rated_power(MODEL) is None


def test_refusals() -> None:
    with pytest.raises(InputError, match="two steps or more"):
        grow((RIVER,))
    with pytest.raises(InputError, match="one name"):
        grow((RIVER, RIVER))
    dead = replace(RIVER, point=replace(RIVER.point, shaft_power=-1.0))
    with pytest.raises(NoAnswerError, match="no power"):
        step_comparison(dead, TIDAL)
    with pytest.raises(InputError, match="name"):
        replace(RIVER.step, name=" ")
    for key in ("rated_power", "drive_efficiency"):
        with pytest.raises(InputError, match=key):
            replace(RIVER.step, **{key: math.nan})
    with pytest.raises(InputError, match="below the surface"):
        StepPlace(depth=1.0, hub_depth=1.2)
    with pytest.raises(InputError, match="open"):
        StepPlace(channel_area=3.0, open_water=True)
    for key in ("depth", "hub_depth", "channel_area", "turbulence", "fish_length"):
        with pytest.raises(InputError, match=key):
            StepPlace(**{key: math.nan})
    for size, speed in ((math.nan, 2.0), (0.0, 2.0), (1.0, math.inf), (1e4, 2.0)):
        with pytest.raises(InputError):
            like_step(RIVER.step, size, speed, FRESH, "no size")


def test_cancel_is_heard() -> None:
    def stop(_fraction: float) -> None:
        raise Cancelled("stop")

    with pytest.raises(Cancelled):
        grow((MODEL, RIVER), tick=stop)


def test_like_step_keeps_the_shape_and_forgets_the_place() -> None:
    step: Step = like_step(RIVER.step, 14.0, 3.0, SEA, "large")
    assert (step.throat_diameter, step.name, step.rated_power) == (pytest.approx(14.0), "large", None)
    assert step.place == StepPlace()
    assert np.allclose(step.blades.chord / 14.0, RIVER.step.blades.chord)
    assert np.array_equal(step.blades.stagger, RIVER.step.blades.stagger)
    assert step.rotor_speed == pytest.approx(RIVER.step.rotor_speed * 3.0 / 2.4 / 14.0, rel=1e-12)


def test_viscous_water_costs_efficiency() -> None:
    """Half-frozen honey is no water, but the sign must be right."""
    thick = Water("fresh", 283.15, FRESH.density, 5.0 * FRESH.viscosity, FRESH.vapour_pressure)
    found = step_comparison(RIVER, solve_step(like_step(RIVER.step, 1.0, 2.4, thick, "thick")))
    assert found.size_gain < 0.0
    assert all(form.gain < 0.0 for form in found.step_ups if form.by == "Reynolds number")


def test_as_built_at_another_size() -> None:
    """Roughness does not grow, the gap is what is said: less friction for its size, less leakage."""
    rough = replace(RIVER.step, unit=replace(RIVER.step.unit, roughness=2e-4))
    place = TIDAL.step.place
    step = sized_step(rough, "tidal unit", 14.0, 3.0, SEA, place, rated_power=1e6, clearance=0.004)
    assert (step.unit.roughness, step.unit.blades.clearance, step.rated_power, step.place) == (
        2e-4,
        0.004,
        1e6,
        place,
    )
    wall = float(step.flow.station_radius[-1])
    assert step.blades.radius[-1] + step.blades.clearance == pytest.approx(wall, rel=1e-12)
    assert step.blades.clearance / step.blades.radius[-1] == pytest.approx(0.004, rel=1e-12)
    found = step_comparison(solve_step(rough), solve_step(step))
    assert found.like.step.unit.roughness == pytest.approx(14.0 * 2e-4, rel=1e-12)
    assert found.shape_gain > 0.002
    told = {number.name: number.verdict for number in found.numbers}
    assert told["tip gap over blade chord"] == told["roughness over blade chord"] == "falls"
    own = sized_step(rough, "tidal unit", 14.0, 3.0, SEA, place)
    assert own.blades.clearance == pytest.approx(14.0 * rough.blades.clearance, rel=1e-12)
    for bad in ({"roughness": math.nan}, {"clearance": -0.1}, {"rated_power": 0.0}):
        with pytest.raises(InputError):
            sized_step(rough, "tidal unit", 14.0, 3.0, SEA, place, **bad)


def test_numbers_of_a_step_by_hand() -> None:
    """At the river unit: 3 m of water, axis 1.2 m down, 80 m2, fish of 0.3 m."""
    point, water, blades = RIVER.point, RIVER.step.water, RIVER.step.blades
    tip = float(blades.radius[-1])
    speed, u, head = 2.4, point.speed_ratio, point.head_coefficient
    still = 101325.0 + water.density * 9.80665 * (1.2 - tip) - water.vapour_pressure
    still -= 0.5 * water.density * speed**2 * (u**2 - 1.0 + head)
    relative = 0.5 * water.density * ((u * speed) ** 2 + (2.2 * speed) ** 2)
    assert tip_cavitation_number(RIVER) == pytest.approx(still / relative, rel=1e-12)
    assert depth_froude(RIVER) == pytest.approx(2.4 / math.sqrt(9.80665 * 3.0), rel=1e-12)
    assert blockage(RIVER) == pytest.approx(math.pi * outer_radius(RIVER) ** 2 / 80.0, rel=1e-12)
    least = (u**2 - 1.0 + head) * speed**2 / (2.0 * 9.80665)
    assert cover_share(RIVER) == pytest.approx((1.2 - outer_radius(RIVER)) / least, rel=1e-12)
    assert fish_over_chord(RIVER) == pytest.approx(0.3 / 0.165, rel=1e-3)
    slip = 2.2 * speed - float(point.triangles.swirl_in[-1])
    tip_energy = 0.5 * (slip**2 + float(point.triangles.axial_speed[-1]) ** 2)
    assert strike_energy(RIVER) == pytest.approx(tip_energy, rel=1e-9)
    share = drive_mass_share(RIVER)
    assert share is not None
    assert 0.12 < share * point.shaft_power / point.torque < 1.0  # its line's ends from 100 N m to 1 kN m [kg/(N m)]
    assert drive_mass_share(replace(RIVER, point=replace(point, torque=2e7))) is None
