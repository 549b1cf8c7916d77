"""The least width told without the section against the contour itself, over ducts drawn at random."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.duct_width import least_across


def drawn(rng: np.random.Generator) -> Duct:
    low, high = np.array([1.0, 0.4, 0.02, 0.5]), np.array([2.2, 2.0, 0.25, 2.0])
    exit_area, length, thickness, lip = (low + (high - low) * rng.random(4)).tolist()
    kind = rng.integers(3)
    inlet = 1.0 + 0.8 * rng.random() if kind == 1 else None
    camber = math.radians(-20.0 + 60.0 * rng.random()) if kind == 2 else 0.0
    return Duct(0.5, exit_area, length, thickness, inlet, camber, lip)


def test_no_duct_is_narrower_than_it_is_said_to_be_at_least() -> None:
    """1e-6: panel ends miss the thickest place by less."""
    rng, found = np.random.default_rng(7), []
    while len(found) < 60:
        duct = drawn(rng)
        try:
            _x, r = duct_contour(duct)
        except InputError:
            continue
        found.append(least_across(duct) / (2.0 * float(r.max())))
    assert max(found) <= 1.0 + 1e-6
    assert np.median(found) > 0.97


def test_the_example_model_is_told_to_about_a_hundredth() -> None:
    duct = Duct(0.215, 1.5, 0.43, 0.14)
    _x, r = duct_contour(duct)
    assert least_across(duct) == pytest.approx(2.0 * r.max(), rel=0.014)
    assert least_across(duct) > 0.53
