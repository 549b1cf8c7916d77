"""The published JSON Schemas against what commands print for different schemes, and against the scheme's reader."""

from __future__ import annotations

import json
import shutil
import tomllib
from collections.abc import Callable
from functools import lru_cache
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import ValidationError
from tools.docs.example import capture

from racewright.dossier.build import Dossier
from racewright.quantity import DIMENSION_EXAMPLES, parse
from racewright.scheme.json_schema import quantity_pattern
from racewright.scheme.model import FORMAT, Scheme
from tests.ledger.common import EXAMPLE as LEAN
from tests.ledger.common import FULL_EXAMPLE as EXAMPLE

ROOT = Path(__file__).resolve().parents[2]
FISH = ROOT / "tests" / "external" / "data" / "fish_river_scheme.toml"
TEXT = (EXAMPLE / "scheme.toml").read_text("utf-8")
HEAD, REST = TEXT.split("# ---- the place", 1)
PLACE, REST = REST.split("# ---- the machine", 1)
MACHINE, COMMUNITY = REST.split("# ---- the community", 1)
TOP = f'format = {FORMAT}\ntitle = "part"\n'
HANGS = 'across = "27 m"\nhub_height = "1.9 m"\n'

SCHEMES = {
    "example": TEXT,
    "empty": f"format = {FORMAT}\n",
    "machine only": f'{TOP}[case.a]\nmachine = "river_unit"\n# {MACHINE}',
    "place only": f'{TOP}[case.a]\nplace = "otter_bend"\n{HANGS}# {PLACE}',
    "no community": f'{TOP}[case.a]\nplace = "otter_bend"\nmachine = "river_unit"\n{HANGS}# {PLACE}# {MACHINE}',
    "another currency": TEXT.replace(" EUR", " CAD"),
    "lean": (LEAN / "scheme.toml").read_text("utf-8"),
}


