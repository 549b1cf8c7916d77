"""Two series of one model brought to common loads; shared errors told from own ones."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from racewright.trials.load_points import LoadPoint, load_points, same_loads, shared_correlation
from racewright.trials.record_series import beside, partner
from racewright.trials.result import Source


def curve(ratio: float) -> float:
    """A power curve with its top at 1.9."""
    return 0.48 - 0.09 * (ratio - 1.9) ** 2


def series(ratios: tuple[float, ...], factor: float = 1.0) -> list[LoadPoint]:
    """Points of the curve times a factor; 1 % of noise, 2 % of one calibration."""
    found = []
    for ratio in ratios:
        power, thrust = factor * curve(ratio), factor * (1.0 - 0.1 * ratio)
        shared = {"probe: calibration fit": (0.02 * power, 0.02 * thrust)}
        found.append(LoadPoint((0,), ratio, (power, thrust), (0.01 * power, 0.01 * thrust), shared))
    return found


WIDE = series((1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3))
NARROW = series((1.45, 2.02, 2.66), 1.03)


def test_series_without_a_common_load_are_brought_together() -> None:
    """The narrow series lies 3 % above everywhere: so does its interpolated partner at every load it reaches.

    Taken straight between its own three loads it would be 1.2 % low at a ratio of 2.4.
    """
    for point in WIDE:
        found = partner(point, WIDE, NARROW)
        if not 1.42 < point.tip_speed_ratio < 2.72:
            assert found is None
            continue
        assert found is not None
        assert found.value[0] == pytest.approx(1.03 * curve(point.tip_speed_ratio), rel=1e-3)
        assert found.value[1] == pytest.approx(1.03 * (1.0 - 0.1 * point.tip_speed_ratio), rel=1e-3)
    straight = float(np.interp(2.4, [2.02, 2.66], [p.value[0] for p in NARROW[1:]]))
    assert straight < 0.99 * 1.03 * curve(2.4)
    for point in NARROW:
        back = partner(point, NARROW, WIDE)
        assert back is not None
        assert back.value[0] == pytest.approx(curve(point.tip_speed_ratio), rel=1e-3)


def test_interpolation_adds_its_own_doubt() -> None:
    (point,) = series((2.25,))
    doubts = []
    for ratios in ((1.2, 1.9, 2.6, 3.3), (1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3)):
        quiet = [replace(p, own=(0.0, 0.0)) for p in series(ratios)]
        found = partner(point, [point], quiet)
        assert found is not None
        doubts.append(found.own[0])
    assert doubts[0] > 4.0 * doubts[1] > 0.0


def test_series_that_do_not_meet_have_no_partner() -> None:
    assert beside(series((1.0, 1.2, 1.4)), series((2.0, 2.2, 2.4))) is None
    two = series((1.5, 2.5))
    assert partner(two[0], two, series((2.0,))) is None, "two loads do not make a curve"
    assert partner(two[0], two, series((1.51,))) is not None


def test_errors_of_one_calibration_are_shared_and_noise_is_not() -> None:
    one, other = WIDE[1], NARROW[0]
    assert shared_correlation(one, other, 0) == pytest.approx(0.02**2 / (0.02**2 + 0.01**2))
    apart = LoadPoint((0,), 1.5, one.value, one.own, {"another": (0.01, 0.01)})
    assert shared_correlation(one, apart, 0) == 0.0


def window(ratio: float, power: float) -> Any:
    kinds = (("scatter of the window", "random", 0.03), ("torque: zero", "systematic", 0.004),
             ("torque: calibration fit", "systematic", 0.02))  # fmt: skip
    sources = tuple(Source(name, kind, np.full(4, size), np.full(4, 50.0)) for name, kind, size in kinds)
    return SimpleNamespace(
        tip_speed_ratio=SimpleNamespace(value=ratio),
        power_coefficient=SimpleNamespace(value=power),
        thrust_coefficient=SimpleNamespace(value=2.0 * power),
        sources=sources,
    )


def test_windows_of_a_load_are_one_point_whose_scatter_falls() -> None:
    assert same_loads([2.0, 1.5, 2.03, 1.49, 2.2]) == ((1, 3), (0, 2), (4,))
    one, four = load_points([window(2.0, 0.4)])[0], load_points([window(2.0, 0.4)] * 4)[0]
    assert four.members == (0, 1, 2, 3)
    assert one.own[0] == pytest.approx(0.4 * np.hypot(0.03, 0.004))
    assert four.own[0] == pytest.approx(0.4 * np.hypot(0.015, 0.004)), "the zero of a run does not fall"
    assert four.shared == {"torque: calibration fit": pytest.approx((0.008, 0.016))}
