"""Random machines: every load converges or says why, and what is returned agrees with momentum."""

from __future__ import annotations

import pytest

from tests.flow.random_machines import outcome


@pytest.mark.outside(
    source="momentum theory of a ducted disc: CT of duct and hub = (1 - w)(2 u - 1 - w)",
    status="closed form",
    tolerance="the larger of 0.005 CH and 0.004 (80/N)^2 at N = 30 panels a side, 60 machines, 12 loads to CH 0.95",
)
def test_random_machines_converge_and_agree_with_momentum() -> None:
    found = [outcome(seed, 30, 40) for seed in range(60)]
    assert sum(one.converged for one in found) >= 59
    assert all(one.converged or "the duct clogs" in one.why for one in found)
    assert all(one.finite for one in found)
    assert max(one.mismatch for one in found) < 1.0
