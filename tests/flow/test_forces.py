"""Forces from surface speeds."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.flow.forces import lower_head_force, momentum_force, pressure_force, smooth_pressure_force


def test_uniform_pressure_pushes_a_closed_body_nowhere() -> None:
    angle = np.linspace(0.0, math.pi, 41)
    assert pressure_force(-np.cos(angle), np.sin(angle), np.full(40, 0.7)) == pytest.approx(0.0, abs=1e-12)


def test_pressure_on_the_front_pushes_downstream() -> None:
    angle = np.linspace(0.0, math.pi, 41)
    speed = np.where(np.arange(40) < 20, 0.0, 1.0)
    assert pressure_force(-np.cos(angle), np.sin(angle), speed) == pytest.approx(math.pi, rel=1e-2)


def test_lower_head_behind_the_disc_sucks_a_widening_wall_downstream() -> None:
    assert lower_head_force(0.5, 1.0, 1.5) == pytest.approx(0.5 * math.pi * 1.25)
    assert lower_head_force(0.5, 1.0, 1.0) == 0.0


def test_momentum_force_vanishes_unloaded_and_for_a_bare_disc() -> None:
    ch = np.array([0.0, 0.5])
    w = np.sqrt(1.0 - ch)
    assert momentum_force(ch, np.array([1.7, 0.5 * (1.0 + w[1])])) == pytest.approx([0.0, 0.0], abs=1e-12)


def test_pressure_on_a_smooth_ring_is_integrated_to_high_order() -> None:
    """A torus of radii 1 and 0.3 with speed 1 + sin(a) cos(a): against a sum over 4000 panels."""

    def force(panels: int) -> tuple[float, float]:
        ends = np.linspace(0.0, 2.0 * math.pi, panels + 1)
        middle = 0.5 * (ends[1:] + ends[:-1])
        x, r, speed = 0.3 * np.cos(ends), 1.0 + 0.3 * np.sin(ends), 1.0 + np.sin(middle) * np.cos(middle)
        return smooth_pressure_force(r, speed), pressure_force(x, r, speed)

    exact = force(4000)[0]
    smooth, plain = force(40)
    assert abs(smooth - exact) < 0.1 * abs(plain - exact)
    assert smooth == pytest.approx(exact, abs=1e-4)
