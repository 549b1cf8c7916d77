"""The tether that a strike runs on never drives a motion on, whatever the unit of length, and may go slack."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.holding.strike_tether import Tether
from racewright.ledger.holding_struck import held_point, restoring, speed_covers
from tests.dossier.holding_found import found

UNEVEN = np.array([[75053.0, -18795.0, -43454.0], [-23895.0, 13132.0, 33083.0], [-34848.0, 8427.0, 28314.0]])
"""The river example on load in its fastest water, about the machine's reference [N/m, N/rad, N m/rad]."""


def test_even_part_of_a_stable_stiffness_may_drive_on_and_is_mended() -> None:
    shift = np.eye(3)
    shift[1, 2] = -0.3
    about = shift.T @ UNEVEN @ shift
    assert np.linalg.eigvals(UNEVEN).real.min() > 0.0
    assert np.linalg.eigvalsh(0.5 * (about + about.T)).min() < 0.0
    mended = restoring(about, 0.6)
    assert np.linalg.eigvalsh(mended).min() > -1e-9 * abs(mended).max()
    assert np.allclose(mended, mended.T)


def test_a_year_of_logs_meets_the_record_s_speeds() -> None:
    """The allowance of the waters is taken off again where cover goes with speed."""
    held = found().held
    top = float(held.depths[0].intact.stream_speed[-1])
    ((fast, at_top),) = speed_covers(held, 1.0)
    ((slow, below),) = speed_covers(held, 1.25)
    assert (fast, slow) == pytest.approx((top, top / 1.25))
    assert at_top == held_point(held.depths[0].intact, "on load", top).cover
    assert below == held_point(held.depths[0].intact, "on load", top / 1.25).cover
    assert below != at_top


def test_what_restores_is_left_alone() -> None:
    even = np.array([[3.0, 1.0, 0.0], [1.0, 2.0, 0.5], [0.0, 0.5, 4.0]])
    assert np.allclose(restoring(even, 0.6), even)


def test_mending_does_not_hang_on_the_unit_of_length() -> None:
    """The same stiffness in N and mm: scaled back it is mended alike."""
    shift = np.eye(3)
    shift[1, 2] = -0.3
    about = shift.T @ UNEVEN @ shift
    unit = np.diag(
        [1.0, 1.0, 1e3]
    )  # N/mm, N/rad and N mm/rad, over those in metres, are 1e-3 times this from both sides
    small = 1e-3 * unit @ about @ unit
    back = 1e3 * np.linalg.inv(unit) @ restoring(small, 600.0) @ np.linalg.inv(unit)
    assert back == pytest.approx(restoring(about, 0.6), rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("rounding", [0.0, 1e-9, -1e-8])
def test_rounding_beside_the_diagonal_does_not_keep_a_line_taut(rounding: float) -> None:
    """Surge alone in all but rounding: beyond what the pull has stretched it a line holds nothing."""
    stiffness = np.diag([20e3, 5e3, 3e3])
    stiffness[0, 1:] = stiffness[1:, 0] = rounding * 20e3
    x, force = Tether(stiffness, 1e3).law_rows()
    assert np.interp(-0.5, x, force) == pytest.approx(-1e3)


def test_a_coupled_tether_holds_both_ways() -> None:
    stiffness = np.diag([20e3, 5e3, 3e3])
    stiffness[0, 2] = stiffness[2, 0] = 200.0
    x, force = Tether(stiffness, 1e3).law_rows()
    assert np.interp(-0.5, x, force) == pytest.approx(-10e3)
