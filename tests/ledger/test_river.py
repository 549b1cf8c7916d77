"""The place and its energy through the ledger: gaugings, spot speeds, season, doubt, stops, several machines."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.energy_parts import EnergyParts
from racewright.ledger.findings import Findings, PlaceFindings
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of, input_rows
from racewright.ledger.place_inputs import season_of
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import load_scheme
from racewright.supply.result import YearlyEnergy
from tests.ledger.river import SCHEMES, TEXT, findings_of, written


def place(findings: Findings) -> PlaceFindings:
    assert findings.place is not None
    return findings.place


def parts(findings: Findings) -> EnergyParts:
    assert findings.energy_parts is not None
    return findings.energy_parts


def energy(findings: Findings) -> YearlyEnergy:
    assert findings.energy is not None
    return findings.energy


def causes(findings: Findings) -> dict[str, float]:
    return {cause.cause: cause.input_error for cause in place(findings).speed_causes}


def test_the_fitted_rating_makes_the_site() -> None:
    """Gaugings scattered about 6.4 (h - 0.3)^2.32: the same standings as that rating, to 2 mm of depth."""
    gauged, stated = place(findings_of("gaugings")), place(findings_of("rating"))
    assert gauged.rating is not None
    assert gauged.rating.rating.exponent == pytest.approx(2.32, abs=0.001)
    assert gauged.rating.zero_level_given
    for one, other in zip(gauged.site.standings, stated.site.standings, strict=True):
        assert one.depth == pytest.approx(other.depth, abs=0.002)
    assert any("extrapolated above 420 m3/s" in remark.text for remark in findings_of("gaugings").remarks)
    assert stated.rating is None
    assert stated.rating_band is None


def test_the_band_reaches_from_the_lowest_to_the_highest_level() -> None:
    band = place(findings_of("gaugings")).rating_band
    assert band is not None
    assert band.discharge[0] == pytest.approx(50.0, abs=8.0)
    assert band.discharge[-1] == pytest.approx(950.0, abs=15.0)
    assert set(band.extrapolated.tolist()) == {False, True}
    assert (band.low < band.discharge).all()


def test_a_fitted_rating_brings_its_own_uncertainty() -> None:
    assert causes(findings_of("rating"))["rating"] == 0.10
    assert 0.005 < causes(findings_of("gaugings"))["rating"] < 0.05
    assert causes(findings_of("fitted zero"))["rating"] > causes(findings_of("gaugings"))["rating"]


def test_energy_carries_speed_power_and_years() -> None:
    """Each side by root of squares of the parts; the power curve's own band lies inside."""
    found = parts(findings_of("gaugings")).band
    rows = {row.cause: row for row in found.rows}
    assert {"power curve", "years on record", "rating", "speed factor"} <= rows.keys()
    assert energy(findings_of("gaugings")).total == found.total
    assert found.total.low < rows["power curve"].low
    assert found.total.high > rows["power curve"].high
    square = sum(row.relative_standard**2 for row in found.rows)
    assert found.relative_standard == pytest.approx(math.sqrt(square), rel=1e-9)


def test_the_cost_band_follows_the_energy_band() -> None:
    findings = findings_of("gaugings")
    assert findings.community is not None
    cost, total = findings.community.comparison.machine_cost, energy(findings).total
    assert cost.high * total.low == pytest.approx(cost.value * total.value, rel=1e-9)


def test_a_power_curve_at_rated_power_goes_on_in_the_faster_water_of_the_band() -> None:
    """Else the machine would count as standing still where only the curve's range ends."""
    assert not any(r.about == "power curve" for r in findings_of("gaugings").remarks)


