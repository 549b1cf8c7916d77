"""The village's hourly year from the scheme: balance, ice, clock changes, leap years, gaps, odd cases, money."""

from __future__ import annotations

import math
import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from tests.ledger.common import EXAMPLE
from tests.ledger.supply_case import changed, example, values_of

LANDING = "community__landing"
SUPPLY = f"{LANDING}__supply"


def test_every_way_closes_its_energy_and_the_calendar_sums_to_the_fuel() -> None:
    found = values_of(changed(example(), **{f"{SUPPLY}__years": 100}), "supply_year", "supply_band", "hour_machine")
    year = found["supply_year"]
    for row in year.rows:
        y = row.year
        assert y.imbalance < 1e-9
        given = y.machine_energy - y.machine_held_back + y.sun_energy - y.sun_held_back + y.sets_energy
        taken = y.served_energy + y.dumped_energy + y.battery_taken - y.battery_given
        assert given == pytest.approx(taken, rel=1e-9)
    assert year.fuel_by_day[0].sum() == pytest.approx(year.rows[0].year.fuel, rel=1e-9)
    assert year.fuel_by_day[1].sum() == pytest.approx(year.rows[year.fullest].year.fuel, rel=1e-9)
    assert year.rows[year.fullest].fuel_saved == max(row.fuel_saved for row in year.rows)
    days = year.days
    left = days.load - days.unserved
    np.testing.assert_allclose(days.machine + days.sun + days.giving + days.sets, left + days.taking, rtol=1e-6)
    band = found["supply_band"]
    assert band.fuel_saved.p10 < year.rows[year.fullest].fuel_saved * 1.5
    assert band.water_years == 12


def test_ice_keeps_the_machine_out_and_the_line_takes_its_part() -> None:
    machine = values_of(example(), "hour_machine")["hour_machine"]
    ice = slice(90 * 24, 104 * 24)  # 1 to 14 April 2023
    assert machine.water_year == 2023
    assert not machine.power[ice].any()
    assert not machine.never_stopped[:, ice].any()
    assert machine.power[ice.stop :].any()
    assert 0.0 < machine.line_loss < 0.2 * machine.sent_energy
    assert machine.power.max() <= machine.greatest


def test_a_year_without_a_record_takes_the_water_of_another_and_says_so() -> None:
    machine = values_of(changed(example(), **{f"{SUPPLY}__year": 2040}), "hour_machine")["hour_machine"]
    assert machine.power.size == 8784
    assert machine.water_year in machine.years
    assert any("no 2040" in remark.text for remark in machine.remarks)


def test_a_leap_year_with_clock_changes_is_whole() -> None:
    scheme = changed(example(), **{f"{SUPPLY}__year": 2020, f"{SUPPLY}__load__zone": "Europe/Berlin"})
    found = values_of(scheme, "hour_load", "supply_year")
    load = found["hour_load"]
    assert load.load.size == 8784
    assert load.load.mean() == pytest.approx(14e3)
    assert np.unique(np.diff(load.local)).tolist() == [0, 3600, 7200]
    assert np.isfinite(found["supply_year"].fuel_by_day).all()


def test_ice_all_year_burns_what_the_sets_alone_burn() -> None:
    closed = {"ice": {"first": "01-01", "last": "12-31"}}
    found = values_of(changed(example(), place__otter_bend__season={"closed": closed}), "supply_year")
    year = found["supply_year"]
    assert year.rows[1].fuel_saved == pytest.approx(0.0, abs=1e-9)
    assert year.rows[1].year.machine_energy == 0.0


def test_no_interest_and_no_price_of_fuel_leave_finite_money() -> None:
    scheme = changed(
        example(),
        **{f"{LANDING}__interest": 0.0, f"{LANDING}__diesel__fuel_price": "0 EUR/L", f"{SUPPLY}__fuel": None},
    )
    scheme = changed(scheme, **{f"{LANDING}__diesel__delivery": "0 EUR/L", f"{SUPPLY}__years": 100})
    money = values_of(scheme, "money")["money"]
    for row in money.rows:
        assert math.isfinite(row.net_present_value)
        assert row.net_present_value == pytest.approx(float(row.cash.sum()), rel=1e-9)
        assert row.payback is None
        assert row.break_even_fuel_price is not None
        assert row.break_even_fuel_price > 0.0


