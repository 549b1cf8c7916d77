"""The reduction of model tests against worked cases, closed forms and exact scaling."""

from __future__ import annotations

import csv
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from racewright.trials import (
    Channel,
    Chunk,
    Rig,
    Settings,
    coefficients,
    cube_mean,
    exact,
    froude_scale,
    reduce,
    strip_areas,
)
from racewright.trials.fouling import _zero_doubt
from racewright.trials.series_error import series_error
from racewright.trials.synthetic_flow import von_karman
from racewright.water import properties

DATA = Path(__file__).parent / "data" / "trials_reduction.csv"
RIG = Rig(
    tip_radius=0.2,
    hub_radius=0.0,
    blades=3,
    vanes=0,
    channel_width=1.2,
    depth=0.8,
    axis_height=0.4,
    blocked_radius=0.2,
    chord=0.03,
    chord_radius=0.14,
    temperature=293.15,
    gravity=9.81,
)
MEANS = {"speed": 1.2, "torque": 2.6, "rotor_speed": 6.0 * math.pi, "thrust": 62.0}
RATES = {"speed": 25.0, "torque": 50.0, "rotor_speed": 10.0, "thrust": 50.0}


def rows(case: str) -> dict[str, tuple[float, float]]:
    with DATA.open() as file:
        table = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return {r["quantity"]: (float(r["value"]), float(r["tolerance"])) for r in table if r["case"] == case}


def reading(rig=RIG, references=None):
    """The worked case as a logger would deliver it: millivolts and volts through straight calibrations, a tare-free
    minute of constant readings at three rates."""
    gains = {"speed": 0.3, "torque": 0.5, "rotor_speed": 0.01, "thrust": -12.0}
    channels = []
    for name, gain in gains.items():
        law = replace(exact(0.25, gain), reference=(references or {}).get(name, 0.0))
        channels.append(Channel(name, name, RATES[name], law))
    raw = {n: np.full(round(60 * RATES[n]), (MEANS[n] - 0.25) / g) for n, g in gains.items()}
    found = reduce([Chunk(0.0, raw)], channels, rig, settings=Settings(follow=None))
    assert len(found.readings) == 1
    return found.readings[0]


@pytest.mark.outside(
    source="worked case of a test reduction, inputs invented, answers from the definitions",
    status="closed form",
    tolerance="1e-5",
)
def test_the_chain_from_raw_readings_to_coefficients(record_property):
    found = reading()
    wanted = rows("chain")
    got = {name: getattr(found.numbers, name) for name in wanted if name != "power"} | {"power": found.power}
    miss = 0.0
    for name, (value, tolerance) in wanted.items():
        assert got[name] == pytest.approx(value, abs=tolerance), name
        miss = max(miss, abs(got[name] - value))
    assert found.power_coefficient.value == found.numbers.power_coefficient
    record_property("measured", f"{miss:.0e} at most")


@pytest.mark.outside(
    source="worked case of a test reduction, propagation of its input uncertainties",
    status="closed form",
    tolerance="1e-6 relative, 1e-5 in the correlation",
)
def test_systematic_uncertainties_of_the_chain():
    rig = replace(RIG, radius_uncertainty=0.00125, density_uncertainty=0.0002)
    found = reading(rig, {"speed": 0.01, "torque": 0.006, "rotor_speed": 0.001, "thrust": 0.008})
    wanted = rows("uncertainty")
    for name in ("power_coefficient", "thrust_coefficient", "tip_speed_ratio"):
        own = getattr(found, name)
        assert own.standard_uncertainty / own.value == pytest.approx(wanted[name][0], abs=wanted[name][1])
    c = found.covariance
    assert c[0, 2] / math.sqrt(c[0, 0] * c[2, 2]) == pytest.approx(*wanted["correlation"][:1], abs=1e-5)


@pytest.mark.outside(
    source="IAPWS-95, IAPWS R12-08 at 20 degC: 998.2072 kg/m3, 1.00340e-6 m2/s, 2339.32 Pa",
    status="computed",
    tolerance="0.01 kg/m3, 0.2 %, 0.1 %",
)
def test_the_reading_carries_its_water():
    water = reading().water
    assert water.density == pytest.approx(998.2072, abs=0.01)
    assert water.viscosity == pytest.approx(1.00340e-6, rel=0.002)
    assert water.vapour_pressure == pytest.approx(2339.32, rel=0.001)


@pytest.mark.outside(source="definition, sea and fresh water", status="closed form", tolerance="1e-4 relative")
@pytest.mark.parametrize(
    ("case", "kind", "kelvin", "cover", "speed", "ratio"),
    [
        ("cavitation sea 15 degC 3.0 m 2.5 m/s TSR 4", "sea", 288.15, 3.0, 2.5, 4.0),
        ("cavitation fresh 20 degC 0.5 m 1.5 m/s TSR 5", "fresh", 293.15, 0.5, 1.5, 5.0),
    ],
)
def test_cavitation_numbers(case, kind, kelvin, cover, speed, ratio):
    rig = replace(RIG, gravity=9.80665)
    depth = rig.axis_height + rig.tip_radius + cover
    got = coefficients(rig, properties(kelvin, kind), speed, ratio * speed / rig.tip_radius, 1.0, 1.0, depth)
    wanted = rows(case)
    assert got.cavitation_number == pytest.approx(wanted["stream"][0], abs=wanted["stream"][1])
    assert got.cavitation_number_tip == pytest.approx(wanted["tip"][0], abs=wanted["tip"][1])
    assert got.cavitation_number_chord == pytest.approx(wanted["chord"][0], abs=wanted["chord"][1])


