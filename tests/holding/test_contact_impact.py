"""Impact of two bodies with friction: closed forms and conservation."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from racewright.holding.contact_impact import impact


def test_direct_blow_without_friction() -> None:
    """Work c^2/(2 nn), impulse (1 + e) c/nn."""
    for e in (0.0, 0.4, 1.0):
        work, normal, along, jam = impact(2.0, 0.5, 0.01, 0.0, 0.02, 0.0, e)
        assert work == pytest.approx(200.0, rel=1e-12)
        assert normal == pytest.approx(200.0 * (1.0 + e), rel=1e-12)
        assert (along, jam) == (0.0, 0.0)


def test_sliding_throughout_scales_the_mass() -> None:
    """While it slides the normal speed changes by nn - mu nt per impulse."""
    work, normal, along, _ = impact(1.0, 5.0, 0.01, 0.002, 0.02, 0.3, 1.0)
    rise = 0.01 - 0.3 * 0.002
    assert work == pytest.approx(0.5 / rise, rel=1e-12)
    assert normal == pytest.approx(2.0 / rise, rel=1e-12)
    assert along == pytest.approx(-0.3 * normal, rel=1e-12)


def test_sticking_from_the_start() -> None:
    """Without slip and with enough friction the place moves as a hinge: nn - nt^2/tt."""
    work, normal, along, _ = impact(1.0, 0.0, 0.01, 0.004, 0.02, 0.5, 0.0)
    assert work == pytest.approx(0.5 / (0.01 - 0.004**2 / 0.02), rel=1e-12)
    assert along == pytest.approx(-0.2 * normal, rel=1e-12)


def test_slip_that_stops_changes_over_within_the_blow() -> None:
    """Slip 0.1 dies at impulse 0.1/(tt mu - nt); before it sliding, after it sticking."""
    nn, nt, tt, mu = 0.01, 0.001, 0.02, 0.4
    stop = 0.1 / (tt * mu - nt)
    slide, stick = nn - mu * nt, nn - nt**2 / tt
    assert stop * slide < 1.0
    left = 1.0 - slide * stop
    work, normal, _, _ = impact(1.0, 0.1, nn, nt, tt, mu, 0.0)
    assert normal == pytest.approx(stop + left / stick, rel=1e-12)
    assert work == pytest.approx(stop - 0.5 * slide * stop**2 + 0.5 * left**2 / stick, rel=1e-12)


def test_no_energy_is_gained() -> None:
    """Over random blows kinetic energy falls, and without friction an elastic blow keeps it."""
    random = np.random.default_rng(3)
    for _ in range(500):
        nn, tt = random.uniform(0.01, 0.05, 2)
        nt = random.uniform(-0.9, 0.9) * sqrt(nn * tt) * 0.9
        closing, slip = random.uniform(0.1, 3.0), random.uniform(-3.0, 3.0)
        friction, e = random.uniform(0.0, 0.6), random.uniform(0.0, 1.0)
        _, n, t, jam = impact(closing, slip, nn, nt, tt, friction, e)
        gained = -closing * n + slip * t + 0.5 * (nn * n * n + 2.0 * nt * n * t + tt * t * t)
        assert jam or gained <= 1e-9 * closing**2 / nn
        assert abs(t) <= friction * n * (1.0 + 1e-12)
        _, n, t, _ = impact(closing, slip, nn, nt, tt, 0.0, 1.0)
        assert -closing * n + 0.5 * nn * n * n == pytest.approx(0.0, abs=1e-9 * n)


def test_a_jam_is_said() -> None:
    """nn - mu nt below 0: the blow presses itself in (Painleve's paradox)."""
    assert impact(1.0, 1.0, 0.01, 0.03, 0.1, 0.5, 0.0)[3] == 1.0