def test_money_breaks_even_at_its_break_even_price() -> None:
    scheme = changed(example(), **{f"{SUPPLY}__fuel": None, f"{SUPPLY}__years": 100})
    row = values_of(scheme, "money")["money"].rows[0]
    bare = changed(scheme, **{f"{LANDING}__diesel__delivery": "0 EUR/L"})
    price = f"{row.break_even_fuel_price / 1e3!r} EUR/L"
    even = values_of(changed(bare, **{f"{LANDING}__diesel__fuel_price": price}), "money")["money"].rows[0]
    assert even.net_present_value == pytest.approx(0.0, abs=1e-6 * row.capital)


def test_nominal_prices_want_an_inflation() -> None:
    nominal = changed(example(), **{f"{LANDING}__money__prices": "nominal", f"{SUPPLY}__years": 100})
    with pytest.raises(InputError, match="inflation"):
        values_of(nominal, "money")
    money = values_of(changed(nominal, **{f"{LANDING}__money__inflation": 0.02}), "money")["money"]
    assert money.rate == pytest.approx(1.06 * 1.02 - 1.0)
    assert "nominal" in money.terms


PARTS = {
    "seal": {"between_failures": "120 d", "wait": "14 d", "mend": "0 s", "price": "400 EUR", "shortest": "60 d"},
    "bearing": {"between_failures": "900 d", "wait": "40 d", "mend": "3 d", "price": "900 EUR"},
}


def test_parts_make_the_availability_and_its_stops() -> None:
    scheme = changed(example(), machine__river_unit__stops=None, machine__river_unit__part=PARTS)
    found = values_of(scheme, "availability", "parts", "spares", "hour_machine")
    share = found["parts"].share.value
    assert found["availability"].share == pytest.approx(share, rel=1e-12)
    left = 1.0
    for cause in found["hour_machine"].causes:
        left *= 1.0 - cause.yearly * cause.each / (8760.0 * 3600.0)
    assert left == pytest.approx(share, rel=1e-12)
    assert found["spares"].with_spares.share.value > found["spares"].without.share.value


def test_pieces_carriers_and_the_pull() -> None:
    found = values_of(example(), "carrying", "recovery")
    assert {row.name for row in found["carrying"].rows} == {"hand winch", "river boat", "small plane"}
    median, fastest = (case.pull.pull for case in found["recovery"].cases)
    assert 0.0 < median < fastest
    assert found["recovery"].drag_area == pytest.approx(0.6, rel=0.01)


def metered(folder: Path, *, missing: int) -> None:
    """A meter on Berlin's clock for 2023, some hours left out in May."""
    rows, start = ["time,power"], datetime(2022, 12, 31, 22, tzinfo=UTC)
    from zoneinfo import ZoneInfo

    for hour in range(8764):
        if 3000 <= hour < 3000 + missing:
            continue
        clock = (start + timedelta(hours=hour)).astimezone(ZoneInfo("Europe/Berlin"))
        rows.append(f"{clock:%Y-%m-%dT%H:%M},{10 + clock.hour % 7}")
    (folder / "meter.csv").write_text("\n".join(rows) + "\n", "utf-8")


def test_a_meter_on_a_changing_clock_with_a_gap(tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    metered(tmp_path / "demo", missing=40)
    table = {"meter": {"file": "meter.csv", "zone": "Europe/Berlin"}, "zone": "Europe/Berlin"}
    found = values_of(changed(example(tmp_path / "demo"), **{f"{SUPPLY}__load": table}), "hour_load")["hour_load"]
    shown = 10e3 + 1e3 * (found.local // 3600 % 24 % 7)
    kept = np.ones(8760, dtype=bool)
    kept[2998:3038] = False
    np.testing.assert_allclose(found.load[kept], shown[kept])
    assert any("filled" in remark.text for remark in found.remarks)


def test_a_meter_with_most_of_the_year_missing_has_no_answer(tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    metered(tmp_path / "demo", missing=4000)
    table = {"meter": {"file": "meter.csv", "zone": "Europe/Berlin"}}
    with pytest.raises(NoAnswerError, match="missing"):
        values_of(changed(example(tmp_path / "demo"), **{f"{SUPPLY}__load": table}), "hour_load")


def test_wear_of_a_start_wants_an_hourly_cost() -> None:
    sets = {"one": {"rated_power": "40 kW", "start_wear": "2 EUR"}}
    with pytest.raises(InputError, match="hourly"):
        values_of(changed(example(), **{f"{SUPPLY}__set": sets}), "supply_year")


def test_keep_one_on_leaves_out_the_ways_that_stop() -> None:
    found = values_of(changed(example(), **{f"{SUPPLY}__rules__keep_one_on": True}), "supply_year")["supply_year"]
    assert all("stop" not in row.sentence for row in found.rows)
    assert all(row.year.no_set_time == 0.0 for row in found.rows)
