"""Strike in a machine: rows together, headings, cautions, refusals."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.flow.field import velocity
from racewright.machine.duct_contour import wall_radius
from racewright.machine.hub_contour import hub_radius
from racewright.passage.crossing import RowCrossing, row_crossings
from racewright.passage.edge import edge_slant, edge_thickness
from racewright.passage.species import fish_class
from racewright.passage.strike import strike
from tests.passage.machine import UNIT, machine

SMOLT = fish_class("salmonid_smolt")


def plain(count: int = 3, turn: float = 16.0, swirl: float = 0.0, edge: float = 0.0) -> RowCrossing:
    """Even water through unswept edges."""
    radius = np.linspace(0.1, 0.5, 9)
    even = np.ones(9)
    return RowCrossing("rotor", count, turn, radius, 2.0 * even, swirl / radius, edge * even, 0.5 * math.pi * even)


def thin(fish=SMOLT):
    """A class whose body has hardly any width."""
    return replace(fish, width_share=1e-9, height_share=1e-9)


def test_without_vanes_and_swirl_the_classical_form_returns():
    """B n L/V with n in turns a second, at every radius; width and edges as thin as they can be told."""
    found = strike([plain()], thin(), [0.05, 0.15, 0.30])
    want = np.minimum(1.0, 3 * 16.0 / (2.0 * math.pi) * np.array([0.05, 0.15, 0.30]) / 2.0)
    assert found.chance == pytest.approx(want, rel=1e-12)
    assert np.ptp(found.rows[0].chance, axis=1) == pytest.approx(0.0, abs=1e-12)


def test_capped_at_one_and_a_struck_fish_is_not_always_dead():
    found = strike([plain()], SMOLT, 0.3)
    assert found.chance[0] == 1.0
    assert 0.0 < found.death[0] < found.death_high[0] <= 1.0
    assert any("not always a dead one" in one.text for one in found.remarks)


@given(st.integers(1, 12), st.floats(0.0, 40.0), st.floats(-1.0, 1.5), st.floats(0.02, 2.0), st.floats(0.0, 0.05))
@settings(max_examples=100, deadline=None)
def test_all_figures_are_chances_in_order(count, turn, swirl, length, edge):
    found = strike([plain(2, 0.0), plain(count, turn, swirl, edge)], SMOLT, length)
    assert 0.0 <= found.death_low[0] <= found.death[0] <= found.death_high[0] <= found.chance[0] <= 1.0
    for one in found.rows:
        assert np.all((one.chance >= 0.0) & (one.chance <= 1.0))


@given(st.floats(0.02, 0.9), st.floats(1.0, 3.0))
@settings(max_examples=30, deadline=None)
def test_longer_fish_are_struck_more_in_the_machine(length, factor):
    short, long = strike(machine().rows, SMOLT, [length, length * factor]).chance
    assert long >= short


def test_the_worse_heading_is_never_below_the_others():
    rows = machine().rows
    worse, axial, along = (
        strike(rows, SMOLT, [0.1, 0.2], heading=heading) for heading in ("worse", "axial", "along the water")
    )
    assert np.all(worse.chance >= np.maximum(axial.chance, along.chance) - 1e-15)
    assert np.all(along.rows[1].mean_chance > axial.rows[1].mean_chance)
    assert any(one.about == "heading" for one in worse.remarks)


def test_rows_are_independent_blows():
    rows = machine().rows
    both = strike(rows, SMOLT, 0.15)
    single = [strike([one], SMOLT, 0.15).chance for one in rows]
    assert both.chance == pytest.approx(1.0 - (1.0 - single[0]) * (1.0 - single[1]), rel=1e-12)


def test_relative_speed_counts_the_swirl():
    rotor = machine().rows[1]
    want = np.hypot(rotor.axial_speed, rotor.rotor_speed * rotor.radius - rotor.swirl)
    assert strike([rotor], SMOLT, 0.1).rows[0].relative_speed == pytest.approx(want)
    assert np.all(rotor.swirl > 0.0)


def test_vanes_pass_the_same_flow_as_the_rotor():
    """Continuity: the flow through both is the point's, but for what passes where the wall is wider than vanes."""
    vanes, rotor = machine().rows
    assert vanes.rotor_speed == 0.0
    assert np.all(vanes.swirl == 0.0)
    flow = [np.trapezoid(2.0 * np.pi * one.radius * one.axial_speed, one.radius) for one in (vanes, rotor)]
    assert 0.95 < flow[0] / machine().point.flow_rate < 1.0
    assert flow[1] == pytest.approx(machine().point.flow_rate, rel=0.02)


