"""First sizing: rules of geometry and scheme kept everywhere, constants true to the product's own solvers."""

from __future__ import annotations

import math
from dataclasses import fields
from functools import lru_cache

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.response import response_at
from racewright.flow.result import Axisymmetric
from racewright.machine.diffuser import half_angle
from racewright.machine.duct_contour import duct_contour, duct_section, wall_radius
from racewright.machine.hub_contour import hub_contour
from racewright.machine.unit import Unit
from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.model import Scheme
from racewright.scheme.rules import broken_rules
from racewright.stage import sizing_rules as rules
from racewright.stage.design import design_rows
from racewright.stage.proposal import Proposal
from racewright.stage.sizing import alternatives, first_size, proposal_at
from racewright.stage.sizing_rules import SHAPES, ShapeName
from racewright.stage.sizing_solve import proposed_flow, proposed_unit, scaled_flow, sized_machine
from racewright.water import properties

FRESH = properties(283.15, "fresh")
SEA = properties(283.15, "sea")
PANELS = 20
NAMES: tuple[ShapeName, ...] = ("mild", "middle", "wide")


@lru_cache
def unit_flow(shape: ShapeName) -> Axisymmetric:
    """Flow through the shape at a throat diameter of 1 m."""
    return proposed_flow(proposal_at(1.0, 5e3, 1, 2.5, FRESH, None, shape, 0.85), panels=PANELS)


def _table(proposal: Proposal, unit: Unit) -> MachineTable:
    """The machine's scheme table, written as a user would."""

    def m(value: float) -> str:
        return f"{value!r} m"

    rows = {
        key: {
            "count": row.count,
            "place_x": m(row.place_x),
            "hub_chord": m(row.hub_chord),
            "tip_chord": m(row.tip_chord),
            "thickness": row.thickness,
        }
        for key, row in (("vanes", unit.vanes), ("rotor", unit.blades))
    }
    rows["rotor"]["clearance"] = unit.blades.clearance
    return MachineTable.model_validate(
        {
            "description": "proposed",
            "duct": {
                "throat_diameter": m(2.0 * unit.duct.throat_radius),
                "exit_area_ratio": unit.duct.exit_area_ratio,
                "length": m(unit.duct.length),
                "thickness": unit.duct.thickness,
            },
            "hub": {
                "diameter": m(2.0 * unit.hub.radius),
                "nose_x": m(unit.hub.nose_x),
                "nose_length": m(unit.hub.nose_length),
                "cylinder_length": m(unit.hub.cylinder_length),
                "tail_length": m(unit.hub.tail_length),
            },
            **rows,
            "design": {
                "stream_speed": f"{unit.design.stream_speed!r} m/s",
                "head_coefficient": unit.design.head_coefficient,
                "tip_speed_ratio": unit.design.tip_speed_ratio,
            },
            "drive": {
                "gear_efficiency": 1.0,
                "generator_efficiency": proposal.drive_efficiency,
                "cut_in_speed": "0.5 m/s",
                "rated_power": f"{proposal.wanted_power / proposal.machines!r} W",
            },
        }
    )


@pytest.mark.parametrize("power", [300.0, 3e3, 3e4, 3e5, 1e6])
@pytest.mark.parametrize("speed", [1.0, 1.7, 2.5, 4.0])
def test_every_proposal_keeps_the_rules_of_geometry_and_scheme(power: float, speed: float) -> None:
    for water, depth in ((FRESH, None), (SEA, None), (FRESH, 3.0), (SEA, 40.0)):
        for proposal in alternatives(power, speed, water, depth=depth):
            unit = proposed_unit(proposal)
            duct_section(unit.duct)
            scheme = Scheme.model_construct(
                place={}, machine={"proposed": _table(proposal, unit)}, community={}, case={}
            )
            assert list(broken_rules(scheme)) == []
            whole = proposal.expected_power.value * proposal.machines
            assert whole == pytest.approx(power, rel=1e-9)
            assert proposal.overall_diameter <= rules.LARGEST_OVERALL * (1.0 + 1e-9)
            if depth is not None and proposal.cover is not None and proposal.bed_clearance is not None:
                room = proposal.cover + proposal.overall_diameter + proposal.bed_clearance
                assert room == pytest.approx(depth, abs=1e-6)
                assert proposal.cover >= proposal.least_cover
            numbers = [getattr(proposal, f.name) for f in fields(proposal)]
            assert all(math.isfinite(x) for x in numbers if isinstance(x, float))


