"""Many drawn years: seeds by year and case, doubt that moves what it should, cancel."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError
from racewright.supply import dispatch
from racewright.supply.chance import Chance, normal, sure
from racewright.supply.dispatch_many import dispatch_many
from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import BatteryBank, DispatchRules, Powerhouse
from racewright.supply.stops_drawn import StopCause
from racewright.supply.year_doubt import YearDoubt
from racewright.uncertainty import Correlation
from tests.supply.random_years import KWH, LITRE_PER_KWH

SET = DieselSet(20e3, 0.246 * LITRE_PER_KWH, 0.08145 * LITRE_PER_KWH, 1400.0, 0.0, "USD")
HOUSE, RULES = Powerhouse((SET,), BatteryBank(20.0 * KWH, 6e3, 8e3), 6e3), DispatchRules()
HOUR = np.arange(8760)
LOAD = 8e3 + 4e3 * np.sin(2.0 * np.pi * (HOUR - 12) / 24.0)
MACHINE = np.vstack([5e3 * (1.0 + 0.5 * np.sin(2.0 * np.pi * HOUR / 8760.0 + phase)) for phase in (0.0, 1.0, 2.0)])
DOUBT = YearDoubt(
    normal("load", 1.0, 0.05),
    normal("machine", 1.0, 0.12),
    causes=(StopCause("debris", 20.0, 36 * 3600.0), StopCause("faults", 3.0, 216 * 3600.0)),
    correlations=(Correlation("load", "machine", 0.3),),
)
FIELDS = (
    "fuel",
    "unserved_energy",
    "unused_energy",
    "served_energy",
    "unserved_time",
    "set_time",
    "starts",
    "running",
)


def drawn(count: int, first: int = 0, doubt: YearDoubt = DOUBT, **more):
    given = {"seed": 4, "case": "a"} | more
    return dispatch_many(LOAD, MACHINE, HOUSE, RULES, doubt, count=count, first=first, **given)


def test_a_year_is_the_same_in_any_company() -> None:
    whole, part = drawn(12), drawn(5, first=7)
    for name in (*FIELDS, "load_factor", "machine_factor", "machine_year"):
        assert np.array_equal(getattr(whole, name)[7:], getattr(part, name)), name
    for other in (drawn(12, case="b"), drawn(12, seed=5)):
        assert not np.array_equal(whole.fuel, other.fuel)


def test_without_doubt_every_year_is_the_given_one() -> None:
    found = dispatch_many(LOAD, MACHINE[0], HOUSE, RULES, YearDoubt(), count=3, seed=1)
    year = dispatch(LOAD, MACHINE[0], HOUSE, RULES, keep_series=False)
    assert found.fuel == pytest.approx([year.fuel] * 3)
    assert found.unused_energy == pytest.approx([year.unused_energy] * 3)
    assert found.set_time == pytest.approx([year.sets[0].running_time] * 3)
    assert found.starts == pytest.approx([year.sets[0].starts] * 3)
    assert found.running == pytest.approx(np.ones(3))


def test_doubt_moves_what_it_should() -> None:
    found = drawn(120)
    assert found.load_factor.std() == pytest.approx(0.05, rel=0.2)
    assert np.corrcoef(found.load_factor, found.fuel)[0, 1] > 0.4
    assert np.corrcoef(found.machine_factor, found.fuel)[0, 1] < -0.2
    assert set(found.machine_year.tolist()) == {0, 1, 2}
    wanted = (1.0 - 20 * 36 / 8760) * (1.0 - 3 * 216 / 8760)
    assert found.running.mean() == pytest.approx(wanted, abs=0.02)


def test_more_machines_fail_apart() -> None:
    """The share running varies less from year to year with four machines than with one."""
    one, four = (drawn(60, doubt=replace(DOUBT, machines=m)).running.std() for m in (1, 4))
    assert four < 0.8 * one


def test_rated_power_is_not_passed_and_ice_all_year_is_finite() -> None:
    capped = dispatch_many(
        LOAD,
        MACHINE[0],
        HOUSE,
        RULES,
        YearDoubt(machine_factor=sure("machine", 9.0), most_machine=1e3),
        count=1,
        seed=1,
    )
    plain = dispatch(LOAD, np.full(8760, 1e3), HOUSE, RULES)
    assert capped.fuel == pytest.approx([plain.fuel])
    ice = dispatch_many(LOAD, np.zeros(8760), HOUSE, RULES, DOUBT, count=2, seed=1)
    assert all(np.isfinite(getattr(ice, name)).all() for name in FIELDS)


def test_it_can_be_stopped() -> None:
    def tick(fraction: float) -> None:
        if fraction > 0.3:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        drawn(400, tick=tick)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: drawn(0), "count"),
        (lambda: drawn(3, first=-1), "first"),
        (lambda: drawn(3, seed=-1), "seed"),
        (lambda: YearDoubt(machines=0), "machines"),
        (lambda: YearDoubt(most_machine=0.0), "may reach"),
        (lambda: drawn(2, doubt=YearDoubt(correlations=(Correlation("load", "ice", 0.1),))), "ice"),
        (lambda: drawn(2, doubt=YearDoubt(load_factor=Chance("machine", 1.0, 1.0, 1.0))), "named twice"),
    ],
)
def test_bad_doubt_is_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
