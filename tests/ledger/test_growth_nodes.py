"""Growth of a case: sizes from the machine, claims filled, programme; sources and refusals."""

from __future__ import annotations

from typing import Any

import pytest

from racewright.errors import InputError
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import decode, encode
from racewright.ledger.growth_money import leap_of, programme_of, step_costs
from racewright.ledger.growth_parts import growth_of
from racewright.ledger.growth_things import claim_of, in_order, longest_fish
from racewright.ledger.node import Given
from racewright.ledger.nodes_growth import ENERGY, GROWTH_NODES
from racewright.ledger.roles import Roles, roles_of
from racewright.scheme import load_scheme
from racewright.tick import silent
from racewright.uncertainty import Band
from tests.growth.steps import FRESH, RIVER
from tests.ledger.common import FULL_EXAMPLE as EXAMPLE

NODES = {node.name: node for node in GROWTH_NODES}


class _Bands:
    combined = RIVER.point.band


class _Energy:
    total = Band(3.0e10, 4.0e10, 5.0e10, "stated")


def _roles() -> Roles:
    scheme = load_scheme(EXAMPLE / "scheme.toml").scheme
    name, case = next(iter(scheme.case.items()))
    return roles_of(scheme, name, case)


ROLES = _roles()


def given(node: str, nodes: dict[str, Any], **changed: Any) -> Given:
    keys = {path: ROLES.plain(path) for path in NODES[node].keys}
    return Given({**keys, **changed}, {}, nodes, 7)


MACHINE = {"rows": (RIVER.step.vanes, RIVER.step.blades), "flow": RIVER.step.flow, "water": FRESH}
GROWTH = NODES["growth"].compute(given("growth", MACHINE), silent)
AROUND = {**MACHINE, "design_point": RIVER.point, "bands": _Bands(), "energy": _Energy(), "growth": GROWTH}
CLAIMS = NODES["claims"].compute(given("claims", AROUND), silent)
PROGRAMME = NODES["programme"].compute(given("programme", {}), silent)


def test_sizes_come_in_order_with_their_own_water_and_surface() -> None:
    steps = [page.solved.step for page in GROWTH.pages]
    assert [step.name for step in steps] == ["model", "river unit", "tidal unit"]
    assert [step.throat_diameter for step in steps] == pytest.approx([0.43, 1.0, 14.0], rel=1e-12)
    assert steps[2].water.density > steps[1].water.density
    assert steps[0].unit.roughness == pytest.approx(2e-5)
    assert steps[2].blades.clearance / steps[2].blades.radius[-1] == pytest.approx(0.005, rel=1e-9)
    assert steps[0].place.fish_length == pytest.approx(0.7)


def test_the_machine_s_own_size_gives_the_machine_s_own_point() -> None:
    own = GROWTH.pages[1].solved.point
    assert own.shaft_power == pytest.approx(RIVER.point.shaft_power, rel=2e-3)


def test_values_go_through_the_cache() -> None:
    for value in (GROWTH, CLAIMS, PROGRAMME):
        again = decode(encode(value, "k"), "k", CLASSES)
        assert encode(again, "k") == encode(value, "k")


def test_claims_are_filled_from_the_size_they_are_of() -> None:
    by = {(one.name, one.step): one for one in CLAIMS}
    assert by["shaft power at design", ""].value == pytest.approx(RIVER.point.shaft_power)
    tidal = by["electrical power at design", "tidal unit"]
    assert tidal.value == pytest.approx(GROWTH.pages[2].solved.electrical_power)
    assert by[ENERGY, ""].value == _Energy.total.value
    assert "place" in by[ENERGY, ""].source
    assert by["days between calls of the crew", "river unit"].value == 40.0


def test_findings_bring_the_sources_back() -> None:
    found = growth_of(ROLES, {"growth": GROWTH, "claims": CLAIMS, "programme": PROGRAMME})
    assert found is not None
    (mass,) = [one for one in found.growth.pages[1].scaled if one.exponent.name == "duct mass"]
    assert (mass.exponent.source, mass.exponent.value) == ("invented, three drawings", 2.5)
    assert mass.exponent.status == "stated by the user"
    assert len(found.sheet.claims) == 5
    assert found.invented


def test_the_programme_is_that_of_the_scheme() -> None:
    steps = PROGRAMME.programme.steps
    assert [step.cost.amount for step in steps] == [90e3, 420e3, 9e6]
    assert PROGRAMME.value.chance == pytest.approx(0.8 * 0.6 * 0.5)
    assert PROGRAMME.cash.finished == pytest.approx(0.24, abs=0.015)
    assert PROGRAMME.value.value_of_stopping.amount > 0.0
    assert PROGRAMME.leap is not None
    again = NODES["programme"].compute(given("programme", {}), silent)
    assert encode(again, "k") == encode(PROGRAMME, "k")


def test_costs_by_exponents_go_from_the_first_unit_built() -> None:
    river, tidal = PROGRAMME.costs
    assert river.scaled.size_factor == 1.0
    assert tidal.scaled.size_factor == pytest.approx(200.0**0.8)
    assert tidal.built_before == 2
    free = programme_of({"a": _size(cost={"si": 0.0, "currency": "EUR"})}, ROLES.plain("growth.programme"))
    assert step_costs(free, 0.8, 0.1) == ()


def _size(**changed: Any) -> dict[str, Any]:
    table = ROLES.plain("growth.size")["river_unit"]
    return {**table, "programme": {**table["programme"], **changed}}


def test_no_leap_and_no_fish() -> None:
    assert leap_of({"leap": None}) is None
    assert longest_fish(None) is None
    assert longest_fish({}) is None
    assert in_order({"b": {"order": 2}, "a": {"order": 9}})[0][0] == "b"


def test_one_size_is_no_growth() -> None:
    one = {"model": ROLES.plain("growth.size")["model"]}
    with pytest.raises(InputError, match="two sizes"):
        NODES["growth"].compute(given("growth", MACHINE, **{"growth.size": one}), silent)


def test_a_size_far_off_the_machine_is_refused_with_its_key() -> None:
    sizes = ROLES.plain("growth.size")
    sizes["model"] = {**sizes["model"], "throat_diameter": 1e-9}
    with pytest.raises(InputError) as caught:
        NODES["growth"].compute(given("growth", MACHINE, **{"growth.size": sizes}), silent)
    assert (caught.value.key or "").startswith("model.")


def test_a_band_without_a_value_is_refused() -> None:
    table = {**ROLES.plain("growth.claim")["power"], "low": 1.0}
    with pytest.raises(InputError) as caught:
        claim_of("power", table)
    assert caught.value.key == "power.value"
    assert claim_of("power", {**table, "value": 2.0}).band == Band(1.0, 2.0, 2.0, "as stated")
