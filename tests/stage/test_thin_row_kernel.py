"""The compiled mean angles against those by the model's own response."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.stage import altered, thin_row, thin_row_kernel
from racewright.stage.end_wall import END_WALLS, EndDrag, EndWall
from racewright.stage.row_flow import ReadyRow, mean_tangent, mean_tangent_of_any, turning
from racewright.stage.row_model import Slice
from racewright.stage.thin_row import ROW_MODELS

Floats = NDArray[np.float64]
SECTIONS, POINTS = 40, 25
VISCOSITY = 1.3e-6


def _row(rng: np.random.Generator, end_wall: EndWall | None, *, rough: bool) -> ReadyRow:
    chord = rng.uniform(0.03, 0.4, SECTIONS)
    sections = Slice(
        rng.choice([0.0, 1.0], SECTIONS, p=[0.1, 0.9]) * rng.uniform(0.05, 2.5, SECTIONS),
        np.radians(rng.uniform(-75.0, 75.0, SECTIONS)),
        np.radians(rng.uniform(-70.0, 70.0, SECTIONS)),
        rng.uniform(0.02, 0.3, SECTIONS),
        (3e-4 if rough else 0.0) / chord,
        0.004 / chord,
    )
    return ReadyRow(sections, ROW_MODELS["thin row"].fit(sections), chord, 0.35, end_wall)


def _flows(rng: np.random.Generator) -> tuple[Floats, Floats, Floats]:
    """Axial speeds, tangents before the row and guesses; slow, steep and far off among them."""
    shape = (POINTS, SECTIONS)
    return 10.0 ** rng.uniform(-2.5, 1.0, shape), rng.normal(0.0, 2.0, shape), rng.normal(0.0, 3.0, shape)


@pytest.mark.parametrize("end_wall", [None, *END_WALLS])
@pytest.mark.parametrize("change", ["none", "low drag", "high drag", "turned", "both"])
def test_same_angles_as_by_the_response(end_wall: str | None, change: str) -> None:
    rng = np.random.default_rng([len(end_wall or ""), len(change)])
    row = _row(rng, None if end_wall is None else END_WALLS[end_wall], rough=change == "turned")
    fitted = row.fitted
    if change in ("low drag", "both"):
        fitted = altered._DragAt(fitted, -1.0)
    if change == "high drag":
        fitted = altered._DragAt(fitted, 1.0)
    if change in ("turned", "both"):
        fitted = altered._TurnedTo(fitted, rng.uniform(-0.1, 0.1, SECTIONS))
    row = replace(row, fitted=fitted)
    assert row.numbers is not None
    speed, before, guess = _flows(rng)
    fast = mean_tangent(row, speed, before, VISCOSITY, guess)
    slow = mean_tangent_of_any(row, speed, before, VISCOSITY, guess)
    np.testing.assert_allclose(fast, slow, rtol=1e-11, atol=1e-12)
    left = fast - before - 0.5 * turning(row, speed, fast, VISCOSITY, before)
    assert np.max(np.abs(left) / (1.0 + np.abs(before))) < 1e-12


def test_alone_and_among_others_to_the_byte() -> None:
    rng = np.random.default_rng(5)
    row = _row(rng, END_WALLS["Dunham & Came"], rough=False)
    speed, before, guess = _flows(rng)
    together = mean_tangent(row, speed, before, VISCOSITY, guess)
    alone = mean_tangent(row, speed[7], before[7], VISCOSITY, guess[7])
    assert alone.tobytes() == together[7].tobytes()


def test_another_form_of_loss_takes_the_other_way() -> None:
    """A form that is none of the named ones is asked itself."""

    def squared(
        lift: Floats, chord_over_pitch: Floats, span_over_chord: Floats, gap: Floats, angle_ratio: Floats
    ) -> EndDrag:
        return EndDrag(0.1 * lift**4 * angle_ratio**2, 0.0 * lift)

    rng = np.random.default_rng(6)
    row = _row(rng, squared, rough=False)
    assert row.numbers is None
    speed, before, guess = np.full((1, SECTIONS), 2.0), np.zeros((1, SECTIONS)), np.zeros((1, SECTIONS))
    found = mean_tangent(row, speed, before, VISCOSITY, guess)
    bare = mean_tangent(replace(row, end_wall=None), speed, before, VISCOSITY, guess)
    assert np.max(np.abs(found - bare)) > 1e-3


def test_numbers_of_the_model_stand_in_the_kernel() -> None:
    for name in ("BEND", "STALL", "HOLD", "PLATE_DRAG", "LOW_REYNOLDS"):
        assert getattr(thin_row_kernel, name) == getattr(thin_row, name)
