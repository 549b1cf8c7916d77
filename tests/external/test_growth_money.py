"""Spread of a levelised cost, one number at a time, learning and size, against closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.growth.cash import cash
from racewright.growth.doubt import plan_doubt, tornado
from racewright.growth.learning import (
    batch_cost,
    doublings_to,
    implied_learning,
    learned_cost,
    learning_exponent,
    sized_cost,
)
from racewright.growth.plan import SupplyPlan
from racewright.growth.worth import worth
from racewright.supply.chance import Chance, draw, normal
from racewright.supply.money import Money, Rate, Terms, turned
from tests.external.record import Record
from tests.external.supply_rows import rows

KWH = 3.6e6
USD = Terms("USD", "real", 2025)
PLAN = SupplyPlan(
    name="worked example",
    capital=Money(50e3, USD),
    yearly_cost=Money(3e3, USD),
    fuel_saved=0.0,
    fuel_price=Money(0.0, USD),
    other_saved=Money(0.0, USD),
    used_energy=20e3 * KWH,
    rate=Rate(0.07, "real"),
    years=20,
)
CAPITAL, YEARLY = Chance("capital", 40e3, 50e3, 75e3), Chance("yearly_cost", 2e3, 3e3, 5e3)
ENERGY = normal("used_energy", 20e3 * KWH, 2e3 * KWH)


@pytest.mark.outside(
    source="constructed: capital triangular(40k, 50k, 75k), yearly triangular(2k, 3k, 5k), energy normal(20 "
    "MWh, 2), 7 %, 20 yr; 2e6 draws elsewhere: mean 0.4307, deviation 0.0650, P10/50/90 "
    "0.3518/0.4250/0.5165 per kWh",
    status="computed",
    tolerance="1 % at 1e5 draws",
)
def test_spread_of_a_levelised_cost(record_property: Record) -> None:
    found = plan_doubt(PLAN, (CAPITAL, YEARLY, ENERGY), seed=1, draws=100_000).levelised
    got = np.array([found.mean, found.deviation, found.p10, found.p50, found.p90]) * KWH
    wanted = np.array([0.4307, 0.0650, 0.3518, 0.4250, 0.5165])
    record_property("measured", f"{100.0 * np.abs(got / wanted - 1.0).max():.2f} % at most")
    assert got == pytest.approx(wanted, rel=0.01)
    assert found.mean > 1.1 * worth(PLAN).levelised.cost  # skew, and the mean of 1/energy above 1/mean


@pytest.mark.outside(
    source="triangle: mean (a+b+c)/3, variance (a2+b2+c2-ab-ac-bc)/18: 55 000 and 7359.80, 3333.33 and 623.61",
    status="closed form",
    tolerance="four standard errors of 1e6 draws: 0.05 %, 0.4 %",
)
def test_moments_of_a_lopsided_triangle(record_property: Record) -> None:
    drawn = draw((CAPITAL, YEARLY), 1_000_000, 2)
    capital, yearly = drawn["capital"], drawn["yearly_cost"]
    record_property("measured", f"{abs(capital.mean() / 55e3 - 1.0):.0e}, {abs(capital.std() / 7359.80 - 1.0):.0e}")
    assert (capital.mean(), yearly.mean()) == pytest.approx((55e3, 3333.33), rel=5e-4)
    assert (capital.std(), yearly.std()) == pytest.approx((7359.80, 623.61), rel=4e-3)


@pytest.mark.outside(
    source="levelised cost formula with each number 20 % off, and rates of 5 and 10 %",
    status="closed form",
    tolerance="1e-6",
)
def test_a_tornado_of_the_levelised_cost() -> None:
    ends = {
        "capital": (40e3, 60e3),
        "yearly_cost": (2400.0, 3600.0),
        "used_energy": (16e3 * KWH, 24e3 * KWH),
        "rate": (0.05, 0.10),
    }
    found = tornado(PLAN, ends)
    got = {row.name: (row.at_low * KWH, row.at_high * KWH) for row in found.rows}
    assert got["capital"] == pytest.approx((0.338786, 0.433179), abs=1e-6)
    assert got["yearly_cost"] == pytest.approx((0.355982, 0.415982), abs=1e-6)
    assert got["used_energy"] == pytest.approx((0.482478, 0.321652), abs=1e-6)
    assert got["rate"] == pytest.approx((0.350606, 0.443649), abs=1e-6)
    assert [row.name for row in found.rows] == ["used_energy", "capital", "rate", "yearly_cost"]
    assert found.value * KWH == pytest.approx(0.3859823, abs=1e-7)


@pytest.mark.outside(
    source="present cost over present energy, against capital recovery: 0.3859823 per kWh",
    status="closed form",
    tolerance="1e-7",
)
def test_levelised_cost_of_a_plan() -> None:
    assert worth(PLAN).levelised.cost * KWH == pytest.approx(0.3859823, abs=1e-7)
    assert cash(PLAN).levelised()[0] * KWH == pytest.approx(0.3859823, abs=1e-7)


@pytest.mark.outside(
    source="1.08 / 1.02 - 1 = 5.882353 %",
    status="closed form",
    tolerance="1e-8",
)
def test_real_rate() -> None:
    found = turned(Rate(0.08, "nominal"), 0.02)
    assert (found.value, found.kind) == (pytest.approx(0.05882353, abs=1e-8), "real")


@pytest.mark.outside(
    source="learning curve, Wright (1936), J. Aeronautical Sciences 3, 122-128, nine rates",
    status="closed form",
    tolerance="6e-7: printed to six places",
)
def test_learning_table(record_property: Record) -> None:
    table, miss = rows("growth_learning"), 0.0
    assert len(table) == 9
    for row in table:
        rate = float(row["learning_rate"])
        ten, hundred = learned_cost(1.0, 1024.0, 1.0, rate), learned_cost(1.0, 100.0, 1.0, rate)
        got = (learning_exponent(rate), ten, hundred)
        wanted = [float(row[name]) for name in ("b", "cost_ratio_after_10_doublings", "cost_ratio_at_100x")]
        miss = max(miss, float(np.abs(np.subtract(got, wanted)).max()))
        assert got == pytest.approx(wanted, abs=6e-7)
        assert batch_cost(1.0, 99, 1, rate) == pytest.approx(hundred, rel=1e-12)
    record_property("measured", f"{miss:.0e}")


@pytest.mark.outside(
    source="doublings for a cut of 75 %: 8.530 at 15 %, 13.158 at 10 %",
    status="closed form",
    tolerance="1e-3",
)
def test_doublings_to_a_quarter() -> None:
    assert doublings_to(0.25, 0.15) == pytest.approx(8.530, abs=1e-3)
    assert doublings_to(0.25, 0.10) == pytest.approx(13.158, abs=1e-3)


@pytest.mark.outside(
    source="tidal cost of 150, 90, 80 GBP/MWh at 100 MW, 1 GW, 2 GW built (Smart & Noonan 2018, by the "
    "trade press): 14.25 and 11.11 % a doubling",
    status="published",
    tolerance="1e-4",
)
def test_learning_behind_published_costs() -> None:
    assert implied_learning(150.0, 90.0, 100.0, 1000.0) == pytest.approx(0.1425, abs=1e-4)
    assert implied_learning(90.0, 80.0, 1000.0, 2000.0) == pytest.approx(0.1111, abs=1e-4)


@pytest.mark.outside(
    source="six-tenths rule of process plant: twice the size 1.515717, ten times 3.981072",
    status="closed form",
    tolerance="1e-6",
)
def test_capacity_rule() -> None:
    assert sized_cost(1.0, 2.0, 1.0, 0.6) == pytest.approx(1.515717, abs=1e-6)
    assert sized_cost(1.0, 10.0, 1.0, 0.6) == pytest.approx(3.981072, abs=1e-6)
