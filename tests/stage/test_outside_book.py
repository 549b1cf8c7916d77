"""Forces on the parts, the outside book, the core behind the hub, the lowest pressure."""

from __future__ import annotations

from dataclasses import astuple, replace

import numpy as np
import pytest

from racewright.machine.unit import DesignIntent
from racewright.stage.design import design_rows
from racewright.stage.forces import forces
from racewright.stage.hub_core import CORE_SHARE, hub_core
from racewright.stage.operating_point import operating_point
from racewright.stage.outside_book import outside_book
from racewright.stage.result import OperatingPoint
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from tests.external.record import Record
from tests.stage.machines import FRESH
from tests.stage.solved import FLOW, UNIT, solve

FINE = solve(160, 80, (0.0, 0.2, 0.4, 0.6, 0.7, 0.8))


def _design_point(head: float) -> OperatingPoint:
    unit = replace(UNIT, design=DesignIntent(2.4, head, 2.2))
    vanes, blades = design_rows(unit, FINE, FRESH)
    return operating_point(unit, vanes, blades, FINE, FRESH, 2.4, 2.2 * 2.4 / float(blades.radius[-1]))


@pytest.mark.parametrize("head", [0.19, 0.38, 0.58, 0.75])
def test_outside_book_at_design_points(head: float, record_property: Record) -> None:
    """Total drag x U = all that the stream pays for, each by its own route, within 0.5 %: 160 panels a side."""
    point = _design_point(head)
    assert point.thrust_coefficient > 0.2
    record_property("measured", f"{100 * point.book.mismatch:+.2f} % at CH {head}")
    assert abs(point.book.mismatch) < 0.005
    drag, *entries, mismatch = astuple(point.book)
    assert sum(entries) / drag - 1.0 == pytest.approx(mismatch, abs=1e-12)
    assert drag == pytest.approx(point.thrust * 2.4)
    assert all(entry >= 0.0 for entry in entries)


def test_outside_book_off_design(record_property: Record) -> None:
    """With swirl that leaves: within 0.5 % a quarter either side of the design ratio, 2 % from held to runaway."""
    vanes, blades = design_rows(UNIT, FLOW, FRESH)
    stage = ready_stage(UNIT, vanes, blades, FLOW, FRESH)
    ratio = np.array([0.0, 0.8, 1.6, 1.9, 2.2, 2.5, 2.8, 3.4, 4.0])
    solved = solve_many(stage, np.full(ratio.size, 2.4), ratio * 2.4 / stage.tip_radius)
    book = outside_book(stage, solved, forces(stage, solved))
    near = (ratio >= 1.6) & (ratio <= 2.8)
    record_property("measured", f"{100 * np.max(np.abs(book.mismatch[near])):.2f} % near, "
                    f"{100 * np.max(np.abs(book.mismatch)):.2f} % at worst")  # fmt: skip
    assert np.max(np.abs(book.mismatch[near])) < 0.005
    assert np.max(np.abs(book.mismatch)) < 0.02
    assert np.max(book.residual_swirl) > 0.05 * np.min(book.drag_power)


def test_core_behind_the_hub() -> None:
    """Suction by quadrature of the Rankine vortex' pressure; lowest pressure on the axis; burst above 1.3."""
    core = hub_core(np.array([0.2, -0.2, 0.0]), 0.13, np.array([1.5, 1.5, 1.5]), 1000.0)
    inside = CORE_SHARE * 0.13
    radius = np.linspace(1e-9, 0.13, 200_001)
    low = np.where(
        radius < inside,
        -0.04 / inside**2 + 0.02 * radius**2 / inside**4,
        -0.02 / radius**2,
    )
    pull = -1000.0 * np.trapezoid(low * 2.0 * np.pi * radius, radius)
    assert core.tail_force[:2] == pytest.approx(pull, rel=1e-6)
    assert core.lowest_pressure[0] == pytest.approx(-1000.0 * 0.04 / inside**2)
    assert core.breakdown.tolist() == [True, True, False]
    assert core.swirl_ratio[0] == pytest.approx(0.2 / inside / 1.5)
    assert core.tail_force[2] == 0.0


def test_forces_and_pressure_at_runaway() -> None:
    """The vortex pulls the tail and all pressures are lower; on load the water behind the rotor is not the lowest."""
    vanes, blades = design_rows(UNIT, FLOW, FRESH)
    runaway = operating_point(UNIT, vanes, blades, FLOW, FRESH, 2.4, 4.0 * 2.4 / float(blades.radius[-1]))
    load = operating_point(UNIT, vanes, blades, FLOW, FRESH, 2.4, 2.2 * 2.4 / float(blades.radius[-1]))
    assert runaway.lowest_pressure <= runaway.hub_core.lowest_pressure < load.hub_core.lowest_pressure
    assert runaway.lowest_pressure < load.lowest_pressure
    assert runaway.hub_core.tail_force > 10.0 * abs(load.hub_core.tail_force)
    half = 0.5 * FRESH.density * 2.4**2
    behind = half * (1.0 - load.head_coefficient - load.speed_ratio**2)
    assert load.lowest_pressure < behind < 0.0
    assert load.forces.rotor > load.forces.duct > load.forces.vanes > 0.0
