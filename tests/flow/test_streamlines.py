"""Streamlines: constant psi, clear of walls, smooth, captured or not."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.flow.contours import hub_radius_at, inner_side
from racewright.flow.field import stream_function
from racewright.flow.result import Axisymmetric
from racewright.flow.streamlines import streamlines


@pytest.mark.parametrize("load", [0, 9, 13])
def test_lines_keep_their_psi_and_their_side(flow: Axisymmetric, load: int) -> None:
    lines = streamlines(flow, load, 5, 3, -1.5, 3.0)
    assert lines.captured == (True,) * 5 + (False,) * 3
    edge = flow.speed_ratio[load] * flow.annulus_area / (2.0 * math.pi)
    wall_x, wall_r = inner_side(flow.duct_x, flow.duct_r)
    for x, r, captured in zip(lines.x, lines.r, lines.captured, strict=True):
        psi = stream_function(flow, load, x, r)
        assert psi == pytest.approx(np.full(x.size, psi[0]), rel=1e-6)
        assert (psi[0] < edge) == captured
        inside = (x > wall_x[0]) & (x < wall_x[-1])
        wall = np.interp(x[inside], wall_x, wall_r)
        assert np.all(r[inside] < wall) if captured else np.all(r[inside] > wall)
        assert np.all(r >= [hub_radius_at(flow.hub_x, flow.hub_r, float(p)) for p in x])


def test_lines_do_not_cross_and_are_smooth(flow: Axisymmetric) -> None:
    lines = streamlines(flow, 9, 8, 6, -1.0, 2.0)
    radii = np.stack(lines.r)
    assert np.all(np.diff(radii, axis=0) > 0.0)
    slopes = np.diff(radii, axis=1) / np.diff(lines.x[0])
    assert np.max(np.abs(np.diff(slopes[1:6], axis=1))) < 0.1


def test_speed_on_a_captured_line_is_that_of_the_rotor(flow: Axisymmetric) -> None:
    lines = streamlines(flow, 9, 4, 0, -1.0, 2.0)
    nearest = int(np.argmin(np.abs(lines.x[2] - 0.1)))
    assert lines.speed[2][nearest] == pytest.approx(flow.speed_ratio[9], rel=0.15)
    assert lines.speed[2][0] == pytest.approx(1.0, abs=0.1)


def test_wrong_counts_and_places_are_refused(flow: Axisymmetric) -> None:
    for given, message in (
        ((-1, 2, -1.0, 2.0), "count_inside"),
        ((2, 201, -1.0, 2.0), "count_outside"),
        ((2, 2, 0.1, 2.0), "x_from"),
        ((2, 2, float("nan"), 2.0), "x_from"),
        ((2, 2, -1.0, 0.3), "x_to"),
        ((2, 2, -1.0, 1e4), "x_to"),
    ):
        with pytest.raises(InputError, match=message):
            streamlines(flow, 0, *given)
