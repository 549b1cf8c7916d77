"""Row factor, camber factor, friction, roots, mean line, cover: their own properties."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.stage.camber_factor import camber_factor
from racewright.stage.cover import drawing_air_cover
from racewright.stage.friction import smooth_friction, transition_reynolds
from racewright.stage.meanline import axial_meanline, meanline
from racewright.stage.root import bracketed_root, rising_root
from racewright.stage.row_factor import row_factor

Floats = NDArray[np.float64]


@pytest.mark.parametrize("pitch_over_chord", [0.5, 0.8, 1.0, 4.0, 1e3])
@pytest.mark.parametrize("stagger", [-70.0, -30.0, 0.0, 50.0, 65.0])
def test_row_factor_solves_the_map(pitch_over_chord: float, stagger: float) -> None:
    """R from the answer, put into the map's own relations, returns chord/pitch and A to 1e-9."""
    found = row_factor(1.0 / pitch_over_chord, np.radians(stagger))
    g = np.radians(abs(stagger))
    big = 1.0 / np.tanh(0.5 * float(found.map_y))
    p = np.arctan((big**2 - 1.0) / (big**2 + 1.0) * np.tan(g))
    wide = 2.0 * big * np.cos(p)
    solidity = (2.0 / np.pi) * (
        np.cos(g) * 0.5 * np.log((big**2 + wide + 1.0) / (big**2 - wide + 1.0))
        + np.sin(g) * np.arctan(2.0 * big * np.sin(p) / (big**2 - 1.0))
    )
    assert solidity * pitch_over_chord == pytest.approx(1.0, abs=2e-9)
    x = np.pi * float(found.factor) * np.cos(g) / (2.0 * pitch_over_chord)
    assert (1.0 - x) / (1.0 + x) == pytest.approx(float(found.transmission), abs=1e-9)


def test_unstaggered_row_is_exact() -> None:
    """A = exp(-pi c/s), K = (2s/(pi c)) tanh(pi c/(2s)); alone K = 1."""
    solidity = np.array([0.0, 1e-12, 0.1, 1.0, 3.3])
    found = row_factor(solidity, 0.0)
    assert found.transmission == pytest.approx(np.exp(-np.pi * solidity), abs=1e-13)
    assert found.factor[:2] == pytest.approx([1.0, 1.0], abs=1e-12)
    assert found.factor[2:] == pytest.approx(np.tanh(0.5 * np.pi * solidity[2:]) / (0.5 * np.pi * solidity[2:]))


def test_row_factor_refuses() -> None:
    for solidity, stagger in ((-0.1, 0.0), (np.nan, 0.0), (9.0, 0.0), (1.0, 1.5705)):
        with pytest.raises(InputError):
            row_factor(solidity, stagger)


def test_camber_factor_alone() -> None:
    assert camber_factor(np.zeros(3), np.radians([0.0, 40.0, -70.0])) == pytest.approx(0.25, abs=1e-6)


@pytest.mark.parametrize(("solidity", "stagger"), [(1.0, 0.0), (1.0, 30.0), (0.5, -60.0), (1.0, 60.0), (2.0, 20.0)])
def test_camber_factor_against_a_lattice(solidity: float, stagger: float) -> None:
    """Zero-lift direction of a parabolic camber line in a row by a vortex lattice along the chord, 400
    vortices.
    """
    g = np.radians(stagger)
    found = camber_factor(row_factor(np.array([solidity]), np.array([g])).map_y, np.array([g]))[0]
    assert found == pytest.approx(_lattice_camber_factor(solidity, g), abs=2e-5)


def _lattice_camber_factor(solidity: float, stagger: float) -> float:
    """Ratio of total circulations for slope x/c and slope 1; pitch 1, vortices at 1/4, points at 3/4 of
    panels.
    """
    count = 400
    x = solidity * (np.arange(count) / count - 0.5)
    turn = np.exp(1j * stagger)
    vortex, point = (x + 0.25 * solidity / count) * turn, (x + 0.75 * solidity / count) * turn
    gap = point[:, None] - vortex[None, :]
    velocity = 1.0 / (2j * np.tanh(np.pi * gap))
    normal = -(velocity * turn).imag
    along = (point / turn).real / solidity
    strength = np.linalg.solve(normal, np.stack([along, np.ones(count)], axis=1))
    camber, incidence = strength.sum(axis=0)
    return float(camber / incidence)


def test_friction_is_continuous_and_laminar_first() -> None:
    reynolds = np.geomspace(1e2, 1e9, 40001)
    for at in (6e4, 5e5, 3e6):
        drag = smooth_friction(reynolds, np.array(at))
        assert np.max(np.abs(np.diff(np.log(drag)))) < 2e-3
        assert np.all(drag > 0.0)
    assert transition_reynolds(0.0) > transition_reynolds(0.01) > transition_reynolds(0.1) > 5e4


def test_roots_of_many_equations() -> None:
    wanted = np.array([-3.0, 0.1, 2.0, 50.0])
    low, high = wanted - 5.0, wanted + 9.0
    found = bracketed_root(lambda x: np.expm1(x - wanted), low, high, tolerance=1e-14)
    assert found == pytest.approx(wanted, abs=1e-13)
    with pytest.raises(NoAnswerError):
        bracketed_root(lambda x: x - 20.0, np.zeros(1), np.ones(1), tolerance=1e-12)


def test_rising_root_survives_a_corner() -> None:
    """Flat on one side, steep on the other: the secant steps fail, the bracket does not."""
    wanted = np.array([4.0, -7.0])

    def corner(x: Floats) -> Floats:
        d = x - wanted
        return np.where(d > 0.0, 1e-6 * d, np.expm1(np.minimum(30.0 * d, 0.0)))

    found = rising_root(corner, np.array([-20.0, 60.0]), np.ones(2), tolerance=1e-15)
    assert found == pytest.approx(wanted, abs=1e-8)
    with pytest.raises(NoAnswerError):
        rising_root(lambda x: np.tanh(x) - 2.0, np.zeros(1), np.ones(1), tolerance=1e-12)


def test_meanline_forms_and_refusals() -> None:
    stage = meanline(0.7, 0.6, -0.2)
    assert stage.work_coefficient == pytest.approx(0.7 * (np.tan(0.6) + np.tan(0.2)))
    assert np.tan(stage.relative_angle_in) - np.tan(stage.relative_angle_out) == pytest.approx(
        np.tan(stage.vane_exit_angle) - np.tan(stage.exit_angle)
    )
    with pytest.raises(InputError):
        meanline(0.0, 0.1)
    with pytest.raises(InputError):
        meanline(1.0, 1.6)
    with pytest.raises(InputError):
        axial_meanline(1.0, float("nan"))


def test_cover() -> None:
    """u 1.2, CH 0.6, 2.5 m/s: (0.44 + 0.6) x 0.31866 m; nothing where the static head rises."""
    assert drawing_air_cover(1.2, 0.6, 2.5) == pytest.approx(1.04 * 6.25 / 19.6133)
    assert drawing_air_cover(0.5, 0.2, 2.5) == 0.0
    with pytest.raises(InputError):
        drawing_air_cover(1.0, 1.2, 2.0)
