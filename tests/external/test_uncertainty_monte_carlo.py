"""Propagation of distributions against JCGM 101:2008 and closed forms."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from racewright.uncertainty import Correlation, Input, propagate, rectangular
from racewright.uncertainty.monte_carlo import MonteCarlo
from racewright.uncertainty.result import Output
from tests.external.gum_rows import expected
from tests.external.record import Record

MICRO = 1e-6


def _sum(v: Mapping[str, Any]) -> dict[str, Any]:
    return {"y": v["x1"] + v["x2"] + v["x3"] + v["x4"]}


def _squares(v: Mapping[str, Any]) -> dict[str, Any]:
    return {"y": v["x1"] ** 2 + v["x2"] ** 2}


def _drawn(one: Output) -> MonteCarlo:
    assert one.monte_carlo is not None
    return one.monte_carlo


def _many(shapes: list[Input]) -> Output:
    """A million draws: two digits of an uncertainty of 2 or 10 would settle earlier, so a third is asked for."""
    return propagate(_sum, shapes, draws=True, seed=20, digits=2)["y"]


@pytest.mark.outside(
    source="JCGM 101:2008, 9.2.2, four normal inputs", status="closed form", tolerance="1e-5; draws 0.03"
)
def test_four_normal_inputs() -> None:
    found = _many([Input(f"x{i}", 0.0, 1.0) for i in (1, 2, 3, 4)])
    wanted = expected("JCGM101 9.2.2 four N(0,1)", "half width 95%")
    assert found.expanded == pytest.approx(wanted, abs=1e-5)
    drawn = _drawn(found)
    assert drawn.settled
    assert drawn.first_order_agrees
    assert 0.5 * (drawn.high - drawn.low) == pytest.approx(wanted, abs=0.03)


@pytest.mark.outside(
    source="JCGM 101:2008, 9.2.3 and 9.2.4, rectangular inputs of sd 1,1,1,1 and 1,1,1,10; exact half-widths",
    status="closed form",
    tolerance="0.01 and 0.02 at 1e6 draws; first order 1e-5 (3.919928 and 19.891462, which are wrong here)",
)
def test_rectangular_inputs(record_property: Record) -> None:
    from racewright.uncertainty.correlation import correlation_matrix
    from racewright.uncertainty.draws import Draws
    from racewright.uncertainty.intervals import symmetric

    said = []
    for widths, exact, normal, bar in (
        ((1.0, 1.0, 1.0, 1.0), 2.0 * 3.0**0.5 * (2.0 - 0.6**0.25), 3.919928, 0.01),
        ((1.0, 1.0, 1.0, 10.0), expected("JCGM101 9.2.4", "half width 95% exact"), 19.891462, 0.02),
    ):
        inputs = [rectangular(f"x{i}", 0.0, w * 3.0**0.5) for i, w in enumerate(widths, 1)]
        first = propagate(_sum, inputs)["y"]
        assert first.expanded == pytest.approx(normal, abs=1e-5)
        draws = Draws(inputs, correlation_matrix([one.name for one in inputs], ()), seed=7).take(1_000_000)
        draws = draws.sum(axis=0)
        draws.sort()
        low, high = symmetric(draws, 0.95)
        said.append(f"half-width {0.5 * (high - low):.3f} of {exact:.3f}")
        assert 0.5 * (high - low) == pytest.approx(exact, abs=bar)
        assert _drawn(_many(inputs)).high == pytest.approx(exact, abs=20.0 * bar)
    assert not _drawn(_many(inputs)).first_order_agrees
    record_property("measured", "; ".join(said))


@pytest.mark.outside(
    source="JCGM 101:2008, 9.3, mass calibration: first order 0.0539 mg, distribution 0.0754 mg",
    status="published",
    tolerance="first order 1e-6 mg, mean 1e-3, u 5e-4 mg, interval ends 3e-3 mg",
)
def test_mass_calibration(record_property: Record) -> None:
    inputs = [
        Input("reference", 100_000.0, 0.050),
        Input("difference", 1.234, 0.020),
        rectangular("air", 1.20, 0.10),
        rectangular("weight", 8000.0, 1000.0),
        rectangular("standard", 8000.0, 50.0),
    ]

    def mass(v: Mapping[str, Any]) -> dict[str, Any]:
        lift = (v["air"] - 1.2) * (1.0 / v["weight"] - 1.0 / v["standard"])
        return {"m": (v["reference"] + v["difference"]) * (1.0 + lift) - 100_000.0}

    found = propagate(mass, inputs, draws=True, seed=11)["m"]
    drawn = _drawn(found)
    case = "JCGM101 9.3"
    wanted = expected(f"{case} mass calibration", "GUF first order u mg")
    assert found.standard_uncertainty == pytest.approx(wanted, abs=1e-6)
    assert found.second_order is not None
    assert found.second_order.fails
    assert drawn.mean == pytest.approx(expected(case, "exact mean mg"), abs=1e-3)
    assert drawn.standard_uncertainty == pytest.approx(expected(case, "exact u mg"), abs=5e-4)
    assert drawn.shortest_low == pytest.approx(expected(case, "shortest 95% low mg"), abs=3e-3)
    assert drawn.shortest_high == pytest.approx(expected(case, "shortest 95% high mg"), abs=3e-3)
    record_property("measured", f"mass u {drawn.standard_uncertainty:.4f} mg")


@pytest.mark.outside(
    source="JCGM 101:2008, 9.4, comparison loss with zero estimate: exponential, 95 % shortest [0, 149.79e-6]",
    status="closed form",
    tolerance="u 0.5e-6 (first order says 0 and is flagged), interval 0.5e-6 and 1.5e-6",
)
@pytest.mark.parametrize(("r", "spread", "top", "bar"), [(0.0, 50.0, 149.787, 0.5), (0.9, 67.268, 185.0, 1.5)])
def test_comparison_loss_with_zero_estimate(
    r: float, spread: float, top: float, bar: float, record_property: Record
) -> None:
    inputs = [Input("x1", 0.0, 0.005), Input("x2", 0.0, 0.005)]
    pair = [Correlation("x1", "x2", r)] if r else []
    found = propagate(_squares, inputs, correlations=pair, draws=True, seed=4)["y"]
    drawn = _drawn(found)
    assert found.standard_uncertainty == 0.0
    assert found.second_order is not None
    assert found.second_order.fails
    assert any(one.about == "first order" for one in found.remarks)
    assert found.second_order.mean_shift == pytest.approx(50.0 * MICRO, rel=1e-9)
    assert found.second_order.standard_uncertainty == pytest.approx(50.0 * MICRO * math.sqrt(1.0 + r * r), rel=1e-9)
    assert drawn.mean == pytest.approx(50.0 * MICRO, abs=0.5 * MICRO)
    assert drawn.standard_uncertainty == pytest.approx(spread * MICRO, abs=0.5 * MICRO)
    assert drawn.shortest_low == pytest.approx(0.0, abs=0.1 * MICRO)
    assert drawn.shortest_high == pytest.approx(top * MICRO, abs=bar * MICRO)
    record_property("measured", f"9.4 shortest to {drawn.shortest_high / MICRO:.1f}e-6 at r {r:g}")


@pytest.mark.outside(
    source="JCGM 101:2008, 9.4, estimates 0.010 and 0.050, no correlation",
    status="computed",
    tolerance="u 0.5 %, shortest interval 1 and 12e-6",
)
@pytest.mark.parametrize(
    ("x1", "y", "u", "low", "high", "bar"),
    [
        (0.010, 150.0, 111.803, 0.0, 366.5, 1.5),
        (0.050, 2550.0, 502.494, 1590.0, 3545.0, 12.0),
    ],
)
def test_comparison_loss(x1: float, y: float, u: float, low: float, high: float, bar: float) -> None:
    found = _drawn(propagate(_squares, [Input("x1", x1, 0.005), Input("x2", 0.0, 0.005)], draws=True, seed=5)["y"])
    assert found.mean == pytest.approx(y * MICRO, rel=5e-3)
    assert found.standard_uncertainty == pytest.approx(u * MICRO, rel=5e-3)
    assert found.shortest_low == pytest.approx(low * MICRO, abs=bar * MICRO)
    assert found.shortest_high == pytest.approx(high * MICRO, abs=bar * MICRO)


@pytest.mark.outside(
    source="E[U^-3] for normal U of 1 %: 1 + 6 u^2 + 45 u^4 (series)", status="closed form", tolerance="1e-4"
)
def test_cubic_mean_bias(record_property: Record) -> None:
    found = propagate(lambda v: {"cp": v["U"] ** -3.0}, [Input("U", 1.0, 0.01)], draws=True, seed=6, cap=400_000)[
        "cp"
    ]
    assert _drawn(found).mean == pytest.approx(1.0006, abs=1.5e-4)
    assert found.second_order is not None
    assert 1.0 + found.second_order.mean_shift == pytest.approx(1.0006, abs=1e-6)
    record_property("measured", f"cube bias 1{found.second_order.mean_shift:+.6f}")