def test_water_comes_to_the_vanes_as_fast_as_the_flow_was_solved():
    """Against the solver's own field at their leading edges, whose load, 0.6, is nearly the point's."""
    one = machine()
    vanes = one.rows[0]
    front = one.vanes.place_x - 0.5 * float(one.vanes.chord[0] * np.cos(one.vanes.stagger[0]))
    inner = vanes.radius[4:-4]
    axial, _radial = velocity(one.flow, 3, np.full(inner.size, front), inner)
    assert float(np.mean(axial)) * UNIT.design.stream_speed == pytest.approx(np.mean(vanes.axial_speed), rel=0.03)


def test_a_wider_annulus_at_the_vanes_slows_the_water():
    """Without a hub there the ring grows by the hub's area, and speeds fall as much."""
    one = machine()
    front = one.vanes.place_x - 0.5 * float(one.vanes.chord[0] * np.cos(one.vanes.stagger[0]))
    nose = replace(UNIT, hub=replace(UNIT.hub, nose_x=front + 0.01))
    slower = row_crossings(nose, one.vanes, one.blades, one.point)[0]
    wall, hub = float(wall_radius(UNIT.duct, front)), float(hub_radius(UNIT.hub, front))
    want = (wall**2 - hub**2) / wall**2
    assert want < 0.96
    assert np.mean(slower.axial_speed) / np.mean(one.rows[0].axial_speed) == pytest.approx(want, rel=5e-3)


def test_mean_over_the_flow_of_even_water_is_the_mean_over_area():
    row = plain()
    got = row.mean(row.radius)
    assert float(got) == pytest.approx(2.0 / 3.0 * (0.5**3 - 0.1**3) / (0.5**2 - 0.1**2), rel=0.02)


def test_an_edge_along_the_radius_is_met_square_on_and_a_swept_one_aslant():
    blades = machine().blades
    straight = replace(
        blades,
        chord=np.full(5, 0.15),
        stagger=np.zeros(5),
        sweep=np.zeros(5),
        lean=np.zeros(5),
    )
    radius = np.linspace(0.2, 0.45, 6)
    axial, nothing = np.full(6, 2.0), np.zeros(6)
    assert edge_slant(straight, radius, axial, nothing) == pytest.approx(0.5 * math.pi, abs=1e-9)
    swept = replace(straight, sweep=np.full(5, 0.6))
    assert edge_slant(swept, radius, axial, nothing) == pytest.approx(0.5 * math.pi - 0.6, abs=1e-6)
    assert edge_slant(swept, radius, axial, np.full(6, 1e3)) == pytest.approx(0.5 * math.pi, abs=2e-3)
    leaning = replace(straight, lean=np.full(5, 0.4))
    across = edge_slant(leaning, radius, np.full(6, 1e-3), np.full(6, -3.0))
    assert across == pytest.approx(0.5 * math.pi - 0.4, abs=2e-3)


def test_a_sharp_family_has_no_edge_thickness():
    sharp = replace(machine().blades, family="biconvex")
    assert np.all(edge_thickness(sharp, np.array([0.2, 0.4])) == 0.0)
    assert np.all(edge_thickness(machine().blades, np.array([0.2, 0.4])) > 0.0)


def test_safety_travels_with_the_numbers():
    found = strike(machine().rows, fish_class("eel"), 0.5)
    for one in found.safety:
        assert one.basis
        assert one.edition
        assert "Defer to" in one.caution
    assert any(one.about == "injury" and "stand in" in one.text for one in found.remarks)
    assert any("up to 5." in one.text for one in found.remarks)


def test_a_fish_longer_than_the_duct_is_refused():
    with pytest.raises(InputError, match="longer than the duct"):
        strike(machine().rows, SMOLT, [0.2, 1.2], duct_length=UNIT.duct.length)


@pytest.mark.parametrize("length", [math.nan, math.inf, -0.1, 0.0, []])
def test_lengths_that_are_none_are_refused(length):
    with pytest.raises(InputError, match="length"):
        strike(machine().rows, SMOLT, length)


def test_other_refusals():
    with pytest.raises(InputError, match="one row or more"):
        strike([], SMOLT, 0.1)
    with pytest.raises(InputError, match="must be one of"):
        strike(machine().rows, SMOLT, 0.1, heading="sideways")
    with pytest.raises(InputError, match="axial_speed"):
        replace(plain(), axial_speed=np.full(9, math.nan))
    with pytest.raises(InputError, match="must grow"):
        replace(plain(), radius=np.linspace(0.5, 0.1, 9))
    other = replace(machine().blades, radius=machine().blades.radius * 1.01)
    with pytest.raises(InputError, match="other blades"):
        row_crossings(UNIT, machine().vanes, other, machine().point)


def test_results_hold_finite_numbers_only():
    for one in strike(machine().rows, SMOLT, [0.1, 0.2]).rows:
        for field in dataclasses.fields(one):
            value = getattr(one, field.name)
            assert isinstance(value, str) or np.all(np.isfinite(value))
