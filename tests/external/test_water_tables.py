"""Water properties against release check values and a table of computed values."""

from __future__ import annotations

import csv
from pathlib import Path

import gsw
import numpy as np
import pytest

from racewright.water import Water, properties
from racewright.water.vapour import saturation_pressure
from racewright.water.viscosity import fresh_viscosity

DATA = Path(__file__).parent / "data" / "water.csv"
KINDS = ["fresh", "sea"]
TABLE_SOURCE = "IAPWS-95, IAPWS R12-08, TEOS-10; viscosity ratio of Sharqawy, Lienhard & Zubair (2010)"


def table() -> dict[str, np.ndarray]:
    with DATA.open() as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return {key: np.array([float(row[key]) for row in rows]) for key in rows[0]}


def agree(water: Water, rho: float, nu: float, pv: float) -> None:
    """Density within 0.01 kg/m3; viscosity 0.2 % fresh, 0.5 % sea; vapour pressure 0.1 % fresh, 0.5 % sea."""
    fresh = water.kind == "fresh"
    assert water.density == pytest.approx(rho, abs=0.01)
    assert water.viscosity == pytest.approx(nu, rel=0.002 if fresh else 0.005)
    assert water.vapour_pressure == pytest.approx(pv, rel=0.001 if fresh else 0.005)


@pytest.mark.outside(source=TABLE_SOURCE, status="computed", tolerance="0.01 kg/m3; nu 0.2/0.5 %; pv 0.1/0.5 %")
@pytest.mark.parametrize("kind", KINDS)
def test_water_at_the_nodes(kind):
    rows = table()
    for k, celsius in enumerate(rows["T_C"]):
        agree(properties(celsius + 273.15, kind), *(rows[f"{kind}_{name}"][k] for name in ("rho", "nu", "pv")))


@pytest.mark.outside(source=TABLE_SOURCE, status="computed", tolerance="1e-4 kg/m3, 1e-5, 1e-4")
@pytest.mark.parametrize("kind", KINDS)
def test_water_to_the_digits_of_the_table(kind, record_property):
    """The same formulas for density and viscosity, so the table comes back to its last digit; vapour pressure
    by another formulation, 6e-5 away at most."""
    rows = table()
    miss = 0.0
    for k, celsius in enumerate(rows["T_C"]):
        water = properties(celsius + 273.15, kind)
        miss = max(miss, abs(water.density - rows[f"{kind}_rho"][k]))
        assert water.density == pytest.approx(rows[f"{kind}_rho"][k], abs=1e-4)
        assert water.viscosity == pytest.approx(rows[f"{kind}_nu"][k], rel=1e-5)
        assert water.vapour_pressure == pytest.approx(rows[f"{kind}_pv"][k], rel=1e-4)
    record_property("measured", f"{kind}: density within {miss:.0e} kg/m3")


@pytest.mark.outside(
    source=TABLE_SOURCE + "; quartic through the five nodes, of ln for nu and pv",
    status="computed",
    tolerance="0.01 kg/m3; nu 0.2/0.5 %; pv 0.1/0.5 %",
)
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("celsius", [7.5, 12.5, 17.5, 22.5])
def test_water_between_the_nodes(kind, celsius):
    rows = table()
    x = (rows["T_C"] - 15.0) / 10.0

    def between(column: np.ndarray) -> float:
        return float(np.polynomial.Polynomial.fit(x, column, 4)((celsius - 15.0) / 10.0))

    agree(
        properties(celsius + 273.15, kind),
        between(rows[f"{kind}_rho"]),
        float(np.exp(between(np.log(rows[f"{kind}_nu"])))),
        float(np.exp(between(np.log(rows[f"{kind}_pv"])))),
    )


