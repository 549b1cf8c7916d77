"""The inertia matrix against the energy of a moving body."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.holding.added_mass import cylinder_across, inertia_matrix, spheroid


def test_energy_of_a_body_that_moves_and_turns() -> None:
    """Half v' M v = half m |v + w x c|^2 + half w' I w, for the body and for the water about another point."""
    centre, water_centre = np.array([0.3, -0.1, 0.2]), np.array([-0.2, 0.1, 0.0])
    gyration, added = (0.5, 0.4, 0.3), (50.0, 150.0, 140.0, 5.0, 15.0, 14.0)
    matrix = inertia_matrix(200.0, tuple(centre), gyration, added, tuple(water_centre))
    assert matrix == pytest.approx(matrix.T)
    rng = np.random.default_rng(4)
    for _ in range(5):
        v, w = rng.normal(size=3), rng.normal(size=3)
        at, water_at = v + np.cross(w, centre), v + np.cross(w, water_centre)
        energy = 100.0 * at @ at + 100.0 * np.sum((np.array(gyration) * w) ** 2)
        energy += 0.5 * np.sum(np.array(added[:3]) * water_at**2) + 0.5 * np.sum(np.array(added[3:]) * w**2)
        both = np.concatenate([v, w])
        assert 0.5 * both @ matrix @ both == pytest.approx(energy)


def test_limits_and_refusals() -> None:
    assert cylinder_across(1000.0, 0.5, 1e5) == pytest.approx(1000.0 * np.pi * 0.25 * 1e5, rel=1e-3)
    along, across = spheroid(1000.0, 1.0001, 1.0)
    assert along == pytest.approx(across, rel=1e-3)
    with pytest.raises(InputError):
        spheroid(1000.0, 0.9, 1.0)
    with pytest.raises(InputError):
        inertia_matrix(200.0, (0.0, 0.0, 0.0), (0.0, 1.0, 1.0), (0.0,) * 6)