def test_the_season_takes_energy_out_of_its_month_alone() -> None:
    with_season, without = findings_of("gaugings"), findings_of("no season")
    months, all_year = parts(with_season).months, parts(without).months
    assert months is not None
    assert all_year is not None
    for row, other in zip(months.rows, all_year.rows, strict=True):
        assert row.open_energy == pytest.approx(other.energy, rel=1e-9)
        assert (row.energy < 0.8 * other.energy) if row.month == 4 else row.energy == pytest.approx(other.energy)
    (outage,) = place(with_season).site.outages
    assert outage.cause == "ice run"
    assert outage.share == pytest.approx(14 / 365.25, abs=1e-5)
    assert any("Ice and season" in left for left in without.left_out)
    assert not any("Ice and season" in left for left in with_season.left_out)


def test_months_and_years_add_up_to_the_energy() -> None:
    found, total = parts(findings_of("gaugings")), energy(findings_of("gaugings")).total.value
    assert found.months is not None
    assert found.years is not None
    assert found.years.spread is not None
    assert found.months.energy == pytest.approx(total, rel=2e-3)
    assert found.years.spread.p50 == pytest.approx(total, rel=2e-3)
    assert found.years.year.tolist() == list(range(2012, 2024))


def test_stops_by_cause_make_the_availability() -> None:
    found = parts(findings_of("gaugings")).availability
    assert found.share == pytest.approx((1 - 20 * 36 / 8760) * (1 - 3 * 216 / 8760), rel=1e-12)
    assert found.whole == pytest.approx(found.share * (1 - 14 / 365.25), abs=1e-5)


def test_without_stops_the_stated_availability_holds(tmp_path: Path) -> None:
    text = TEXT.replace("[machine.river_unit.stops.debris]", "[machine.river_unit.cost]", 1)
    start, end = text.index("[machine.river_unit.cost]"), text.index("[machine.river_unit.duct]")
    text = text[:start] + text[end:]
    text = text.replace("[machine.river_unit]\n", '[machine.river_unit]\navailability = "70 %"\n', 1)
    loaded = load_scheme(written(tmp_path, text))
    name, case = case_of(loaded, None)
    values = evaluate(loaded, name, case, wanted=("availability",), store=Store(cache_folder(), CLASSES))
    assert values["availability"].share == pytest.approx(0.7)
    assert values["availability"].causes[0].cause == "all causes, as stated"


def test_spot_speeds_make_an_estimate_with_a_wide_band() -> None:
    """A Weibull year of shape 3: cube-mean speed over median speed is (Gamma(2) / ln 2)^(1/3), closed form."""
    findings = findings_of("spots")
    found = place(findings)
    assert found.spots is not None
    assert found.site.climate.mean_cube_speed / found.spots.median_speed == pytest.approx(
        math.log(2.0) ** (-1 / 3), rel=2e-3
    )
    (cause,) = found.speed_causes
    assert cause.speed_error == found.spots.relative_standard > 0.1
    assert parts(findings).months is None
    assert parts(findings).years is None
    assert parts(findings).river is None
    assert findings.remarks[0].severity == "warning"
    assert "Estimated, not recorded" in findings.remarks[0].text
    assert "The reach and its spot speeds are invented" in findings.invented[0]


def test_a_record_of_speed_has_months_and_season_but_no_river() -> None:
    findings = findings_of("speed")
    found = parts(findings)
    assert found.months is not None
    assert [row.month for row in found.months.rows if row.energy == 0.0] == [1, 2, 3]
    assert found.river is None
    assert causes(findings) == {"record of speed": 0.05}


def test_a_histogram_has_neither_months_nor_years() -> None:
    findings = findings_of("histogram")
    assert parts(findings).months is None
    assert causes(findings) == {"histogram of speed": 0.05}


def test_several_machines_take_their_share_of_the_river() -> None:
    one, four = parts(findings_of("gaugings")).river, parts(findings_of("four")).river
    assert one is not None
    assert four is not None
    np.testing.assert_allclose(four.blockage, 4 * one.blockage)
    np.testing.assert_allclose(four.diversion, 4 * one.diversion)
    assert four.energy.value == pytest.approx(4 * one.energy.value)
    assert {r.about for r in four.remarks} == {"blockage", "wakes"}
    assert (one.diversion < one.blockage).all()


