"""The duct's section is found from throat, exit area ratio, length and thickness."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x, wall_radius
from racewright.machine.duct_section import duct_section

DUCT = Duct(throat_radius=0.5, exit_area_ratio=1.6, length=0.6, thickness=0.15)


@pytest.mark.parametrize(
    ("ratio", "thickness", "length"),
    [(1.01, 0.02, 0.3), (1.3, 0.25, 0.3), *itertools.product((1.3, 1.8), (0.06, 0.12), (0.3, 1.5))],
)
def test_throat_and_exit_are_those_asked_for(ratio: float, thickness: float, length: float) -> None:
    duct = Duct(0.5, ratio, length, thickness)
    x, r = duct_contour(duct, 400)
    assert r[:400].min() == pytest.approx(0.5, rel=3e-6)
    assert r[:400].min() > 0.5 - 1e-12
    assert (r[0] / 0.5) ** 2 == pytest.approx(ratio, rel=1e-12)
    assert wall_radius(duct, throat_x(duct)) == pytest.approx(0.5, rel=1e-12)
    assert math.hypot(x[400] - x[0], r[400] - r[0]) == pytest.approx(length, rel=1e-12)


def test_inner_wall_meets_the_contour() -> None:
    x, r = duct_contour(DUCT, 60)
    assert wall_radius(DUCT, x[:60]) == pytest.approx(r[:60], rel=1e-9)


def test_duct_scales_with_its_size() -> None:
    one, ten = duct_contour(DUCT, 30), duct_contour(Duct(5.0, 1.6, 6.0, 0.15), 30)
    assert ten[0] == pytest.approx(10.0 * one[0], abs=1e-9)
    assert ten[1] == pytest.approx(10.0 * one[1])


def test_duct_that_cannot_open_so_far_is_refused_with_what_can() -> None:
    with pytest.raises(InputError, match=r"exit_area_ratio: .*take 1\.5") as caught:
        duct_section(Duct(0.5, 2.5, 0.2, 0.12))
    assert caught.value.key == "exit_area_ratio"
    most = float(str(caught.value).split("take ")[1].split()[0])
    assert duct_section(Duct(0.5, most - 0.01, 0.2, 0.12)).angle < math.radians(40.0)
    with pytest.raises(InputError):
        duct_section(Duct(0.5, most + 0.01, 0.2, 0.12))


@pytest.mark.parametrize(("ratio", "thickness", "length"), [(1.0, 0.12, 0.6), (1.1, 0.25, 1.5), (1.2, 0.2, 1.5)])
def test_throat_too_far_back_is_refused(ratio: float, thickness: float, length: float) -> None:
    """Such ducts are nozzles: their flow stops at a head coefficient below 0.9."""
    with pytest.raises(InputError, match="exit_area_ratio: the throat would stand at"):
        duct_section(Duct(0.5, ratio, length, thickness))


def test_thin_nose_may_not_stand_across_the_stream() -> None:
    assert duct_section(Duct(0.5, 1.8, 0.6, 0.06)).angle > math.radians(15.0)
    with pytest.raises(InputError, match=r"13 degrees at most; .* or thicker"):
        duct_section(Duct(0.5, 1.8, 0.6, 0.02))


@pytest.mark.parametrize("key", ["throat_radius", "exit_area_ratio", "length", "thickness"])
@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0, 0.0, 1e9])
def test_values_out_of_range_name_their_key(key: str, value: float) -> None:
    with pytest.raises(InputError, match=key):
        duct_contour(replace(DUCT, **{key: value}))


@pytest.mark.parametrize("x", [-0.01, 10.0, float("nan")])
def test_wall_is_asked_only_inside_the_duct(x: float) -> None:
    with pytest.raises(InputError, match="inner wall"):
        wall_radius(DUCT, np.array([0.1, x]))
