"""The Jacobian against differences of the residual."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.flow.channel import wall_places
from racewright.flow.equations import Problem, system
from racewright.flow.surfaces import surfaces
from racewright.flow.wake import wake_places
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from tests.flow.conftest import DUCT, HUB

NONE = np.empty(0)


@pytest.mark.parametrize("channel", [0.0, 1.7])
@pytest.mark.parametrize("ducted", [True, False])
def test_jacobian_is_the_derivative_of_the_residual(ducted: bool, channel: float) -> None:
    """At a rough state: radii that wave, strengths that vary, surfaces with any strength."""
    wall = wall_places(0.0, 0.6, 8.0, 1.2, channel, 2.0) if channel else NONE
    if ducted:
        body = surfaces(*duct_contour(DUCT, 12), *hub_contour(HUB, 16), wall, channel)
        edge_x, edge_r = (float(values[0]) for values in duct_contour(DUCT, 12))
    else:
        body, edge_x, edge_r = surfaces(NONE, NONE, NONE, NONE, wall, channel), 0.0, 1.0
    own = body.own() if body.x.size else np.empty((0, 0))
    wake_x = wake_places(edge_x, 0.02, 8.0, 20)
    problem = Problem(body, own, wake_x, edge_r, 0.6, channel)
    count = np.arange(20)
    state = np.concatenate(
        [
            np.cos(np.arange(body.x.size)),
            [0.4],
            edge_r * (1.02 + 0.01 * count + 0.01 * np.sin(count)),
            -0.3 - 0.1 * np.cos(count),
        ]
    )
    _, slope = system(problem, state)
    scale = np.abs(slope).max()
    for column in range(state.size):
        step = np.zeros(state.size)
        step[column] = 1e-6
        difference = (system(problem, state + step)[0] - system(problem, state - step)[0]) / 2e-6
        assert slope[:, column] == pytest.approx(difference, abs=3e-6 * scale, rel=1e-5), column


def test_wake_places_start_short_grow_evenly_and_cover() -> None:
    x = wake_places(0.5, 0.01, 8.0, 30)
    steps = np.diff(x)
    assert x[0] == 0.5
    assert steps[0] == pytest.approx(0.01)
    assert x[-1] == pytest.approx(8.5, rel=1e-9)
    assert steps[1:] / steps[:-1] == pytest.approx(np.full(29, steps[1] / steps[0]))
