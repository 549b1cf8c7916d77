"""Bands of the design point's power by cause."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.machine.duct import Duct
from racewright.stage.altered import with_blades_turned, with_drag
from racewright.stage.bands import power_bands, separation_share
from racewright.stage.design import design_rows
from racewright.stage.row_flow import through_row
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from tests.stage.machines import FRESH, flow, unit

UNIT, FLOW = unit(), flow()
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
BANDS = power_bands(UNIT, VANES, BLADES, FLOW, FRESH)


def test_causes_hold_the_value_and_have_width() -> None:
    assert len(BANDS.causes) == 5
    for cause in BANDS.causes:
        assert cause.low <= BANDS.value <= cause.high
        assert cause.high - cause.low > 0.002 * BANDS.value
    apart = next(c for c in BANDS.causes if "separation" in c.cause)
    assert apart.high == BANDS.value


def test_combined_is_the_square_root_of_squares_and_not_below_the_prior() -> None:
    down = math.sqrt(sum((BANDS.value - c.low) ** 2 for c in BANDS.causes))
    prior = 0.25 * BANDS.value
    assert BANDS.value - BANDS.combined.low == pytest.approx(max(down, prior))
    assert BANDS.combined.high - BANDS.value >= prior * (1.0 - 1e-12)
    assert ("causes together" in BANDS.combined.basis) == (
        down > prior or "above: the causes" in BANDS.combined.basis
    )


def test_steeper_ducts_may_lose_more() -> None:
    assert separation_share(math.radians(5.0)) == pytest.approx(0.10)
    assert separation_share(math.radians(11.0)) == pytest.approx(0.35)
    assert separation_share(math.radians(30.0)) == pytest.approx(0.60)
    steep = replace(UNIT, duct=Duct(0.5, 1.6, 0.35, 0.12))
    lows = [
        next(c.low for c in found.causes if "separation" in c.cause)
        for found in (BANDS, power_bands(steep, VANES, BLADES, FLOW, FRESH))
    ]
    assert lows[1] < lows[0]


def test_the_outlet_angle_moves_by_its_band() -> None:
    """Turned sections lead the water off by the row model's band, the flow that reaches them being the same."""
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    turning = np.array([UNIT.design.tip_speed_ratio * 2.5 / stage.tip_radius])
    solved = solve_many(stage, np.array([2.5]), turning)
    rows = solved.trial.rows
    before = (rows.swirl_in - turning * stage.annulus.radius) / rows.axial_speed
    band = rows.blades.response.angle_band[0]
    bladed = stage.blades.sections.chord_over_pitch > 0.0
    for sign in (-1.0, 1.0):
        turned = through_row(
            with_blades_turned(stage, solved, sign).blades, rows.axial_speed, before, FRESH.viscosity
        )
        moved = np.arctan(turned.tangent_out) - np.arctan(rows.blades.tangent_out)
        assert moved[0, bladed] == pytest.approx(sign * band[bladed], rel=0.03)


def test_drag_stands_at_the_end_of_its_band() -> None:
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    turning = np.array([UNIT.design.tip_speed_ratio * 2.5 / stage.tip_radius])
    lost = [solve_many(s, np.array([2.5]), turning).trial.rows.blade_loss[0] for s in (stage, with_drag(stage, 1.0))]
    assert lost[1] == pytest.approx(1.15 * lost[0], rel=0.05)
