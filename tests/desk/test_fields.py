"""Fields in process: a plain number is in the unit shown; what was pulled and refused is told at its field."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from nicegui import Client

from racewright.desk.keeper.keeper import Keeper
from racewright.desk.keeper.plain import unit_of, with_unit
from racewright.desk.look.entries import field, refused
from racewright.desk.parts.holding_live import Live as Hung
from racewright.desk.parts.machine_drawing import HANDLES
from racewright.desk.parts.machine_live import Live as Turned
from racewright.desk.screen import Screen
from racewright.desk.seam import Options, page_named
from tests.desk.common import example

VANES = "machine.river_unit.vanes.turned"
AHEAD = "holding.four_lines.anchor.bow_port.ahead"


@pytest.fixture
def screen(tmp_path: Path) -> Screen:
    """A page over a fresh copy of the example; nothing is asked of workers."""
    desk: Any = SimpleNamespace(keeper=Keeper(example(tmp_path)))
    return Screen(desk, page_named("machine"), Options(), "tab")


def _entry(client: Client, label: str) -> Any:
    return next(e for e in client.elements.values() if e.props.get("label") == label)


def _typed(entry: Any, text: str) -> None:
    """Write it and leave the field."""
    entry.value = text
    next(one for one in entry._event_listeners.values() if one.type == "blur").handler()


def test_a_plain_number_in_an_angle_is_degrees(screen: Screen, place: Client) -> None:
    field(screen, VANES, "vanes turned")
    entry = _entry(place, "vanes turned, deg")
    _typed(entry, "2")
    assert entry.error is None
    assert entry.value == screen.written(VANES) == "2 deg"
    _typed(entry, "0.1 rad")
    assert entry.props["label"] == "vanes turned, deg"
    _typed(entry, "-1.5")
    assert screen.written(VANES) == "-1.5 deg"


def test_a_plain_number_is_in_the_unit_that_is_written_and_the_label_follows(screen: Screen, place: Client) -> None:
    key = "machine.river_unit.duct.throat_diameter"
    field(screen, key)
    entry = _entry(place, "throat diameter, m")
    _typed(entry, "980 mm")
    assert entry.props["label"] == "throat diameter, mm"
    _typed(entry, "1010")
    assert screen.written(key) == "1010 mm"
    _typed(entry, "wide")
    assert "is not a number and a unit" in entry.error
    assert screen.written(key) == "1010 mm"


@pytest.mark.parametrize(
    ("path", "written", "unit"),
    [
        ("machine.x.vanes.turned", "", "deg"),
        ("machine.x.vanes.turned", "0.1 rad", "deg"),
        ("machine.x.vanes.count", "7", ""),
        ("place.x.depth", "3 ft", "ft"),
        ("trials.x.runs.a.tares.before.start", "", "s"),
        ("community.x.interest", "6 %", "%"),
        ("community.x.interest", "0.06", ""),
        ("community.x.diesel.fuel_price", "", "NPR/L"),
        ("community.x.diesel.fuel_price", "1.3 EUR/gal", "EUR/gal"),
        ("trials.x.runs.a.file", "a.csv", ""),
        ("no.such.key", "1 m", ""),
    ],
)
def test_the_unit_of_a_field(path: str, written: str, unit: str) -> None:
    assert unit_of(path, written, lambda: "NPR") == unit


def test_only_a_plain_number_gets_the_unit() -> None:
    assert with_unit(" 2 ", "deg") == "2 deg"
    assert with_unit("1e3", "N") == "1e3 N"
    assert with_unit("2 rad", "deg") == "2 rad"
    assert with_unit("", "deg") == ""
    assert with_unit("2", "") == "2"


def test_a_price_without_a_currency_has_no_unit() -> None:
    assert unit_of("community.x.diesel.fuel_price", "") == ""


def test_a_refused_pull_of_the_machine_stands_at_its_field(
    screen: Screen, place: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A throat that no machine can have: the field says why, the line below the drawing leads there, nothing else."""
    monkeypatch.setattr(Turned, "_ask_quick", lambda _self: None)
    live = Turned(screen, None, lambda: None)
    refused(screen)
    for handle in HANDLES[:2]:
        field(screen, f"machine.river_unit.{handle.key}", handle.label)
    live.pulled(HANDLES[0], 4000.0, True)
    entry, other = _entry(place, "throat diameter, m"), _entry(place, "exit area ratio")
    assert "out of range" in entry.error
    assert other.error is None
    link = next(e for e in place.elements.values() if getattr(e, "text", "") == "To its field")
    spot = str(link.props["href"]).removeprefix("#")
    assert any(e.props.get("id") == spot for e in place.elements.values())
    live.pulled(HANDLES[0], 1.1, True)
    assert entry.error is None
    assert not any(getattr(e, "text", "") == "To its field" for e in place.elements.values())


def test_a_refused_pull_of_the_holding_stands_at_its_field(
    screen: Screen, place: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An anchor pulled beyond what the scheme takes, its mirror image with it."""
    monkeypatch.setattr(Hung, "_ask", lambda _self: None)
    live = Hung(screen, None, lambda: None)
    field(screen, AHEAD)
    live.moved("anchor", "bow_port", (-1e6, 0.0, 0.0), True)
    assert "out of range" in _entry(place, "ahead, m").error
    live.moved("anchor", "bow_port", (-0.5, 0.0, 0.0), True)
    assert _entry(place, "ahead, m").error is None
    assert screen.written(AHEAD) == "24.50 m"


def test_a_fault_of_another_key_stands_at_the_value_that_was_pulled(screen: Screen) -> None:
    from racewright.desk.keeper.fault import Fault

    screen.refuse(Fault("is too short", key="h.line.a.length"), ("h.anchor.a.ahead", "h.anchor.a.left"))
    assert screen.refusals == {"h.anchor.a.ahead": "h.line.a.length: is too short"}
    screen.refuse(Fault("is wrong"), ("a.b",))
    assert screen.refusal("a.b") == "is wrong"
    screen.refuse(None)
    assert screen.refusals == {}