@pytest.mark.outside(source="IAPWS R12-08, table 4", status="from memory", tolerance="1e-8 relative")
@pytest.mark.parametrize(
    ("temperature", "density", "micro"),
    [
        (298.15, 998.0, 889.735100),
        (298.15, 1200.0, 1437.649467),
        (373.15, 1000.0, 307.883622),
        (433.15, 1.0, 14.538324),
        (433.15, 1000.0, 217.685358),
    ],
)
def test_viscosity_check_values(temperature, density, micro):
    """The release prints six decimals: half of the last one is 5e-7 uPa s, 3.5e-8 relative at worst."""
    assert fresh_viscosity(temperature, density) * 1e6 == pytest.approx(micro, abs=5.1e-7)


@pytest.mark.outside(source="IAPWS R7-97, table 35", status="from memory", tolerance="1e-8 relative")
@pytest.mark.parametrize(("temperature", "mega"), [(300.0, 0.353658941e-2), (500.0, 2.63889776), (600.0, 12.3443146)])
def test_vapour_pressure_check_values(temperature, mega):
    assert saturation_pressure(temperature) / 1e6 == pytest.approx(mega, rel=3e-9)


@pytest.mark.outside(
    source="Wagner & Pruss (1993), J. Phys. Chem. Ref. Data 22, 783, equation 1",
    status="from memory",
    tolerance="0.02 %",
)
def test_vapour_pressure_against_a_second_formula(record_property):
    """Two formulations of one set of measurements: 0.02 % between them from 0 to 40 degC."""
    a = (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502)
    exponent = (1.0, 1.5, 3.0, 3.5, 4.0, 7.5)
    miss = 0.0
    for temperature in np.linspace(273.16, 313.15, 41):
        tau = 1.0 - temperature / 647.096
        other = 22.064e6 * np.exp(647.096 / temperature * sum(c * tau**e for c, e in zip(a, exponent, strict=True)))
        miss = max(miss, abs(saturation_pressure(float(temperature)) / other - 1.0))
        assert saturation_pressure(float(temperature)) == pytest.approx(other, rel=2e-4)
    record_property("measured", f"{100.0 * miss:.3f} % at most")


@pytest.mark.outside(
    source="TEOS-10 density check values, IOC manual 56 (2010)", status="from memory", tolerance="1e-5"
)
def test_density_library_check_values():
    """The density library in use reproduces its own published bottles."""
    salinity = [34.7118, 34.8915, 35.0256, 34.8472, 34.7366, 34.7324]
    conservative = [28.8099, 28.4392, 22.7862, 10.2262, 6.8272, 4.3236]
    pressure = [10, 50, 125, 250, 600, 1000]
    wanted = [1021.839936, 1022.262458, 1024.427195, 1027.790153, 1029.837779, 1032.002453]
    np.testing.assert_allclose(gsw.rho(salinity, conservative, pressure), wanted, atol=1e-5)


@pytest.mark.outside(
    source="ITTC 7.5-02-01-03, sea-water density (its table stands 0.045 kg/m3 above one atmosphere)",
    status="from memory",
    tolerance="0.06 kg/m3",
)
@pytest.mark.parametrize(("celsius", "density"), [(15.0, 1026.0210), (20.0, 1024.8103), (25.0, 1023.3873)])
def test_sea_density_of_the_towing_tanks(celsius, density, record_property):
    found = properties(celsius + 273.15, "sea").density
    record_property("measured", f"{found - density:+.3f} kg/m3 at {celsius:g} degC")
    assert found == pytest.approx(density, abs=0.06)


@pytest.mark.outside(
    source="Korson, Drost-Hansen & Millero (1969), J. Phys. Chem. 73, 34",
    status="published",
    tolerance="0.2 %",
)
@pytest.mark.parametrize(("celsius", "milli"), [(10, 1.3069), (15, 1.1382), (20, 1.0020), (25, 0.8903)])
def test_fresh_viscosity_measured(celsius, milli, record_property):
    water = properties(celsius + 273.15, "fresh")
    miss = water.viscosity * water.density * 1e3 / milli - 1.0
    record_property("measured", f"{100.0 * miss:+.3f} % at {celsius} degC")
    assert water.viscosity * water.density * 1e3 == pytest.approx(milli, rel=0.002)