@pytest.mark.parametrize("shape", NAMES)
def test_shape_figures_are_the_solvers_own(shape: ShapeName) -> None:
    """Annulus, outer diameter and half-angle to their digits, u to 1 % (20 panels a side here, 80 behind it)."""
    form, flow = SHAPES[shape], unit_flow(shape)
    proposal = proposal_at(1.0, 5e3, 1, 2.5, FRESH, None, shape, 0.85)
    unit = proposed_unit(proposal)
    wall = float(wall_radius(unit.duct, proposal.rotor_x))
    assert form.annulus_share == pytest.approx(4.0 * (wall**2 - unit.hub.radius**2), abs=1e-4)
    assert form.outer_share == pytest.approx(2.0 * float(np.max(flow.duct_r)), abs=1e-3)
    assert form.speed_ratio == pytest.approx(response_at(flow, rules.HEAD_COEFFICIENT).speed_ratio, rel=1e-2)
    assert math.degrees(half_angle(unit.duct)) == pytest.approx(
        {"mild": 5.2, "middle": 6.9, "wide": 8.0}[shape], abs=0.1
    )


@pytest.mark.parametrize("shape", NAMES)
def test_solved_power_is_near_the_rules_and_within_2_percent_of_the_wanted(shape: ShapeName) -> None:
    proposal = first_size(5e3, 3.0, FRESH, shape=shape)
    found = sized_machine(proposal, FRESH, flow=unit_flow(shape))
    assert found.electrical_power == pytest.approx(5e3, rel=0.02)
    assert found.tried_power[0] == pytest.approx(proposal.expected_power.value, rel=0.10)
    assert found.point.head_coefficient == pytest.approx(rules.HEAD_COEFFICIENT, abs=1e-9)
    assert found.point.tip_speed_ratio == pytest.approx(rules.TIP_SPEED_RATIO, rel=1e-12)
    assert found.point.blade_reynolds[2] == pytest.approx(proposal.blade_reynolds, rel=0.05)
    assert found.point.vane_reynolds[2] == pytest.approx(proposal.vane_reynolds, rel=0.05)
    assert set(found.point.vane_state + found.point.blade_state) == {"attached"}
    assert found.band.low == pytest.approx(0.75 * found.electrical_power)


@pytest.mark.parametrize("off", [0.5, 2.0])
def test_a_wrong_diameter_is_mended(off: float) -> None:
    right = first_size(5e3, 3.0, FRESH).throat_diameter
    wrong = proposal_at(off * right, 5e3, 1, 3.0, FRESH, None, "middle", 0.85)
    found = sized_machine(wrong, FRESH, flow=unit_flow("middle"))
    assert found.tried_diameter.size >= 2
    assert found.electrical_power == pytest.approx(5e3, rel=0.02)
    assert found.proposal.throat_diameter == pytest.approx(right, rel=0.03)


def test_rows_can_be_made_at_both_ends_of_the_range() -> None:
    for power, speed in ((300.0, 4.0), (300.0, 1.0), (1e6, 4.0), (1e6, 1.0)):
        for shape in NAMES:
            proposal = first_size(power, speed, FRESH, shape=shape)
            flow = scaled_flow(unit_flow(shape), proposal.throat_diameter)
            vanes, blades = design_rows(proposed_unit(proposal), flow, FRESH)
            assert np.max(np.abs(np.degrees(blades.camber))) < 60.0
            assert np.max(np.abs(np.degrees(vanes.camber))) < 60.0


def test_power_grows_with_area_at_equal_speed() -> None:
    """Power over throat area moves by the efficiency alone: up, by less than 2 % for ten times the power."""
    sizes = [first_size(power, 2.5, FRESH) for power in (5e2, 5e3, 5e4, 5e5)]
    density = [p.expected_power.value / p.throat_diameter**2 for p in sizes]
    growth = np.diff(np.log(density))
    assert np.all(growth > 0.0)
    assert np.all(growth < 0.02)


