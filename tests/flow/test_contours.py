"""Contours that cross themselves, and hubs beyond the sheet."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.flow.contours import check_within_sheet, first_crossing
from racewright.machine.duct_contour import duct_contour
from tests.flow.conftest import DUCT


def test_a_figure_of_eight_is_found_where_it_crosses() -> None:
    x, r = np.array([0.0, 1.0, 1.0, 0.0, 0.0]), np.array([1.0, 2.0, 1.0, 2.0, 1.0])
    assert first_crossing(x, r) == pytest.approx((0.5, 1.5))


@pytest.mark.parametrize("panels", [10, 80])
def test_a_sound_contour_does_not_cross(panels: int) -> None:
    assert first_crossing(*duct_contour(DUCT, panels)) is None


def test_a_hub_beyond_the_sheet_is_refused_at_any_load() -> None:
    sheet_x = np.linspace(0.6, 5.0, 20)
    hub_x, hub_r = np.array([0.0, 0.5, 1.0, 1.5]), np.array([0.0, 0.3, 0.4, 0.0])
    wide, narrow = np.full(20, 0.6), np.full(20, 0.39)
    check_within_sheet(hub_x, hub_r, sheet_x, np.stack([wide, wide]))
    with pytest.raises(InputError, match="hub_r"):
        check_within_sheet(hub_x, hub_r, sheet_x, np.stack([wide, narrow]))
