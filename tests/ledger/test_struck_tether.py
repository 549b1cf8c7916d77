"""The tether that a strike runs on never drives a motion on."""

from __future__ import annotations

import numpy as np

from racewright.ledger.holding_struck import restoring

UNEVEN = np.array([[75053.0, -18795.0, -43454.0], [-23895.0, 13132.0, 33083.0], [-34848.0, 8427.0, 28314.0]])
"""The river example on load in its fastest water, about the machine's reference [N/m, N/rad, N m/rad]."""


def test_even_part_of_a_stable_stiffness_may_drive_on_and_is_mended() -> None:
    shift = np.eye(3)
    shift[1, 2] = -0.3
    about = shift.T @ UNEVEN @ shift
    assert np.linalg.eigvals(UNEVEN).real.min() > 0.0
    assert np.linalg.eigvalsh(0.5 * (about + about.T)).min() < 0.0
    mended = restoring(about)
    assert np.linalg.eigvalsh(mended).min() > -1e-9 * abs(mended).max()
    assert np.allclose(mended, mended.T)


def test_what_restores_is_left_alone() -> None:
    even = np.array([[3.0, 1.0, 0.0], [1.0, 2.0, 0.5], [0.0, 0.5, 4.0]])
    assert np.allclose(restoring(even), even)
