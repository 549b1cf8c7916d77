"""The machine page in process: its numbers are the command line's, and the quick answer is the settled one."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from racewright.cli.app import app
from racewright.cli.encode import to_json
from racewright.cli.summary import summary
from racewright.desk.answer import answer_page, answer_with
from racewright.desk.pages.machine import MachineOptions
from racewright.desk.parts import machine_drawn, machine_quick
from racewright.desk.parts.machine_versions import differences
from racewright.desk.seam import Options
from racewright.errors import InputError
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import load_scheme
from tests.desk.common import example

TURNED = (b'turned = "0 deg"           #', b'turned = "2 deg"           #')
"""The vanes' angle in the example, and two degrees."""


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("machine"))


def _page(scheme: Path, part: str, data: bytes | None = None) -> Any:
    options = MachineOptions(part=part)  # type: ignore[arg-type]
    return json.loads(answer_page("machine", data or scheme.read_bytes(), scheme, options).text)


def _quick(scheme: Path, function: Any, data: bytes) -> Any:
    return json.loads(answer_with(function, data, scheme, Options()).text)


def test_the_point_is_that_of_the_command_line(scheme: Path) -> None:
    """`racewright point --json` at the design speed."""
    ran = CliRunner().invoke(app, ["point", str(scheme), "--json"])
    assert ran.exit_code == 0
    assert _page(scheme, "point")["point"] == json.loads(ran.stdout)["point"]


def test_curve_states_and_energy_are_those_of_the_report(scheme: Path) -> None:
    """`racewright report --json`, key for key."""
    loaded = load_scheme(scheme)
    found = compute(loaded, None, store=Store(cache_folder(), CLASSES))
    told = json.loads(to_json(summary(found), {}, "EUR"))
    year = _page(scheme, "year")
    assert _page(scheme, "point")["curve"] == told["machine"]["curve"]
    assert year["states"] == told["machine"]["states"]
    assert year["energy"] == told["energy"]


def test_triangles_and_budget_are_drawn_for_both_widths(scheme: Path) -> None:
    made = _quick(scheme, machine_drawn.drawn, scheme.read_bytes())
    for name in ("triangles", "budget"):
        wide, narrow = made[name]
        assert wide.startswith("<svg")
        assert 'class="wide"' in wide
        assert 'class="narrow"' in narrow
        assert wide != narrow


def test_the_budget_adds_up_to_the_drag_power(scheme: Path) -> None:
    """Entries of the outside book; its mismatch is told in the book itself."""
    page = _page(scheme, "point")
    book = page["point"]["book"]
    total = sum(share["power_W"] for share in page["budget"])
    assert total == pytest.approx(book["drag_power_W"], rel=abs(book["mismatch"]) + 1e-9)


def test_the_quick_answer_is_the_settled_one_where_flow_and_rows_are_known(scheme: Path) -> None:
    """Vanes turned by two degrees: the quick point, without design or flow, is the page's to rounding."""
    turned = scheme.read_bytes().replace(*TURNED)
    assert turned != scheme.read_bytes()
    _page(scheme, "point")
    first, second = (_quick(scheme, machine_quick.quick, data) for data in (scheme.read_bytes(), turned))
    page = _page(scheme, "point", turned)
    assert first["basis"] == second["basis"] == "computed"
    assert second["point"]["shaft_power_W"] == pytest.approx(page["point"]["shaft_power_W"], rel=1e-9)
    assert second["point"]["thrust_coefficient"] > first["point"]["thrust_coefficient"]
    assert second["vanes"]["turned_rad"] == pytest.approx(0.0349065850)


def test_a_new_shape_is_answered_quickly_as_an_estimate(scheme: Path) -> None:
    """Another throat: no flow is solved for the quick answer, and it says so."""
    _page(scheme, "point")
    _quick(scheme, machine_quick.quick, scheme.read_bytes())
    wider = scheme.read_bytes().replace(b'throat_diameter = "1 m"', b'throat_diameter = "1.013 m"')
    found = _quick(scheme, machine_quick.quick, wider)
    assert found["basis"] == "before"
    assert found["shape"]["throat_radius_m"] == pytest.approx(0.5065)
    assert found["point"]["shaft_power_W"] > 0.0


def test_a_longer_chord_is_estimated_and_then_designed(scheme: Path) -> None:
    """The estimate lies within 1 % of the designed rows' power: 5 % of a chord changes little."""
    _quick(scheme, machine_quick.quick, scheme.read_bytes())
    longer = scheme.read_bytes().replace(b'tip_chord = "0.2 m"', b'tip_chord = "0.21 m"')
    quick = _quick(scheme, machine_quick.quick, longer)
    settled = _quick(scheme, machine_quick.settled, longer)
    assert (quick["basis"], settled["basis"]) == ("before", "computed")
    assert quick["point"]["shaft_power_W"] == pytest.approx(settled["point"]["shaft_power_W"], rel=0.01)
    assert _quick(scheme, machine_quick.quick, longer)["basis"] == "computed"


def test_the_water_around_the_machine(scheme: Path) -> None:
    """Bands follow each other without a gap, the undisturbed pressure lies within one, lines pass the rotor."""
    field = _page(scheme, "water")["field"]
    bands = field["bands"]
    assert len(bands) >= 6
    assert all(a["high_Pa"] == pytest.approx(b["low_Pa"]) for a, b in pairwise(bands))
    assert any(b["low_Pa"] < 0.0 < b["high_Pa"] and abs(b["tone"]) < 1e-9 for b in bands)
    assert all(-1.0 <= b["tone"] <= 1.0 and b["path"].startswith("M") for b in bands)
    assert {line["captured"] for line in field["lines"]} == {True, False}


def test_a_wrong_value_is_refused_with_its_key(scheme: Path) -> None:
    """More vanes than fit: the fault names the key, so that it stands beside its field."""
    many = scheme.read_bytes().replace(b"count = 7", b"count = 4000")
    with pytest.raises(InputError) as caught:
        _page(scheme, "point", many)
    assert "vanes.count" in str(caught.value.key)


def test_what_differs_between_two_versions(scheme: Path) -> None:
    before = scheme.read_bytes()
    assert differences(before, before) == []
    assert differences(before, before.replace(*TURNED)) == [("machine.river_unit.vanes.turned", "0 deg", "2 deg")]
    assert differences(b"a = 1\n", b"b = 1\n") == [("a", "1", ""), ("b", "", "1")]