def test_power_at_equal_size_goes_with_the_cube_of_speed() -> None:
    slow, fast = (proposal_at(1.0, 5e3, 1, speed, FRESH, None, "middle", 0.85) for speed in (1.5, 3.0))
    assert fast.expected_power.value / slow.expected_power.value == pytest.approx(8.0, rel=0.02)


def test_scaled_flow_is_the_flow_at_that_size() -> None:
    small = unit_flow("mild")
    unit = proposed_unit(proposal_at(3.0, 5e3, 1, 2.5, FRESH, None, "mild", 0.85))
    hub_x, hub_r = hub_contour(unit.hub, PANELS)
    large = axisymmetric(
        *duct_contour(unit.duct, PANELS),
        rotor_x=unit.blades.place_x,
        hub_x=hub_x,
        hub_r=hub_r,
        wake_panels=2 * PANELS,
        head_coefficients=(0.0, rules.HEAD_COEFFICIENT),
    )
    grown = scaled_flow(small, 3.0)
    assert grown.annulus_area == pytest.approx(large.annulus_area, rel=1e-9)
    assert grown.station_radius == pytest.approx(large.station_radius, rel=1e-9)
    assert response_at(grown, 0.6).speed_ratio == pytest.approx(response_at(large, 0.6).speed_ratio, rel=1e-7)
    with pytest.raises(InputError):
        scaled_flow(small, float("nan"))


def test_shallow_water_asks_for_several_machines() -> None:
    deep = first_size(2e5, 2.5, FRESH)
    shallow = first_size(2e5, 2.5, FRESH, depth=4.0)
    assert deep.machines == 1
    assert shallow.machines > 1
    assert shallow.least_depth <= 4.0 + 1e-9
    assert any("too shallow for one machine" in r.text for r in shallow.remarks)
    found = sized_machine(shallow, FRESH, flow=unit_flow("middle"))
    assert found.electrical_power == pytest.approx(2e5 / found.proposal.machines, rel=0.02)
    assert found.proposal.least_depth <= 4.0 + 1e-9
    few = proposal_at(shallow.throat_diameter, 1e5 * shallow.machines, 1, 2.5, FRESH, 4.0, "middle", 0.85)
    mended = sized_machine(few, FRESH, flow=unit_flow("middle"))
    assert mended.proposal.machines > 1
    assert mended.proposal.least_depth <= 4.0 + 1e-9
    with pytest.raises(NoAnswerError, match="too shallow"):
        first_size(5e3, 2.5, FRESH, depth=0.5)


def test_very_large_power_is_shared() -> None:
    found = first_size(1e6, 1.2, SEA)
    assert found.machines > 1
    assert any("25 m in diameter" in r.text for r in found.remarks)


@pytest.mark.parametrize(
    ("power", "speed", "about"),
    [
        (500.0, 0.9, "stream speed"),
        (300.0, 1.5, "Reynolds number"),
        (5e3, 3.0, "fish"),
        (5e5, 6.0, "cavitation"),
        (5e3, 2.0, "depth"),
    ],
)
def test_remarks_say_what_is_near_a_limit(power: float, speed: float, about: str) -> None:
    assert about in [r.about for r in first_size(power, speed, FRESH).remarks]
    calm = first_size(2e4, 2.0, FRESH, depth=10.0)
    assert [r.about for r in calm.remarks] == ["sizing"]


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -1.0, 0.0])
def test_refuses_nonsense(bad: float) -> None:
    with pytest.raises(InputError, match="wanted_power"):
        first_size(bad, 2.0, FRESH)
    with pytest.raises(InputError, match="stream_speed"):
        first_size(5e3, bad, FRESH)
    with pytest.raises(InputError, match="depth"):
        first_size(5e3, 2.0, FRESH, depth=bad)
    with pytest.raises(InputError, match="drive_efficiency"):
        first_size(5e3, 2.0, FRESH, drive_efficiency=bad)


def test_refuses_other_ducts_and_machines_too_small() -> None:
    with pytest.raises(InputError, match="narrow"):
        first_size(5e3, 2.0, FRESH, shape="narrow")  # type: ignore[arg-type]
    with pytest.raises(NoAnswerError, match="nothing below"):
        first_size(50.0, 5.0, FRESH)
