"""The acceptance lines on random strikes at a reduced count; the proof runs 200."""

from __future__ import annotations

import pytest

from tests.holding.random_strikes import central_strikes, random_strikes


def test_random_strikes() -> None:
    found = random_strikes(12)
    assert found.steps >= 50
    assert found.halved_first < 0.01
    assert found.halved_slow < 0.01
    assert found.estimate < 0.02
    assert found.tenfold < 0.06
    assert found.work < 1e-3
    assert found.slow_within >= 0.9


def test_central_strikes_against_closed_forms() -> None:
    """Two-phase closed form of a central blow, elastic and plastic, against the integration."""
    found = central_strikes(8)
    assert found.first < 0.02
    assert found.elastic < 0.02
    assert found.plastic < 0.02


def test_same_seed_same_answer() -> None:
    assert central_strikes(2, seed=5) == central_strikes(2, seed=5)
    assert central_strikes(2, seed=5) != pytest.approx(central_strikes(2, seed=6))
