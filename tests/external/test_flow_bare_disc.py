"""A bare disc with a free sheet against one-dimensional momentum theory."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.flow.bare_disc import bare_disc
from tests.external.record import Record


@pytest.mark.outside(
    source="actuator-disc momentum theory (Froude): u = (1 + w)/2",
    status="closed form",
    tolerance="0.1 % to CH 0.8, 0.3 % to 0.95",
)
def test_speed_at_the_disc_is_the_mean_of_stream_and_far_wake(record_property: Record) -> None:
    disc = bare_disc()
    assert disc.converged.all()
    off = np.abs(disc.speed_ratio / (0.5 * (1.0 + np.sqrt(1.0 - disc.head_coefficient))) - 1.0)
    record_property("measured", f"{100.0 * off.max():.2f} % at most")
    assert off[disc.head_coefficient <= 0.8].max() < 1e-3
    assert off.max() < 3e-3


@pytest.mark.outside(
    source="actuator-disc momentum theory: largest power coefficient 16/27 at CH 8/9 (Betz)",
    status="closed form",
    tolerance="0.3 %",
)
def test_largest_power_of_a_bare_disc(record_property: Record) -> None:
    disc = bare_disc((0.0, 0.4, 0.7, 8.0 / 9.0))
    largest = disc.head_coefficient[-1] * disc.speed_ratio[-1]
    record_property("measured", f"{100.0 * (largest * 27.0 / 16.0 - 1.0):+.2f} %")
    assert largest == pytest.approx(16.0 / 27.0, rel=3e-3)
