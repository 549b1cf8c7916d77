"""The quick way of an edit gives what the long way gives, to the byte, or leaves it to the long way."""

from __future__ import annotations

import random
import tomllib
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest
import tomlkit

from racewright.desk.keeper import text as keeper_text
from racewright.desk.keeper.in_line import in_line
from racewright.desk.keeper.text import changed

EXAMPLES = ("river_unit", "model_test", "tidal_unit")
SAMPLE = 10


def _scalars(table: dict[str, Any], above: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    for key, value in table.items():
        if isinstance(value, dict):
            yield from _scalars(value, (*above, key))
        elif isinstance(value, str | int | float):
            yield (*above, key), value


def _long_way(text: str, parts: tuple[str, ...], value: Any) -> str:
    document = tomlkit.parse(text)
    table: Any = document
    for part in parts[:-1]:
        table = table[part]
    table[parts[-1]] = value
    return tomlkit.dumps(document)


@pytest.mark.parametrize("name", EXAMPLES)
def test_same_text_as_by_the_long_way(name: str) -> None:
    text = (files("racewright.examples") / name / "scheme.toml").read_text()
    scalars = list(_scalars(tomllib.loads(text)))
    quick = [parts for parts, _value in scalars if in_line(text, parts, 1.5) is not None]
    assert len(quick) > 0.8 * len(scalars)
    values = ("-2.5 deg", 'a "quoted" word', 7, -0.25, True)
    for at, parts in enumerate(random.Random(5).sample(quick, SAMPLE)):
        value = values[at % len(values)]
        assert in_line(text, parts, value) == _long_way(text, parts, value)


def test_comment_indent_and_line_ends_stay() -> None:
    text = '[a.b]\r\n  x = "1 m"   # why\r\ny = 2\r\n'
    assert in_line(text, ("a", "b", "x"), "2 m") == '[a.b]\r\n  x = "2 m"   # why\r\ny = 2\r\n'
    assert in_line(text, ("a", "b", "y"), 3) == text.replace("y = 2", "y = 3")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("a.b = 1\n", ("a", "b")),
        ('[a]\nb = "x\\ty"\n', ("a", "b")),
        ("[a]\nb = [1, 2]\n", ("a", "b")),
        ("a = {b = 1}\n", ("a", "b")),
        ("[[a]]\nb = 1\n", ("a", "b")),
        ('["a"]\nb = 1\n', ("a", "b")),
        ("[a]\nc = 1\n", ("a", "b")),
    ],
)
def test_leaves_what_stands_otherwise(text: str, parts: tuple[str, ...]) -> None:
    assert in_line(text, parts, 2) is None


def test_a_line_within_a_text_is_not_taken_for_the_key() -> None:
    text = '[a]\nnote = """\n[m]\nturned = 1\n"""\n[m]\nturned = 2  # real\n'
    assert tomllib.loads(changed(text, {"m.turned": 5}))["m"]["turned"] == 5
    alone = '[a]\nnote = """\n[m]\nturned = 1\n"""\n[m]\n"turned" = 2\n'
    assert in_line(alone, ("m", "turned"), 5) is not None
    found = tomllib.loads(changed(alone, {"m.turned": 5}))
    assert found == {"a": {"note": "[m]\nturned = 1\n"}, "m": {"turned": 5}}


def test_most_edits_do_not_read_the_whole_document(monkeypatch: pytest.MonkeyPatch) -> None:
    text = (files("racewright.examples") / "river_unit" / "scheme.toml").read_text()
    monkeypatch.setattr(keeper_text.tomlkit, "parse", lambda _text: pytest.fail("the long way"))
    machine = next(iter(tomllib.loads(text)["machine"]))
    assert "2.5 deg" in changed(text, {f"machine.{machine}.vanes.turned": "2.5 deg"})
