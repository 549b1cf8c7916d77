"""The hub's contour."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour, hub_radius

HUB = Hub(radius=0.1, nose_x=-0.05, nose_length=0.15, cylinder_length=0.3, tail_length=0.3)


@pytest.mark.parametrize("hub", [HUB, replace(HUB, cylinder_length=0.0), replace(HUB, tail_length=1.2)])
@pytest.mark.parametrize("panels", [16, 61, 200])
def test_points_run_from_nose_to_tail_on_the_body(hub: Hub, panels: int) -> None:
    x, r = hub_contour(hub, panels)
    assert x.shape == r.shape == (panels + 1,)
    assert r[0] == r[-1] == 0.0
    assert x[0] == pytest.approx(-0.05)
    assert x[-1] == pytest.approx(hub.nose_x + hub.nose_length + hub.cylinder_length + hub.tail_length)
    assert np.all(np.diff(x) > 0.0)
    assert r[1:-1] == pytest.approx(hub_radius(hub, x[1:-1]), rel=1e-7)


def test_radius_is_zero_off_the_body_and_full_on_the_cylinder() -> None:
    assert hub_radius(HUB, np.array([-1.0, 0.2, 5.0])) == pytest.approx([0.0, 0.1, 0.0])


@pytest.mark.parametrize("key", ["radius", "nose_x", "nose_length", "cylinder_length", "tail_length"])
@pytest.mark.parametrize("value", [float("nan"), float("inf"), 1e9])
def test_values_out_of_range_name_their_key(key: str, value: float) -> None:
    with pytest.raises(InputError, match=key):
        hub_contour(replace(HUB, **{key: value}))


def test_negative_length_and_bad_count_are_refused() -> None:
    with pytest.raises(InputError, match="tail_length"):
        hub_contour(replace(HUB, tail_length=0.0))
    with pytest.raises(InputError, match="panels"):
        hub_contour(HUB, 15)
    with pytest.raises(InputError, match="x is not a number"):
        hub_radius(HUB, float("nan"))
