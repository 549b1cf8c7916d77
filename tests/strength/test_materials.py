"""Materials and the verdict on a stress; the energy of a line."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.safety_factors import safety_factor, safety_factors
from racewright.strength.line_energy import stored_energy
from racewright.strength.materials import material, materials
from racewright.strength.stress_check import check_stress

LOAD, STEEL, COMPOSITE = (safety_factor(key) for key in ("tidal_load_ultimate", "tidal_steel", "tidal_composite"))


def test_every_material_says_use_your_certificate():
    table = materials()
    assert {row.group for row in table.values()} == {"steel", "bronze", "aluminium", "polymer", "composite"}
    for name, row in table.items():
        assert row.name == name
        assert "Use your certificate" in row.safety.basis
        assert row.safety.status.startswith("from memory")
        assert row.safety.edition == "2026-11"
        assert row.sea_water
        assert 500.0 < row.density < 10000.0
        assert 1e8 < row.elasticity < 3e11
        assert row.yield_strength or row.ultimate_strength
        for ends in (row.yield_strength, row.ultimate_strength, row.wet_share, row.fatigue_amplitude):
            assert list(ends) == sorted(ends)


def test_the_low_end_and_the_wet_share_count():
    assert material("316l").strength("yield") == 170e6
    assert material("glass_epoxy").strength("ultimate") == pytest.approx(0.7 * 200e6)
    with pytest.raises(NoAnswerError, match="ask for ultimate"):
        material("glass_epoxy").strength("yield")
    with pytest.raises(NoAnswerError, match="ask for yield"):
        material("acetal").strength("ultimate")


def test_check_by_hand():
    """100 MPa x 1.35 against 345/1.25 = 276 MPa: 0.489."""
    found = check_stress(100e6, material("s355"), LOAD, STEEL)
    assert found.use == pytest.approx(135.0 / 276.0)
    assert found.passes
    assert found.limit_state == "ultimate"
    assert found.design_strength == pytest.approx(276e6)
    wet = check_stress(40e6, material("glass_epoxy"), LOAD, COMPOSITE)
    assert wet.use == pytest.approx(54.0 / (140.0 / 3.0))
    assert not wet.passes
    assert wet.remarks[0].severity == "warning"


def test_basis_edition_status_and_caution_travel_with_it():
    found = check_stress(1e6, material("s355"), safety_factor("en_variable"), safety_factor("en_steel_yield"))
    assert "EN 1990" in found.safety.basis
    assert "EN 1993-1-1" in found.safety.basis
    assert "S355" in found.safety.basis
    assert "2002" in found.safety.edition
    assert "from memory, 90 %" in found.safety.status
    assert "licensed" in found.safety.caution


@given(st.floats(0.0, 1e9), st.floats(0.1, 10.0))
def test_use_is_linear(stress, scale):
    one, other = (check_stress(s, material("s355"), LOAD, STEEL).use for s in (stress, scale * stress))
    assert other == pytest.approx(scale * one)
    assert one >= 0.0


def test_a_certificate_takes_the_place_of_the_table():
    table = materials({"s355": {"yield_strength": 382e6, "source": "certificate 123"}})
    row = material("s355", table)
    assert row.strength("yield") == 382e6
    assert row.safety.status == "user's own: certificate 123"
    assert "3.45e+08-3.55e+08" in row.replaces
    assert material("s355").strength("yield") == 345e6
    remarks = check_stress(1e6, row, LOAD, STEEL).remarks
    assert not any("typical minimum" in remark.text for remark in remarks)


def test_a_new_material():
    new = {
        "title": "iroko",
        "group": "composite",
        "density": 640.0,
        "elasticity": 9.4e9,
        "poisson": 0.3,
        "ultimate_strength": [40e6, 85e6],
        "source": "invented",
    }
    assert material("iroko", materials({"iroko": new})).strength("ultimate") == 40e6
    with pytest.raises(InputError, match="lacks density"):
        materials({"iroko": {key: value for key, value in new.items() if key != "density"}})
    with pytest.raises(InputError, match="lacks a strength"):
        materials({"iroko": {key: value for key, value in new.items() if key != "ultimate_strength"}})


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        ({"yield_strength": 300e6}, "no source"),
        ({"yield_strength": math.nan, "source": "me"}, "yield_strength of the material"),
        ({"yield_strength": -1.0, "source": "me"}, "yield_strength of the material"),
        ({"yield_strength": [400e6, 300e6], "source": "me"}, "low, high"),
        ({"density": math.inf, "source": "me"}, "density of the material"),
        ({"poisson": 0.7, "source": "me"}, "Poisson"),
        ({"taste": 1.0, "source": "me"}, "no field 'taste'"),
        ({"group": "cheese", "source": "me"}, "wants a group"),
    ],
)
def test_bad_edits(edit, words):
    with pytest.raises(InputError, match=words):
        materials({"s355": edit})


def test_bad_checks():
    with pytest.raises(InputError, match=r"'wood'.*s355"):
        material("wood")
    with pytest.raises(InputError, match="wanted one for a load"):
        check_stress(1e6, material("s355"), STEEL, STEEL)
    for bad in (math.nan, math.inf, -1.0):
        with pytest.raises(InputError, match="stress is"):
            check_stress(bad, material("s355"), LOAD, STEEL)
    none = safety_factors()["ufc_deadweight"]
    with pytest.raises(InputError, match="factor for a anchor"):
        check_stress(1e6, material("s355"), none, STEEL)


@given(st.floats(0.0, 1e6), st.floats(0.1, 1e3), st.floats(1e3, 1e9), st.floats(0.1, 10.0))
def test_stored_energy_scales(tension, length, stiffness, scale):
    one = stored_energy(tension, length, stiffness)
    assert stored_energy(scale * tension, length, stiffness).energy == pytest.approx(scale**2 * one.energy)
    assert stored_energy(tension, length, scale * stiffness).energy == pytest.approx(one.energy / scale)
    assert one.energy == pytest.approx(0.5 * tension * one.stretch)


def test_stored_energy_carries_its_caution():
    found = stored_energy(20e3, 20.0, 1e6)
    assert "snap-back" in found.safety.caution
    assert found.remarks[0].severity == "warning"
    assert "4000 J" in found.remarks[0].text
    for bad in (math.nan, math.inf, -1.0):
        with pytest.raises(InputError, match="tension"):
            stored_energy(bad, 20.0, 1e6)
        with pytest.raises(InputError, match="stiffness"):
            stored_energy(1.0, 20.0, bad)
