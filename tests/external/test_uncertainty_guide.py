"""Propagation of uncertainty against the worked examples of the guide (JCGM 100:2008)."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest

from racewright.uncertainty import (
    Correlation,
    Input,
    coverage_factor,
    effective_dof,
    propagate,
    simultaneous,
    type_a,
)
from tests.external.gum_rows import expected, readings
from tests.external.record import Record

GAUGE = (
    Input("standard", 50_000_623.0, 25.0, 18.0),
    Input("comparator", 215.0, 9.7, 25.6),
    Input("expansion_difference", 0.0, 0.58e-6, 50.0),
    Input("temperature_difference", 0.0, 0.029, 2.0),
    Input("expansion", 11.5e-6, 1.2e-6),
    Input("temperature", -0.1, 0.41),
)


def gauge(v: Mapping[str, Any]) -> dict[str, Any]:
    """Length of the gauge block of example H.1 in nm, its equation (H.3)."""
    thermal = v["expansion_difference"] * v["temperature"] + v["expansion"] * v["temperature_difference"]
    return {"length": v["standard"] + v["comparator"] - v["standard"] * thermal}


def impedance(v: Mapping[str, Any]) -> dict[str, Any]:
    """Resistance, reactance and impedance of example H.2."""
    z = v["V"] / (1e-3 * v["I"])
    return {"R": z * np.cos(v["phi"]), "X": z * np.sin(v["phi"]), "Z": z}


@pytest.mark.outside(source="JCGM 100:2008 (GUM), 4.4.3, 20 temperatures", status="published", tolerance="1e-4 degC")
def test_twenty_temperatures() -> None:
    one = type_a("t", readings("GUM 4.4.3"))
    assert one.value == pytest.approx(expected("GUM 4.4.3 Type A, 20 readings", "mean degC"), abs=1e-4)
    assert one.standard_uncertainty == pytest.approx(expected("GUM 4.4.3", "s(mean) degC"), abs=1e-4)
    assert one.standard_uncertainty is not None
    assert one.standard_uncertainty * 20**0.5 == pytest.approx(expected("GUM 4.4.3", "s degC"), abs=1e-4)
    assert one.dof == 19.0


@pytest.mark.outside(source="JCGM 100:2008 (GUM), G.4.1, example", status="published", tolerance="1e-4 %, dof 1e-3")
def test_effective_degrees_of_freedom(record_property: Record) -> None:
    """Y = b X1 X2 X3 with relative u 0.25, 0.57, 0.82 % from 10, 5 and 15 readings."""
    inputs = [
        Input(n, 1.0, u, dof, "t", "A") for n, u, dof in (("a", 0.0025, 9.0), ("b", 0.0057, 4.0), ("c", 0.0082, 14.0))
    ]
    found = propagate(lambda v: {"y": v["a"] * v["b"] * v["c"]}, inputs)["y"]
    key = "GUM G.4.1 Welch-Satterthwaite"
    assert found.standard_uncertainty is not None
    assert found.expanded is not None
    assert found.effective_dof is not None
    assert 100.0 * found.standard_uncertainty == pytest.approx(expected(key, "u_c %"), abs=1e-4)
    assert found.effective_dof == pytest.approx(expected("GUM G.4.1", "nu_eff"), abs=1e-3)
    assert 100.0 * found.expanded == pytest.approx(expected("GUM G.4.1", "U95 % (t=2.0930)"), abs=1e-3)
    record_property("measured", f"G.4.1 dof off by {abs(found.effective_dof - 18.9987):.0e}")


@pytest.mark.outside(
    source="JCGM 100:2008 (GUM), H.1, gauge block, from the four rounded contributions",
    status="published",
    tolerance="0.01 nm; dof 0.05; expanded 0.1 nm",
)
def test_gauge_block_budget() -> None:
    parts, dof = (25.0, 9.7, 2.9, 16.6), (18.0, 25.6, 50.0, 2.0)
    inputs = [Input(f"x{i}", 0.0, u, nu) for i, (u, nu) in enumerate(zip(parts, dof, strict=True))]
    found = propagate(lambda v: {"y": v["x0"] + v["x1"] + v["x2"] + v["x3"]}, inputs)["y"]
    u = found.standard_uncertainty
    assert u == pytest.approx(expected("GUM H.1 gauge block", "u_c nm (25,9.7,2.9,16.6)"), abs=0.01)
    assert found.effective_dof == pytest.approx(expected("GUM H.1", "nu_eff"), abs=0.05)
    assert effective_dof(parts, dof) == pytest.approx(found.effective_dof)
    k = coverage_factor(0.99, math.floor(found.effective_dof or 0.0))
    assert k == pytest.approx(expected("GUM H.1", "t99(16)"), abs=1e-4)
    assert k * (u or 0.0) == pytest.approx(92.5, abs=0.1)
    assert sum(line.share or 0.0 for line in found.budget) == pytest.approx(1.0)


@pytest.mark.outside(
    source="JCGM 100:2008 (GUM), H.1.7, gauge block from its equation, with terms of second order 11.7 and 1.7 nm",
    status="published",
    tolerance="0.1 nm beside the terms' own root of sum of squares; prints 32 and 34 nm",
)
def test_gauge_block_curvature(record_property: Record) -> None:
    found = propagate(gauge, GAUGE)["length"]
    assert round(found.standard_uncertainty or 0.0) == 32
    assert found.second_order is not None
    assert found.second_order.fails
    whole = found.second_order.standard_uncertainty
    terms = math.hypot(50.000623e6 * 0.58e-6 * 0.41, 50.000623e6 * 1.2e-6 * 0.029)
    assert whole == pytest.approx(math.hypot(found.known_part, terms), abs=1e-3)
    assert round(whole or 0.0) == 34
    record_property("measured", f"H.1 {found.known_part:.2f} nm, with second order {whole:.2f} nm")


@pytest.mark.outside(
    source="JCGM 100:2008 (GUM), H.2, five simultaneous readings, raw data (approach 1 recomputed)",
    status="published",
    tolerance="1e-5 of each",
)
@pytest.mark.parametrize("derivatives", ["central", "complex"])
def test_impedance_from_raw_readings(derivatives: Any, record_property: Record) -> None:
    raw = {"V": readings("GUM H.2 V"), "I": readings("GUM H.2 I mA"), "phi": readings("GUM H.2 phi rad")}
    inputs, correlations = simultaneous(raw)
    r = {(one.first, one.second): one.coefficient for one in correlations}
    for pair in (("V", "I"), ("V", "phi"), ("I", "phi")):
        assert r[pair] == pytest.approx(expected("GUM H.2", f"r({pair[0]},{pair[1]})"), abs=1e-5)
    found = propagate(impedance, inputs, correlations=correlations, derivatives=derivatives)
    miss = 0.0
    for name in "RXZ":
        one = found[name]
        wanted = expected("GUM H.2", f"u({name}) ohm")
        assert one.value == pytest.approx(expected("GUM H.2", f"{name} ohm"), abs=1e-5)
        assert one.standard_uncertainty == pytest.approx(wanted, abs=1e-5)
        assert one.effective_dof == pytest.approx(4.0)
        miss = max(miss, abs((one.standard_uncertainty or 0.0) - wanted))
    for first, second in ("RX", "RZ", "XZ"):
        r_out = found.correlation(first, second)
        assert r_out == pytest.approx(expected("GUM H.2", f"r({first},{second})"), abs=1e-5)
    record_property("measured", f"H.2 u within {miss:.0e} ohm")


@pytest.mark.outside(
    source="JCGM 100:2008 (GUM), H.2, from rounded means, uncertainties and correlations",
    status="published",
    tolerance="1e-5: 0.06998 ohm and -0.5915, not the values of the raw data",
)
def test_impedance_from_rounded_inputs() -> None:
    inputs = [Input("V", 4.9990, 0.0032), Input("I", 19.6610, 0.0095), Input("phi", 1.04446, 0.00075)]
    pairs = [Correlation("V", "I", -0.36), Correlation("V", "phi", 0.86), Correlation("I", "phi", -0.65)]
    found = propagate(impedance, inputs, correlations=pairs)
    assert found["R"].standard_uncertainty == pytest.approx(0.06998, abs=1e-5)
    assert found.correlation("R", "X") == pytest.approx(-0.5915, abs=1e-4)
