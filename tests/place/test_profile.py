"""Vertical profile: quadrature against an independent one, discs cut by bed and surface, limits."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad

from racewright.errors import InputError
from racewright.place.profile import cube_mean_speed, speed_at


def _reference(depth: float, hub: float, radius: float, n: float) -> float:
    """Adaptive quadrature over strips, ends softened by a sine-squared map."""
    low, high = max(0.0, hub - radius), min(depth, hub + radius)

    def over(power: float) -> float:
        def f(t: float) -> float:
            z = low + (high - low) * np.sin(t) ** 2
            strip = np.sqrt(max(radius**2 - (z - hub) ** 2, 0.0))
            return float(strip * ((1 + 1 / n) * (z / depth) ** (1 / n)) ** power * np.sin(2 * t))

        return float(quad(f, 0.0, np.pi / 2, epsabs=1e-13, epsrel=1e-12, limit=400)[0])

    return float(np.cbrt(over(3.0) / over(0.0)))


@pytest.mark.parametrize("n", [2.0, 6.0, 7.0, 20.0])
@pytest.mark.parametrize(
    ("depth", "hub", "radius"),
    [(3.0, 2.0, 0.5), (3.0, 0.5, 0.5), (3.0, 0.2, 0.5), (3.0, 2.9, 0.5), (1.0, 0.4, 0.8)],
)
def test_cube_mean_equals_independent_quadrature(n: float, depth: float, hub: float, radius: float) -> None:
    """Whole discs, one that touches the bed, and discs cut by bed, surface or both; the promise is 1e-6."""
    found = float(cube_mean_speed(1.0, depth, hub, radius, n))
    assert found == pytest.approx(_reference(depth, hub, radius, n), rel=1e-7)


def test_a_small_disc_has_the_speed_of_its_centre() -> None:
    assert float(cube_mean_speed(1.7, 4.0, 2.5, 1e-3, 6.0)) == pytest.approx(
        float(speed_at(1.7, 4.0, 2.5, 6.0)), rel=1e-7
    )


def test_dry_and_still_water_give_zero() -> None:
    np.testing.assert_array_equal(cube_mean_speed([1.0, 1.0, 0.0], [0.0, 1.0, 2.0], [0.5, 1.6, 1.0], 0.5), 0.0)


def test_bad_arguments_are_refused() -> None:
    for n in (1.0, np.nan, 50.0):
        with pytest.raises(InputError, match="profile's n"):
            speed_at(1.0, 1.0, 0.5, n)
    for depth, height in ((0.0, 0.0), (1.0, 1.1), (1.0, -0.1), (np.nan, 0.5)):
        with pytest.raises(InputError, match="in the water"):
            speed_at(1.0, depth, height)
    with pytest.raises(InputError, match="finite"):
        cube_mean_speed(np.nan, 1.0, 0.5, 0.2)
    with pytest.raises(InputError, match="radius"):
        cube_mean_speed(1.0, 1.0, 0.5, 0.0)
