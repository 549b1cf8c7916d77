"""The example's strength: balances of whole rows, what changes with the scheme's words, what is refused."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.strength_findings import StrengthFindings
from racewright.ledger.strength_parts import STRENGTH_NAMES, strength_of, strength_remarks
from racewright.strength.span_load import row_span_load
from tests.ledger.common import load_changed
from tests.safety.walk import bare_numbers

SERIES = """
[machine.river_unit.strength.series.root]
file = "stress.csv"
duration = "600 s"
curve = "f_sea_free"
source = "invented"

# ---- the community ---"""
Change = tuple[str, str]


@lru_cache(maxsize=16)
def values_with(*changes: Change, stress: str = "stress\n0\n80\n-20\n60\n0\n") -> dict[str, Any]:
    """Values without a holding, which takes minutes; strength wants of it the blow alone."""
    folder = Path(mkdtemp(prefix="racewright-test-"))
    (folder / "stress.csv").write_text(stress, "utf-8")
    loaded = load_changed(folder, *changes)
    name, case = next(iter(loaded.scheme.case.items()))
    wanted = (*STRENGTH_NAMES, "strength_points", "rows", "water", "states")
    values = evaluate(loaded, name, case, wanted=wanted, store=Store(cache_folder(), CLASSES))
    return {**values, "found": strength_of(roles_of(loaded.scheme, name, case), values)}


def found_with(*changes: Change, **more: str) -> StrengthFindings:
    found = values_with(*changes, **more)["found"]
    assert isinstance(found, StrengthFindings)
    return found


def test_vanes_hand_all_of_hub_and_rotor_to_the_duct() -> None:
    values = values_with()
    vanes, _blades = values["rows"]
    outer = float(vanes.radius[-1])
    for point in values["strength_points"]:
        state = f"{point.name} at {point.stream_speed:.2f} m/s"
        end = next(r for r in values["found"].stresses.roots if (r.part, r.end, r.state) == ("vane", "duct", state))
        forces = point.forces
        assert vanes.count * end.axial_force == pytest.approx(forces.vanes + forces.hub + forces.rotor, rel=1e-6)
        density = values["water"].density
        load = row_span_load(point.triangles, density, vanes.count, "vanes", row_force=forces.vanes)
        r = np.linspace(load.radius[0], load.radius[-1], 4001)
        own = vanes.count * float(np.trapezoid(r * np.interp(r, load.radius, load.tangential), r))
        on_duct = vanes.count * (end.tangential_force * outer - end.tangential_bending)
        assert on_duct == pytest.approx(point.torque + own, rel=1e-4, abs=0.1)


def test_blades_bear_the_rotor_and_pull_when_they_turn() -> None:
    values = values_with()
    _vanes, blades = values["rows"]
    for point in values["strength_points"]:
        state = f"{point.name} at {point.stream_speed:.2f} m/s"
        root = next(r for r in values["found"].stresses.roots if (r.part, r.state) == ("blade", state))
        assert blades.count * root.axial_force == pytest.approx(point.forces.rotor, rel=1e-6)
        torque = blades.count * (root.tangential_force * float(blades.radius[0]) + root.tangential_bending)
        assert torque == pytest.approx(point.torque, rel=0.02, abs=8.0)
        assert (root.pull > 0.0) == (point.rotor_speed > 0.0)


def test_every_number_carries_its_basis() -> None:
    assert list(bare_numbers(found_with())) == []
    assert list(bare_numbers(found_with(("# ---- the community ---", SERIES)))) == []


def test_heaviest_states_and_no_blow_without_a_holding() -> None:
    found = found_with()
    assert {root.state.split(" at ")[0] for root in found.stresses.roots} == {"on load", "runaway", "held"}
    assert found.stresses.duct.point is None
    assert "no holding" in found.stresses.duct.point_from
    low = min(state.lowest_pressure for state in values_with()["states"])
    assert found.stresses.duct.pressure_difference == -low
    assert any("certificate" in remark.text for remark in strength_remarks(found))


def test_words_of_the_scheme_change_what_they_should() -> None:
    usual = found_with()
    point = found_with(("out_of_round = ", 'point_load = "50 kN"\nout_of_round = ')).stresses.duct
    assert point.point_load == 50e3
    assert point.point_check is not None
    assert point.point_check.use > usual.stresses.duct.pressure_check.use
    solid = found_with(('wall = "40 mm"', "#")).stresses.duct
    assert solid.mass_per_length > usual.stresses.duct.mass_per_length
    free = found_with(('vane_ends = "both ends"', 'vane_ends = "one end"'))
    assert {root.end for root in free.stresses.roots if root.part == "vane"} == {"duct"}
    assert free.frequencies.vane.in_water[0] < usual.frequencies.vane.in_water[0]
    key = "\n[machine.river_unit.strength.factors]\nload = 'en_variable'\n\n# ---- the community ---"
    stricter = found_with(("# ---- the community ---", key))
    for name, check in usual.checks.items():
        assert stricter.checks[name].use == pytest.approx(check.use * 1.5 / 1.35)


def test_an_own_material_decides_by_its_certificate() -> None:
    own = (
        'material = "own"\nown = { title = "cast bronze", group = "bronze", density = "7600 kg/m3", '
        'elasticity = "110 GPa", yield_strength = "100 MPa", ultimate_strength = "300 MPa", '
        'source = "certificate 7" }'
    )
    found = found_with(('material = "nickel_aluminium_bronze"', own))
    root = next(root for root in found.stresses.roots if root.part == "blade")
    assert root.check.design_strength == pytest.approx(100e6 / 1.25)
    assert "certificate" in root.check.safety.status


def test_fatigue_of_a_given_series() -> None:
    place = found_with(("# ---- the community ---", SERIES)).fatigue[0]
    assert place.place == "root"
    assert place.damage.curve.key == "f_sea_free"
    assert place.damage.design_damage == pytest.approx(3.0 * place.damage.damage)
    assert float(place.damage.cycles.stress_range.max()) == pytest.approx(100e6)
    assert place.damage.life == pytest.approx(600.0 / place.damage.design_damage)
    assert place.enough is False
    strength = "\n[machine.river_unit.strength.factors]\nfatigue = 'en_fatigue_strength'\n"
    on_range = found_with(("# ---- the community ---", SERIES.replace("\n# ----", strength + "\n# ----"))).fatigue[0]
    assert on_range.damage.design_damage == on_range.damage.damage
    assert float(on_range.damage.corrected_range.max()) == pytest.approx(1.35 * 100e6)


@pytest.mark.parametrize(
    ("series", "stress", "told"),
    [
        (SERIES.replace("f_sea_free", "q_moon"), "stress\n1\n2\n", "q_moon"),
        (SERIES.replace('curve = "', 'stress_column = "sigma"\ncurve = "'), "stress\n1\n2\n", "sigma"),
        (SERIES, "stress\n1\nnan\n", "nan"),
        (SERIES, "stress\n1\n", "root"),
    ],
)
def test_a_series_that_is_wrong_is_refused_where_it_stands(series: str, stress: str, told: str) -> None:
    with pytest.raises(InputError, match=told) as fault:
        values_with(("# ---- the community ---", series), stress=stress)
    assert fault.value.file is not None