@pytest.mark.outside(
    source="definition of the capture-area speed, a 2 m disc in 5 strips", status="closed form", tolerance="1e-5"
)
def test_cube_mean_over_a_capture_area():
    area = strip_areas(1.0, [-1.0, -0.6, -0.2, 0.2, 0.6, 1.0])
    assert area == pytest.approx([0.447295, 0.726184, 0.794634, 0.726184, 0.447295], abs=1e-6)
    speed = [1.60, 1.80, 1.95, 2.05, 2.12]
    assert cube_mean(speed, area) == pytest.approx(1.926927, abs=1e-5)
    assert float(area @ speed / area.sum()) == pytest.approx(1.912814, abs=1e-5)


@pytest.mark.outside(source="definition", status="closed form", tolerance="1e-6")
def test_cube_mean_in_time():
    assert cube_mean([1.8, 2.0, 2.2]) == pytest.approx(2.013245, abs=1e-6)


@pytest.mark.outside(
    source="mean cube of a Gaussian, (1 + 3 TI^2)^(1/3): 1.009902 at 10 %, 1.022012 at 15 %",
    status="closed form",
    tolerance="1e-6, Gauss-Hermite nodes for the Gaussian",
)
@pytest.mark.parametrize(("intensity", "ratio"), [(0.10, 1.009902), (0.15, 1.022012)])
def test_cube_mean_of_gaussian_turbulence(intensity, ratio):
    node, weight = np.polynomial.hermite_e.hermegauss(8)
    assert cube_mean(1.0 + intensity * node, weight) == pytest.approx(ratio, abs=1e-6)


@pytest.mark.outside(
    source="Froude scaling 1:10, and fresh water at 20 degC to sea water at 15 degC",
    status="closed form",
    tolerance="1e-6 relative",
)
def test_froude_scaling():
    s = froude_scale(10.0)
    assert (s.speed, s.time, s.force, s.power) == pytest.approx((3.162278, 3.162278, 1000.0, 3162.278), rel=1e-6)
    assert (s.torque, s.reynolds) == pytest.approx((1e4, 31.6228), rel=1e-5)
    sea = properties(288.15, "sea").density / properties(293.15, "fresh").density
    assert sea == pytest.approx(1.027819, abs=1e-6)
    assert froude_scale(10.0, density=sea).power == pytest.approx(3250.248, rel=1e-6)


@pytest.mark.outside(
    source="variance of the mean of a first-order autoregression, s^2 (1 + phi)/((1 - phi) n) for large n",
    status="closed form",
    tolerance="3 % on the root mean square over 1000 series of 120",
)
@pytest.mark.parametrize("phi", [0.0, 0.3, 0.6])
def test_standard_error_of_an_autoregression(phi, record_property):
    rng = np.random.default_rng(11)
    n, burn = 120, 200
    squares, held = [], 0
    x = rng.standard_normal((1000, n + burn))
    for i in range(1, n + burn):
        x[:, i] += phi * x[:, i - 1]
    for row in x[:, burn:]:
        found = series_error(row)
        squares.append(found.standard_error**2)
        held += abs(found.mean) <= 2.0 * found.standard_error
    exact_error = math.sqrt(1.0 / ((1.0 - phi) ** 2 * n))
    ratio = math.sqrt(np.mean(squares)) / exact_error
    record_property("measured", f"phi {phi}: {100 * (ratio - 1):+.1f} %")
    assert ratio == pytest.approx(1.0, abs=0.03)
    assert 0.925 < held / 1000 < 0.97


@pytest.mark.outside(
    source="rise of a least-squares line through a random walk: variance 6/5 s^2 T, tied at both ends 1/5 s^2 T",
    status="closed form",
    tolerance="5 % of the standard deviation over 4000 walks",
)
@pytest.mark.parametrize("tied", [False, True])
def test_rise_that_a_wandering_zero_feigns(tied):
    rng = np.random.default_rng(3)
    n = 400
    walk = np.cumsum(rng.standard_normal((4000, n)), axis=1) / math.sqrt(n)
    time = np.arange(1, n + 1) / n
    if tied:
        walk = walk - time * walk[:, -1:]
    place = time - time.mean()
    rise = walk @ place / (place @ place)
    assert rise.std() == pytest.approx(_zero_doubt(1.0, 1.0, 1.0, tied), rel=0.05)


@pytest.mark.outside(
    source="von Karman's longitudinal spectrum: unit variance, value 4 T at frequency 0, slope -5/3",
    status="closed form",
    tolerance="0.2 % in variance",
)
def test_spectrum_of_the_invented_turbulence():
    f = np.geomspace(1e-5, 1e5, 200_001)
    spectrum = von_karman(f, 0.2)
    assert np.trapezoid(spectrum, f) + spectrum[0] * f[0] == pytest.approx(1.0, abs=2e-3)
    assert von_karman(np.zeros(1), 0.2)[0] == 0.8
    assert math.log(spectrum[-1] / spectrum[-20001]) / math.log(f[-1] / f[-20001]) == pytest.approx(-5 / 3, abs=1e-4)