@pytest.mark.parametrize(
    ("name", "old", "new", "key"),
    [
        ("spots", "[place.otter_bend.water]", "{ice}[place.otter_bend.water]", "place.otter_bend.season"),
        ("histogram", "[place.otter_bend.water]", "{ice}[place.otter_bend.water]", "place.otter_bend.season"),
        (
            "speed",
            "[place.otter_bend.season.closed.ice]",
            '[place.otter_bend.season]\nleast_depth = "2 m"\n[place.otter_bend.season.closed.ice]',
            "place.otter_bend.season.least_depth",
        ),
        ("gaugings", "count = 1\n", "count = 100\n", "case.first_unit.count"),
        ("gaugings", 'zero_level = "0.3 m"', 'level_column = "stage"', "place.otter_bend.gaugings.level_column"),
    ],
)
def test_faults_point_at_their_key(tmp_path: Path, name: str, old: str, new: str, key: str) -> None:
    ice = '[place.otter_bend.season.closed.ice]\nfirst = "12-01"\nlast = "03-31"\n\n'
    text = SCHEMES[name].replace(old, new.format(ice=ice), 1)
    with pytest.raises(InputError) as caught:
        compute(load_scheme(written(tmp_path, text)), store=Store(cache_folder(), CLASSES))
    assert caught.value.key == key
    assert caught.value.line is not None


def test_bad_gaugings_name_their_file(tmp_path: Path) -> None:
    loaded = load_scheme(written(tmp_path, TEXT))
    name, case = case_of(loaded, None)
    for content, kind, said in (
        ("level_m,discharge_m3s\n1,10\n2,0\n3,50\n", InputError, "not above 0 m3/s"),
        ("level_m,discharge_m3s\n1,10\n1,12\n", InputError, "different gauged levels"),
        ("level_m,discharge_m3s\n0.2,10\n1,12\n2,30\n", InputError, "above the lowest gauged level"),
        ("level_m,discharge_m3s\n1,10\n2,10\n3,9.9\n4,10\n5,10\n", NoAnswerError, "no power law"),
    ):
        (tmp_path / "gaugings.csv").write_text(content, "utf-8")
        with pytest.raises(kind, match=said) as caught:
            evaluate(loaded, name, case, wanted=("rating",))
        assert "gaugings.csv" in str(caught.value)


def test_a_band_from_nothing_on_has_no_cost(tmp_path: Path) -> None:
    text = TEXT.replace(
        "[place.otter_bend.water]", "[place.otter_bend.doubt]\nspeed_factor = 0.6\n[place.otter_bend.water]"
    )
    findings = compute(load_scheme(written(tmp_path, text)), store=Store(cache_folder(), CLASSES))
    assert energy(findings).total.low == 0.0
    assert findings.community is None
    assert any(m.chapter == "Cost" and "band is 0" in m.needs for m in findings.missing)


def test_the_order_of_causes_in_the_file_does_not_matter() -> None:
    ice, upkeep = {"first": "03-01", "last": "04-14"}, {"first": "04-01", "last": "04-30"}
    rest = {"least_depth": None, "least_speed": None, "greatest_speed": None}
    one = season_of({"closed": {"ice": ice, "upkeep": upkeep}, **rest})
    assert one == season_of({"closed": {"upkeep": upkeep, "ice": ice}, **rest})
    assert season_of({"closed": {}, **rest}) is None


def test_tables_by_name_stand_among_the_inputs(tmp_path: Path) -> None:
    rows = {row.key: row.text for row in input_rows(load_scheme(written(tmp_path, TEXT)), "first_unit")}
    assert rows["machine.river_unit.stops.debris.each"] == "36 h"
    assert rows["place.otter_bend.season.closed.ice_run.last"] == "04-14"
    assert rows["place.otter_bend.doubt.area"] == "0.05"
