"""The reduction of a model test: its uncertainties and how they hang together."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from racewright.uncertainty import Input, propagate
from tests.external.record import Record

INPUTS = (
    Input("torque", 2.6, 2.6 * 0.006, source="invented"),
    Input("speed", 3.0, 3.0 * 0.001, source="invented"),
    Input("stream", 1.2, 1.2 * 0.01, source="invented"),
    Input("diameter", 0.4, 0.4 * 0.00125, source="invented"),
    Input("density", 998.2072, 998.2072 * 0.0002, source="invented"),
    Input("thrust", 62.0, 62.0 * 0.008, source="invented"),
)


def reduction(v: Mapping[str, Any]) -> dict[str, Any]:
    """CP, CT and tip-speed ratio of a bare rotor from torque, turns per second, thrust and stream speed."""
    omega = 2.0 * math.pi * v["speed"]
    dynamic = 0.5 * v["density"] * math.pi / 4.0 * v["diameter"] ** 2 * v["stream"] ** 2
    return {
        "CP": v["torque"] * omega / (dynamic * v["stream"]),
        "CT": v["thrust"] / dynamic,
        "TSR": omega * v["diameter"] / (2.0 * v["stream"]),
    }


@pytest.mark.outside(
    source="relative sums of squares of the reduction of a bare rotor, invented inputs",
    status="closed form",
    tolerance="1e-5 of values, 1e-5 (relative parts), Monte Carlo sd within 1 %",
)
def test_reduction_of_a_model_test(record_property: Record) -> None:
    found = propagate(reduction, INPUTS, draws=True, seed=3)
    for name, value, part in (
        ("CP", 0.452200, 0.0307130),
        ("CT", 0.686481, 0.0216862),
        ("TSR", 3.141593, 0.0101273),
    ):
        one = found[name]
        assert one.value == pytest.approx(value, abs=1e-6)
        assert (one.standard_uncertainty or 0.0) / one.value == pytest.approx(part, abs=1e-6)
        assert one.monte_carlo is not None
        assert one.monte_carlo.standard_uncertainty == pytest.approx(one.standard_uncertainty, rel=1e-2)
    r = found.correlation("CP", "CT")
    assert r == pytest.approx(0.91028, abs=1e-5)
    record_property("measured", f"correlation of CP and CT {r:.5f}")
    largest = max(found["CP"].budget, key=lambda line: line.share or 0.0)
    assert largest.name == "stream"
    assert largest.share == pytest.approx((3.0 * 0.01 / 0.0307130) ** 2, rel=1e-5)


@pytest.mark.outside(
    source="Clopper and Pearson (1934): 1 - 0.05^(1/100) and 1 - 0.025^(1/100); 5 of 10 from tables",
    status="closed form",
    tolerance="1e-9; tables 5e-4",
)
def test_binomial_limits(record_property: Record) -> None:
    from racewright.uncertainty import binomial_limits

    upper = binomial_limits(0, 100, sides="upper")
    both = binomial_limits(0, 100)
    assert upper.high == pytest.approx(1.0 - 0.05**0.01, abs=1e-9)
    assert both.high == pytest.approx(1.0 - 0.025**0.01, abs=1e-9)
    assert "2.95 %" in upper.label
    assert "one-sided" in upper.label
    assert "3.62 %" in both.label
    assert "two-sided" in both.label
    assert both.low == upper.low == 0.0
    five = binomial_limits(5, 10)
    assert (five.low, five.high) == pytest.approx((0.1871, 0.8129), abs=5e-4)
    assert binomial_limits(100, 100, sides="lower").low == pytest.approx(0.05**0.01, abs=1e-9)
    record_property("measured", f"0 of 100: upper {100 * upper.high:.3f} %, two-sided {100 * both.high:.3f} %")


@pytest.mark.outside(
    source="first-order autoregressive series: integrated time (1 + phi)/(1 - phi), variance of the mean exact",
    status="closed form",
    tolerance="5 % of the mean of 60 records of 4000 readings, batch means 8 %",
)
@pytest.mark.parametrize("phi", [-0.5, 0.0, 0.5, 0.9])
def test_mean_of_an_autoregressive_series(phi: float, record_property: Record) -> None:
    import numpy as np
    from scipy.signal import lfilter

    from racewright.uncertainty import series_mean

    noise = np.random.default_rng(8).standard_normal((60, 4500))
    found = [series_mean(one[500:]) for one in lfilter([1.0], [1.0, -phi], noise)]
    n = 4000
    lag = np.arange(1, n)
    exact = math.sqrt((1.0 + 2.0 * float(np.sum((1.0 - lag / n) * phi**lag))) / n / (1.0 - phi**2))
    window = float(np.mean([one.standard_uncertainty for one in found])) / exact
    batches = float(np.mean([one.batch_standard_uncertainty for one in found])) / exact
    times = float(np.mean([one.integrated_time for one in found]))
    assert window == pytest.approx(1.0, abs=0.05)
    assert batches == pytest.approx(1.0, abs=0.08)
    assert times == pytest.approx((1.0 + phi) / (1.0 - phi), rel=0.1)
    record_property("measured", f"phi {phi:g}: u {window:.3f}, batches {batches:.3f} of exact")