@lru_cache(maxsize=16)
def validator(name: str) -> Draft202012Validator:
    schema = json.loads((ROOT / "docs" / "reference" / f"{name}.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.fixture(autouse=True)
def _nothing_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """A report prints the same JSON whatever its dossier holds."""
    monkeypatch.setattr("racewright.cli.report.build", lambda findings: Dossier(b"", b"", {}))


@lru_cache(maxsize=32)
def printed(command: str, name: str) -> dict[str, Any]:
    """What a command prints for one of the schemes."""
    with TemporaryDirectory(prefix="racewright-test-") as folder:
        out = ("--out", f"{folder}/out") if command == "report" else ()
        if name == "two-year record":
            return capture(command, str(FISH), "--json", *out)
        shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True)
        path = Path(folder) / "scheme.toml"
        path.write_text(SCHEMES[name], "utf-8")
        return capture(command, str(path), "--json", *out)


def faults(command: str, answer: Any, most: int = 20) -> list[str]:
    found = islice(validator(command).iter_errors(answer), most)
    return [f"{error.json_path}: {error.message[:200]}" for error in found]


ALL = [*SCHEMES, "two-year record"]


@pytest.mark.parametrize("name", ALL)
def test_report_keeps_its_schema(name: str) -> None:
    answer = printed("report", name)
    assert faults("report", answer) == []
    parts = {key for key in ("machine", "place", "energy", "community") if answer[key] is not None}
    assert parts == {
        "empty": set(),
        "machine only": {"machine"},
        "place only": {"place"},
        "no community": {"machine", "place", "energy"},
    }.get(name, {"machine", "place", "energy", "community"})


@pytest.mark.parametrize("name", ALL)
def test_check_keeps_its_schema(name: str) -> None:
    assert faults("check", printed("check", name)) == []


@pytest.mark.parametrize("name", ["example", "machine only", "two-year record"])
def test_point_keeps_its_schema(name: str) -> None:
    assert faults("point", printed("point", name)) == []


def test_cache_keeps_its_schema() -> None:
    assert faults("cache", capture("cache", "--json")) == []


def test_new_prints_what_its_schema_says(tmp_path: Path) -> None:
    assert faults("new", capture("new", str(tmp_path / "other"), "--json")) == []


def take(*keys: str) -> Callable[[dict[str, Any]], None]:
    """A change that removes a key."""

    def change(answer: dict[str, Any]) -> None:
        for key in keys[:-1]:
            answer = answer[key]
        del answer[keys[-1]]

    return change


def put(value: Any, *keys: str) -> Callable[[dict[str, Any]], None]:
    """A change that writes a value at a key."""

    def change(answer: dict[str, Any]) -> None:
        for key in keys[:-1]:
            answer = answer[key]
        answer[keys[-1]] = value

    return change


COST = ("community", "comparison", "machine")


@pytest.mark.parametrize(
    "change",
    [
        take("machine", "design_point", "torque_N_m"),
        take("units", "machine.design_point.torque_N_m"),
        take("provenance", "version"),
        take("units"),
        take(*COST, "cost_EUR_per_J"),
        put(1.0, "machine", "design_point", "torque"),
        put("much", "machine", "design_point", "torque_N_m"),
        put(None, "machine", "design_point", "torque_N_m"),
        put(None, "machine", "design_point"),
        put("kN m", "units", "machine.design_point.torque_N_m"),
        put("EUR/kWh", "units", "community.comparison.machine.cost_EUR_per_J"),
        put("-", "units", "nothing.here"),
        put(1.0, *COST, "cost_euro_per_J"),
        put("dire", "remarks", 0, "severity"),
        put(1.5, "place", "values"),
    ],
    ids=range(15),
)
def test_the_report_schema_refuses(change: Callable[[dict[str, Any]], None]) -> None:
    answer = json.loads(json.dumps(printed("report", "lean")))
    change(answer)
    assert faults("report", answer, most=1) != []


@pytest.mark.parametrize("text", [*SCHEMES.values(), FISH.read_text("utf-8")], ids=ALL)
def test_the_scheme_schema_takes_what_the_reader_takes(text: str) -> None:
    raw = {**tomllib.loads(text), "format": FORMAT}
    Scheme.model_validate(raw)
    assert [e.message for e in validator("scheme").iter_errors(raw)] == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('throat_diameter = "1 m"', "throat_diameter = 1"),
        ('throat_diameter = "1 m"', 'throat_diameter = "1 kg"'),
        ('throat_diameter = "1 m"', 'throat_diameter = "1,5 m"'),
        ('throat_diameter = "1 m"', 'throat_diamter = "1 m"'),
        ('throat_diameter = "1 m"', ""),
        ("exit_area_ratio = 1.5", "exit_area_ratio = 4"),
        ("count = 7", "count = 7.5"),
        ('kind = "fresh"', 'kind = "salt"'),
        ("invented = true", 'invented = "yes"'),
        ('capital = "42000 EUR"', 'capital = "42000 EUR/yr"'),
        ('file = "discharge.csv"', 'file = ""'),
        (f"format = {FORMAT}", f"format = {FORMAT + 1}"),
    ],
)
def test_the_scheme_schema_refuses_what_the_reader_refuses(old: str, new: str) -> None:
    assert old in TEXT
    raw = tomllib.loads(TEXT.replace(old, new, 1))
    with pytest.raises(ValidationError):
        Scheme.model_validate(raw)
    assert list(validator("scheme").iter_errors(raw)) != []


QUANTITIES = ["1 m", "1m", "  1.5 m ", "+.5 m", "-2.", "3", "1e3 m", "1e1234 m", "1,5 m", "nan m", "1 m m", "1 M",
              "1 N m", "12 degC", "4 %", "60 rpm", "5 EUR", "5 EUR/kWh", "5 eur/kWh", "5 EUR/L", "5 EUR/kW/yr",
              "0.25 L/kWh", "9**9 m", "1 m; 2", ""]  # fmt: skip


@pytest.mark.parametrize("dimension", DIMENSION_EXAMPLES)
def test_patterns_take_exactly_what_the_grammar_takes(dimension: str) -> None:
    check = Draft202012Validator({"pattern": quantity_pattern(dimension)})
    for text in (*QUANTITIES, *DIMENSION_EXAMPLES.values()):
        try:
            parse(text, dimension)
            taken = True
        except ValueError:
            taken = False
        assert check.is_valid(text) == taken, (dimension, text)
