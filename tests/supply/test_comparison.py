"""The machine beside the diesel: bands, bounds, what moves what, refusals."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.supply.comparison import compare
from racewright.supply.levelised import capital_recovery
from racewright.supply.parties import CommunityNeeds, DieselSet, MachineCost
from racewright.uncertainty import Band
from tests.bands import relative_band

KWH = 3.6e6
YEAR = 8760.0 * 3600.0
VILLAGE = CommunityNeeds(mean_load=12e3)
SET = DieselSet(20e3, 0.246e-3 / KWH, 0.08145e-3 / KWH, 1400.0, 0.03 / KWH, "USD")
MACHINE = MachineCost(40e3, 2500.0, 0.07, 20.0, "USD", 5e3)
ENERGY = relative_band(20e3 * KWH, 0.25, "prior")

ENERGIES = st.floats(1e3, 1e6).map(lambda kwh: relative_band(kwh * KWH, 0.25, "prior"))
LOADS = st.floats(100.0, 20e3).map(CommunityNeeds)
PRICES = st.floats(0.0, 5000.0)
COUNTS = st.integers(1, 8)


def ordered(band: Band) -> bool:
    return band.low <= band.value <= band.high


@given(ENERGIES, LOADS, PRICES, COUNTS)
def test_bands_and_bounds(energy, village, price, count):
    diesel = replace(SET, delivered_price=price)
    got = compare(energy, village, diesel, MACHINE, count=count)
    bands = (
        got.machine_cost,
        got.used_energy,
        got.used_energy_set_on,
        got.saving_set_on,
        got.saving_set_off,
        got.fuel_saved_set_on,
        got.fuel_saved_set_off,
    )
    assert all(ordered(b) for b in bands)
    assert all(b.basis == "prior" for b in bands)
    assert got.used_energy.high <= village.mean_load * YEAR * (1.0 + 1e-12)
    assert got.used_energy.value <= count * energy.value
    assert got.used_energy_set_on.value <= got.used_energy.value
    assert got.saving_set_on.value <= got.saving_set_off.value + 1e-9 * abs(got.saving_set_off.value)
    assert got.fuel_saved_set_on.value <= got.fuel_saved_set_off.value
    assert got.fuel_saved_set_off.high <= got.diesel.fuel_yearly * (1.0 + 1e-12)
    assert got.machine_cost.value == got.machine.cost
    left = village.mean_load - got.used_energy_set_on.value / YEAR
    assert left >= min(village.mean_load, 0.3 * 20e3) * (1.0 - 1e-9)


@given(ENERGIES, LOADS, PRICES, PRICES, COUNTS)
def test_fuel_price_moves_only_diesel_and_saving(energy, village, one, other, count):
    low, high = sorted((one, other))
    cheap, dear = (
        compare(energy, village, replace(SET, delivered_price=p), MACHINE, count=count) for p in (low, high)
    )
    assert cheap.machine == dear.machine
    assert cheap.machine_cost == dear.machine_cost
    assert cheap.used_energy == dear.used_energy
    assert cheap.fuel_saved_set_on == dear.fuel_saved_set_on
    assert cheap.fuel_saved_set_off == dear.fuel_saved_set_off
    assert cheap.diesel.cost <= dear.diesel.cost
    assert cheap.saving_set_on.value <= dear.saving_set_on.value
    assert cheap.saving_set_off.value <= dear.saving_set_off.value


@given(ENERGIES, st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_rate_moves_only_machine_and_saving(energy, one, other):
    low, high = sorted((one, other))
    easy, hard = (compare(energy, VILLAGE, SET, replace(MACHINE, rate=r)) for r in (low, high))
    assert easy.diesel == hard.diesel
    assert easy.machine.cost <= hard.machine.cost * (1.0 + 1e-12)
    assert easy.saving_set_off.value >= hard.saving_set_off.value - 1e-6


def test_by_hand():
    """12 kW on a 20 kW set; 20 000 kWh a year at 1.40 per litre."""
    got = compare(ENERGY, VILLAGE, SET, MACHINE)
    yearly = 40e3 * capital_recovery(0.07, 20.0) + 2500.0
    use = 0.246 + 0.08145 * 20.0 / 12.0
    assert got.machine.cost * KWH == pytest.approx(yearly / 20e3)
    assert got.machine_cost.low * KWH == pytest.approx(yearly / 25e3)
    assert got.machine_cost.high * KWH == pytest.approx(yearly / 15e3)
    assert got.diesel.cost * KWH == pytest.approx(use * 1.40 + 0.03)
    assert got.fuel_saved_set_on.value == pytest.approx(20.0 * 0.246)
    assert got.fuel_saved_set_off.value == pytest.approx(20.0 * use)
    assert got.saving_set_on.value == pytest.approx(20e3 * 0.246 * 1.40 - yearly)
    assert got.saving_set_off.value == pytest.approx(20e3 * (use * 1.40 + 0.03) - yearly)
    assert got.saving_set_on.low == pytest.approx(15e3 * 0.246 * 1.40 - yearly)
    assert got.currency == "USD"


def test_saving_is_used_energy_times_difference_of_costs():
    """With an old set, saving with the set off = used energy x (diesel cost - machine cost)."""
    got = compare(ENERGY, VILLAGE, SET, MACHINE, count=3)
    difference = got.diesel.cost - got.machine.cost
    assert got.saving_set_off.value == pytest.approx(got.used_energy.value * difference)


def test_capital_of_the_set_is_not_saved():
    """The set stays where it is: its capital raises its cost and leaves the saving alone."""
    plain, owing = (compare(ENERGY, VILLAGE, replace(SET, capital=c, years=10.0), MACHINE) for c in (0.0, 30e3))
    assert owing.diesel.cost > plain.diesel.cost
    assert owing.saving_set_off == plain.saving_set_off


def test_machines_that_the_village_can_take_cost_the_same_each():
    one, two = (compare(ENERGY, VILLAGE, SET, MACHINE, count=c) for c in (1, 2))
    assert two.used_energy.value == pytest.approx(2.0 * one.used_energy.value)
    assert two.machine.cost == pytest.approx(one.machine.cost)
    assert two.saving_set_off.value == pytest.approx(2.0 * one.saving_set_off.value)


def test_more_machines_than_load_cost_more_per_energy_used():
    """Eight machines make 160 MWh; 12 kW take 105.12 MWh."""
    got = compare(ENERGY, VILLAGE, SET, MACHINE, count=8)
    assert got.used_energy.value == pytest.approx(12e3 * YEAR)
    assert got.used_energy_set_on.value == pytest.approx(6e3 * YEAR)
    assert got.machine.cost > compare(ENERGY, VILLAGE, SET, MACHINE).machine.cost
    texts = [r.text for r in got.remarks]
    assert any("160 MWh" in t and "105 MWh" in t for t in texts)
    yearly = 8 * (40e3 * capital_recovery(0.07, 20.0) + 2500.0)
    assert any(f"{yearly / 52560.0:.3g} USD/kWh" in t for t in texts)


def test_a_load_below_the_floor_leaves_nothing_with_the_set_on():
    got = compare(ENERGY, CommunityNeeds(4e3), SET, MACHINE)
    assert got.used_energy_set_on.high == 0.0
    assert got.fuel_saved_set_on.high == 0.0
    assert got.saving_set_on.value == pytest.approx(-got.machine.cost * got.used_energy.value)
    assert got.saving_set_off.value > got.saving_set_on.value


def test_averages_are_always_remarked():
    got = compare(ENERGY, VILLAGE, SET, MACHINE)
    assert [r.about for r in got.remarks] == ["used energy"]
    assert "upper bound" in got.remarks[0].text


@pytest.mark.parametrize("label", ["EUR", "usd", "US", "", "USDX", "$"])
def test_currencies_are_not_mixed(label):
    with pytest.raises(InputError, match="currency label"):
        compare(ENERGY, VILLAGE, replace(SET, currency=label), MACHINE)
    with pytest.raises(InputError, match="currency label"):
        compare(ENERGY, VILLAGE, SET, replace(MACHINE, currency=label))


@pytest.mark.parametrize("count", [0, -1, 1.5, True, float("nan")])
def test_count_is_a_whole_number(count):
    with pytest.raises(InputError, match="count"):
        compare(ENERGY, VILLAGE, SET, MACHINE, count=count)


@pytest.mark.parametrize(
    "band",
    [(2.0, 1.0, 3.0), (-1.0, 1.0, 2.0), (1.0, float("nan"), 2.0), (1.0, 2.0, float("inf"))],
)
def test_bad_energy(band):
    with pytest.raises(InputError, match="energy band"):
        compare(Band(*band, "x"), VILLAGE, SET, MACHINE)


def test_no_energy_has_no_cost():
    with pytest.raises(NoAnswerError, match="no cost per energy"):
        compare(Band(0.0, 1.0, 2.0, "x"), VILLAGE, SET, MACHINE)
