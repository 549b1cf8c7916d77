"""Capital recovery and levelised cost against closed forms and published figures."""

from __future__ import annotations

import pytest

from racewright.supply.levelised import capital_recovery, levelised_cost
from tests.external.supply_rows import rows

KWH = 3.6e6
ENERGY = 20000.0 * KWH


@pytest.mark.outside(source="annuity formula, 9 rates x 6 lives", status="closed form", tolerance="1e-8")
def test_capital_recovery_table(record_property):
    table = rows("supply_crf")
    assert len(table) == 54
    miss = 0.0
    for row in table:
        factor = capital_recovery(float(row["rate"]), float(row["years"]))
        miss = max(miss, abs(factor - float(row["CRF"])))
        assert factor == pytest.approx(float(row["CRF"]), abs=1e-8)
    record_property("measured", f"{miss:.0e} at most")


@pytest.mark.outside(source="annuity formula at 7 %, 20 yr", status="closed form", tolerance="1e-7")
def test_capital_recovery_one():
    assert capital_recovery(0.07, 20.0) == pytest.approx(0.0943929, abs=1e-7)


@pytest.mark.outside(source="limit of the annuity formula at rate 0", status="closed form", tolerance="exact")
@pytest.mark.parametrize("years", [1.0, 7.5, 20.0])
def test_capital_recovery_without_interest(years):
    assert capital_recovery(0.0, years) == 1.0 / years
    assert capital_recovery(1e-13, years) == pytest.approx(1.0 / years, rel=1e-11)


@pytest.mark.outside(source="ASHRAE Pocket Guide (2013), table", status="published", tolerance="1e-5")
@pytest.mark.parametrize(
    ("rate", "years", "factor"),
    [
        (0.08, 2, 0.56077),
        (0.08, 10, 0.14903),
        (0.08, 18, 0.10670),
        (0.10, 10, 0.16275),
        (0.10, 18, 0.12193),
        (0.06, 10, 0.13587),
    ],
)
def test_capital_recovery_published(rate, years, factor):
    assert capital_recovery(rate, years) == pytest.approx(factor, abs=1e-5)


@pytest.mark.outside(source="formula and discounted sums, year by year", status="closed form", tolerance="1e-7")
def test_levelised_cost_by_two_routes(record_property):
    """50 000 at the start, 3 000 a year, 20 000 kWh a year, 7 %, 20 yr."""
    cost = levelised_cost(50000.0, 3000.0, ENERGY, 0.07, 20.0).cost * KWH
    discount = [1.07**-year for year in range(1, 21)]
    summed = (50000.0 + sum(3000.0 * d for d in discount)) / sum(20000.0 * d for d in discount)
    record_property("measured", f"{abs(cost - 0.3859823):.0e} per kWh")
    assert cost == pytest.approx(0.3859823, abs=1e-7)
    assert cost == pytest.approx(summed, rel=1e-13)


@pytest.mark.outside(source="one input at a time, levelised cost formula", status="closed form", tolerance="1e-6")
@pytest.mark.parametrize(
    ("capital", "yearly", "energy", "rate", "wanted"),
    [
        (60000, 3000, 20000, 0.07, 0.433179),
        (40000, 3000, 20000, 0.07, 0.338786),
        (50000, 3600, 20000, 0.07, 0.415982),
        (50000, 2400, 20000, 0.07, 0.355982),
        (50000, 3000, 24000, 0.07, 0.321652),
        (50000, 3000, 16000, 0.07, 0.482478),
        (50000, 3000, 20000, 0.05, 0.350606),
        (50000, 3000, 20000, 0.10, 0.443649),
    ],
)
def test_levelised_cost_one_at_a_time(capital, yearly, energy, rate, wanted):
    cost = levelised_cost(capital, yearly, energy * KWH, rate, 20.0)
    assert cost.cost * KWH == pytest.approx(wanted, abs=1e-6)


@pytest.mark.outside(
    source="course example: 1.50 $/W, CF 0.22, 10 yr, 8 %, 0.04 $/kWh gives 0.1559 (cut, not rounded)",
    status="published",
    tolerance="2e-4 $/kWh",
)
def test_levelised_cost_published(record_property):
    cost = levelised_cost(1500.0, 0.0, 8760.0 * 0.22 * KWH, 0.08, 10.0, variable_cost=0.04 / KWH)
    record_property("measured", f"{cost.cost * KWH - 0.1559:+.0e} $/kWh")
    assert cost.cost * KWH == pytest.approx(0.1559, abs=2e-4)
    assert cost.cost * KWH == pytest.approx(0.155994, abs=1e-6)
    assert cost.capital_part * KWH == pytest.approx(0.1160, abs=1e-4)
    assert cost.running_part * KWH == pytest.approx(0.04)
