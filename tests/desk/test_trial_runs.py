"""Runs of a campaign on the screen: a file that is there is not taken twice; tares and section have fields."""

from __future__ import annotations

import asyncio
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from nicegui import Client

from racewright.desk.keeper.keeper import Keeper
from racewright.desk.parts.trial_logger import Drop
from racewright.desk.parts.trial_runs import run_fields
from racewright.desk.screen import Screen
from racewright.desk.seam import Options, page_named
from tests.desk.common import example

LOADS = b"time,flow_a\n0,1\n0.05,1.1\n"


@pytest.fixture
def screen(tmp_path: Path) -> Screen:
    """The trials of a fresh copy of the example, with a logger file of the run 'loads'."""
    scheme = example(tmp_path, "model_test")
    (scheme.parent / "loads.csv").write_bytes(LOADS)
    keeper = Keeper(scheme)
    desk: Any = SimpleNamespace(keeper=keeper)
    made = Screen(desk, page_named("trials"), Options(), "tab")
    keeper.listen(made._followed)
    return made


class _File:
    def __init__(self, name: str, data: bytes) -> None:
        self.name, self._data = name, data

    async def save(self, path: Path) -> None:
        await asyncio.sleep(0)
        path.write_bytes(self._data)


def _event(name: str, data: bytes) -> Any:
    return SimpleNamespace(file=_File(name, data))


def _said(client: Client) -> str:
    return "\n".join(str(getattr(e, "text", "")) for e in client.elements.values())


def _runs(screen: Screen) -> list[str]:
    return list(screen.desk.keeper.loaded.scheme.trials["flume"].runs)


def _files(screen: Screen) -> set[str]:
    return {p.name for p in screen.desk.keeper.path.parent.iterdir()}


def test_a_file_that_a_run_has_is_not_taken_again(screen: Screen, place: Client) -> None:
    """Under another name, the same bytes: the run is named, its fields are shown, nothing is written."""
    drop = Drop(screen)
    drop.runs = run_fields(screen)
    before, files, text = _runs(screen), _files(screen), screen.desk.keeper.text
    asyncio.run(drop.came(_event("copy of loads.csv", LOADS)))
    assert "copy of loads.csv is there already, as run loads (loads.csv)" in _said(place)
    assert "Nothing was imported" in _said(place)
    assert (_runs(screen), _files(screen), screen.desk.keeper.text) == (before, files, text)


def test_two_equal_files_at_once_make_one_run(screen: Screen, place: Client) -> None:
    drop = Drop(screen)

    async def both() -> None:
        await asyncio.gather(*(drop.came(_event(name, LOADS + b"0.1,1\n")) for name in ("a.csv", "b.csv")))

    before = _files(screen)
    asyncio.run(both())
    new = [run for run in _runs(screen) if run not in ("loads", "narrow", "weed")]
    assert len(new) == 1
    assert _files(screen) - before == {f"run_{new[0]}.csv"}
    assert f"as run {new[0]}" in _said(place)


def test_a_run_that_was_taken_back_can_be_dropped_again(screen: Screen, place: Client) -> None:
    """Its file stayed beside the scheme, with the very bytes: it serves again."""
    drop, keeper = Drop(screen), screen.desk.keeper
    for _time in range(2):
        asyncio.run(drop.came(_event("new.csv", b"time,x\n1,2\n")))
        assert "new" in _runs(screen)
        keeper.undo(keeper.revision)
        assert "new" not in _runs(screen)
    assert "Refused" not in _said(place)


def _entry(client: Client, label: str) -> Any:
    found = [e for e in client.elements.values() if e.props.get("label") == label]
    return found[-1]


def _typed(entry: Any, text: str) -> None:
    entry.value = text
    next(one for one in entry._event_listeners.values() if one.type == "blur").handler()


def test_a_new_run_gets_its_tares_and_its_section_by_fields(screen: Screen, place: Client) -> None:
    """No file is opened for it: span, tares and channel are typed, plain numbers in the units shown."""
    drop = Drop(screen)
    runs = drop.runs = run_fields(screen)
    asyncio.run(drop.came(_event("new.csv", b"time,x\n1,2\n")))
    assert runs is not None
    _typed(_entry(place, "tare before: start, s"), "0")
    assert _entry(place, "tare before: end, s").error == "give both ends"
    assert screen.written("trials.flume.runs.new.tares.before.start") == ""
    _typed(_entry(place, "tare before: end, s"), "60")
    _typed(_entry(place, "run ends at, s"), "20 min")
    _typed(_entry(place, "channel width, this run, m"), "1.6")
    run = screen.desk.keeper.loaded.scheme.trials["flume"].runs["new"]
    assert {name: (t.start, t.end) for name, t in run.tares.items()} == {"before": (0.0, 60.0)}
    assert (run.end, run.width) == (1200.0, 1.6)
    _typed(_entry(place, "channel width, m"), "2.5")
    assert screen.desk.keeper.loaded.scheme.trials["flume"].rig.width == 2.5


def test_a_wrong_tare_is_told_at_its_end_and_an_emptied_one_goes(screen: Screen, place: Client) -> None:
    run_fields(screen)
    end, start = _entry(place, "tare after: end, s"), _entry(place, "tare after: start, s")
    assert (start.value, end.value) == ("1270 s", "1320 s")
    _typed(end, "1000")
    assert "must come after start" in end.error
    assert start.error is None
    _typed(end, "1320 kg")
    assert "mass" in end.error
    start.value = ""
    _typed(end, "")
    assert end.error is None
    assert list(screen.desk.keeper.loaded.scheme.trials["flume"].runs["loads"].tares) == ["before"]
    _typed(_entry(place, "run ends at, s"), "1300 kg")
    assert "mass" in _entry(place, "run ends at, s").error


def test_another_run_shows_its_own_fields(screen: Screen, place: Client) -> None:
    runs = run_fields(screen)
    runs.choose("narrow")
    assert _entry(place, "channel width, this run, m").value == "1.6 m"
    assert _entry(place, "tare after: start, s").value == "520 s"
