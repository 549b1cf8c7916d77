"""Pressure and shear against published dose-responses."""

from __future__ import annotations

import pytest

from racewright.passage.barotrauma import decompression
from racewright.passage.species import fish_class, strain_width
from tests.external.record import Record
from tests.external.supply_rows import rows


def _known(quantity: str) -> list[tuple[float, float]]:
    return [
        (float(row["input"] or "nan"), float(row["value"]))
        for row in rows("passage_pressure_shear")
        if row["quantity"] == quantity
    ]


@pytest.mark.outside(
    source="Brown and others (2012), Trans. Am. Fish. Soc. 141: logit P = -5.56 + 3.85 ln(ratio), eight ratios",
    status="from memory",
    tolerance="1e-5",
)
def test_juvenile_chinook(record_property: Record) -> None:
    fish = fish_class("salmonid_smolt")
    worst = 0.0
    for ratio, want in _known("Chinook mortal injury probability"):
        found = decompression(fish, 1e5 * ratio, 1e5).death.value
        assert found is not None
        worst = max(worst, abs(found - want))
    record_property("measured", f"{worst:.0e}")
    assert worst < 1e-5
    (half,) = (value for _ratio, value in _known("ratio giving 50%"))
    assert decompression(fish, 1e5 * half, 1e5).death.value == pytest.approx(0.5, abs=1e-5)


@pytest.mark.outside(
    source="the same form from 120945 to 88945 Pa absolute: 0.01240921; a gauge pressure shows at once",
    status="closed form",
    tolerance="1e-5",
)
def test_absolute_pressures(record_property: Record) -> None:
    found = decompression(fish_class("salmonid_smolt"), 120945.0, 88945.0)
    assert found.death.value is not None
    record_property("measured", f"{abs(found.death.value - 0.01240921):.0e}")
    assert found.death.value == pytest.approx(0.01240921, abs=1e-7)
    assert found.rules_met == (True, True)


@pytest.mark.outside(
    source="review, Water 2023, 15, 1888: bass 25/42/46 % at 1.89/2.77/3.65, perch 70 % at 3.00",
    status="published",
    tolerance="exact",
)
@pytest.mark.parametrize(("name", "quantity"), [("bass", "largemouth bass"), ("perch", "perch")])
def test_points(name: str, quantity: str) -> None:
    for ratio, dead in _known(quantity):
        assert decompression(fish_class(name), 1e5 * ratio, 1e5).death.value == pytest.approx(dead, abs=1e-9)


@pytest.mark.outside(
    source="Neitzel and others (2004), Pflugrath and others (2021), Navarro and others (2019): 500, 800, 148 1/s",
    status="published",
    tolerance="exact",
)
def test_strain_limits() -> None:
    salmonid, eel, egg = (fish_class(name).shear for name in ("salmonid_smolt", "eel", "river_egg"))
    assert salmonid is not None
    assert eel is not None
    assert egg is not None
    ((_, smooth),) = _known("juvenile salmonid no-significant-injury strain")
    ((_, tough),) = _known("American eel no injury")
    ((_, tender),) = _known("silver perch eggs 100% dead above")
    assert (salmonid.harmless, eel.harmless, egg.deadly) == (smooth, tough, tender)
    assert egg.at(149.0).value == 1.0
    assert salmonid.at(500.0).high == 0.0
    assert salmonid.at(501.0).value is None


@pytest.mark.outside(
    source="definition of the laboratory series: 9.3 m/s over 1.8 cm is 516.667 1/s; 21.3 m/s with 1185 1/s was read",
    status="published",
    tolerance="0.2 %",
)
def test_strain_width(record_property: Record) -> None:
    assert 9.3 / strain_width() == pytest.approx(516.667, rel=1e-6)
    record_property("measured", f"{100.0 * abs(21.3 / strain_width() / 1185.0 - 1.0):.2f} %")
    assert 21.3 / strain_width() == pytest.approx(1185.0, rel=2e-3)
