"""The holding page in process: its numbers are the commands', moves write the right keys, views say what is slow."""

from __future__ import annotations

import json
import math
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from nicegui import Client
from typer.testing import CliRunner

from racewright.cli.app import app
from racewright.desk.answer import Answer, answer_page
from racewright.desk.pages import holding
from racewright.desk.pages.holding import HoldingOptions
from racewright.desk.parts import holding_lines, holding_rest, holding_strike, holding_year
from racewright.desk.parts.holding_drawing import Spot, edits, mirror_of, shown, spots_in
from racewright.desk.parts.holding_safety import told
from racewright.dossier import format as fmt
from racewright.errors import InputError
from racewright.scheme import load_scheme
from tests.desk.common import example

BASE = "holding.four_lines"


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("holding"))


@pytest.fixture(scope="module")
def held(scheme: Path) -> Any:
    return _page(scheme, part="held")


@pytest.fixture(scope="module")
def struck(scheme: Path) -> Any:
    return _page(scheme, part="struck")


def _answer(scheme: Path, data: bytes | None = None, **options: Any) -> Answer:
    return answer_page("holding", data or scheme.read_bytes(), scheme, HoldingOptions(**options))


def _page(scheme: Path, data: bytes | None = None, **options: Any) -> Any:
    return json.loads(_answer(scheme, data, **options).text)


def _command(name: str, scheme: Path) -> Any:
    ran = CliRunner().invoke(app, [name, str(scheme), "--json"])
    assert ran.exit_code == 0, ran.output
    return json.loads(ran.stdout)


def test_lines_and_anchors_are_those_of_the_command(scheme: Path, held: Any) -> None:
    """`racewright tethers --json`, key for key."""
    assert held["tethers"] == _command("tethers", scheme)["tethers"]


def test_strikes_and_their_year_are_those_of_the_command(scheme: Path, struck: Any) -> None:
    """`racewright strike --json`, key for key."""
    assert struck["strikes"] == _command("strike", scheme)["strikes"]


@pytest.mark.parametrize("part", ["held", "struck", "rest"])
def test_every_number_of_every_part_has_its_unit(scheme: Path, part: str) -> None:
    page = _page(scheme, part=part)
    units = page.pop("units")
    page.pop("provenance")
    assert [path for path in _numbers(page, "") if path not in units] == []


def test_the_drawings_are_there(scheme: Path) -> None:
    assert set(_answer(scheme).drawings) == {"holding_lines", "holding_poses"}
    assert not _answer(scheme, part="rest").drawings


@pytest.mark.parametrize(("state", "column"), [("on load", -1), ("held trunk: spruce", 3)])
def test_a_rest_is_that_of_the_sweep(scheme: Path, held: Any, state: str, column: int) -> None:
    """Searched anew from the intended place, it ends where the sweep over speeds does.

    Both stop at a small residual of the forces; soft motions make that about 1e-3 of a length and of a tension.
    """
    poses = held["tethers"]["poses"][0]
    speed = poses["stream_speed_m_per_s"][column]
    found = _page(scheme, part="rest", state=state, speed=speed)
    rest, row = found["rest"], poses["states"].index(state)
    assert (found["basis"], rest["settled"], rest["state"]) == ("computed", True, state)
    assert rest["cover_m"] == pytest.approx(poses["cover_m"][row][column], abs=2e-3)
    tension = [line["tension_N"] for line in rest["lines"]]
    assert sum(tension) == pytest.approx(sum(poses["tension_N"][row][column]), rel=2e-3)
    assert [line["name"] for line in rest["lines"]] == poses["lines"]


def test_the_peak_of_the_states_is_the_worst_of_the_intact_lines(scheme: Path, held: Any) -> None:
    """In the example the fastest water decides; that is what the quick answer looks at."""
    peaks = {p["state"]: p["use"] for p in _page(scheme, part="rest")["peaks"]}
    rows = [r for r in held["tethers"]["by_state"] if r["case"] == "intact"]
    assert peaks[max(peaks, key=peaks.__getitem__)] == pytest.approx(max(r["use"] for r in rows), rel=1e-4)
    assert set(peaks) == {r["state"] for r in rows}


def test_a_moved_anchor_is_answered_without_an_edit(scheme: Path, held: Any) -> None:
    """Both bow anchors half a metre further away pull the machine upstream by about as much."""
    spots = spots_in(load_scheme(scheme).scheme.holding["four_lines"])
    written = edits("bow_port", "anchor", (-0.5, 0.0, 0.0), spots, BASE, mirror=True)
    assert written == {f"{BASE}.anchor.bow_port.ahead": "24.50 m", f"{BASE}.anchor.bow_starboard.ahead": "24.50 m"}
    assert held["tethers"] is not None  # its load states are remembered now
    before = _page(scheme, part="rest")
    text = scheme.read_text()
    after = json.loads(holding_rest.moved(text, written, scheme, HoldingOptions(part="rest")).text)
    moved = after["rest"]["axis_m"][0][0] - before["rest"]["axis_m"][0][0]
    assert -0.6 < moved < -0.2
    assert {s["name"]: s["at_m"][0] for s in after["spots"] if s["kind"] == "anchor"}["bow_port"] == -24.5
    assert scheme.read_text() == text


def test_moves_write_what_they_say() -> None:
    """Along x an anchor counts upstream; a mirror image goes the other way across."""
    spots = (
        Spot("anchor", "a", (24.0, 0.8, 1.6)),
        Spot("anchor", "b", (24.0, -0.8, 1.6)),
        Spot("anchor", "c", (9.0, 0.0, 0.0)),
    )
    assert mirror_of(spots[0], spots) == spots[1]
    assert mirror_of(spots[2], spots) is None
    assert edits("a", "anchor", (1.0, 0.25, 0.0), spots, "h", mirror=True) == {
        "h.anchor.a.ahead": "23.00 m",
        "h.anchor.a.left": "1.05 m",
        "h.anchor.b.ahead": "23.00 m",
        "h.anchor.b.left": "-1.05 m",
    }
    assert edits("a", "anchor", (0.0, -0.8, 0.0), spots, "h", mirror=False) == {"h.anchor.a.left": "0.00 m"}
    lead = (Spot("fairlead", "f", (-0.1, 0.6, 0.0)),)
    assert edits("f", "fairlead", (0.1, 0.0, 0.05), lead, "h", mirror=True) == {
        "h.fairlead.f.x": "0.00 m",
        "h.fairlead.f.up": "0.05 m",
    }


def test_spots_of_an_answer_that_the_draft_lost_are_left_out() -> None:
    found = [{"kind": "anchor", "name": n, "at_m": [0.0, 0.0, 0.0]} for n in ("bow_port", "gone")]
    told = shown(found, (Spot("anchor", "bow_port", (1.0, 2.0, 3.0)),))
    assert [(s["said"], s["own"]) for s in told] == [("bow port", (1.0, 2.0, 3.0))]


def test_a_wrong_place_is_refused_with_its_key(scheme: Path) -> None:
    """The fault names the key, so that it stands beside its field."""
    wrong = scheme.read_bytes().replace(b'ahead = "24 m"', b'ahead = "24 kg"', 1)
    with pytest.raises(InputError) as caught:
        _page(scheme, wrong, part="rest")
    assert caught.value.key == f"{BASE}.anchor.bow_port.ahead"


def test_the_matrix_has_the_worst_of_every_state(held: Any) -> None:
    """Its greatest cell in each row is the row of `by_state`, factor and all."""
    found = holding_lines.matrix(held["tethers"]["poses"])
    factor = held["tethers"]["factors"][0]["factor"]
    for row in held["tethers"]["by_state"]:
        if row["case"] == "intact":
            cells = {line: cell for line, cell in found[row["state"]].items() if cell is not None}
            line = max(cells, key=lambda name: cells[name][1])
            assert (line, cells[line][0]) == (row["line"], row["tension_N"])
            assert factor * cells[line][1] == pytest.approx(row["use"], rel=1e-12)


def test_where_nothing_settled_the_matrix_says_so() -> None:
    poses = [
        {
            "states": ["on load"],
            "lines": ["bow"],
            "settled": [[False, False]],
            "tension_N": [[[None], [None]]],
            "utilisation": [[[None], [None]]],
        }
    ]
    assert holding_lines.matrix(poses) == {"on load": {"bow": None}}


def test_what_is_played_is_what_is_told(struck: Any) -> None:
    """Greatest force and tension, and the end, of every play are those of the command's table."""
    for log, play in zip(struck["strikes"]["logs"], struck["plays"], strict=True):
        assert play["name"] == log["name"]
        if log["over_m"] is not None:
            assert (log["first_blow"], log["outcomes"], play["pulses"], play["ways"]) == (None, [], [], [])
            continue
        for pulse, blow in zip(play["pulses"], log["first_blow"]["blows"], strict=True):
            assert max(pulse["force_N"]) == pytest.approx(blow["force_N"], rel=1e-9)
            assert pulse["time_s"][-1] == pytest.approx(blow["duration_s"])
        ways = {way["friction"]: way for way in play["ways"]}
        assert set(ways) == {o["friction"] for o in log["outcomes"]}
        for outcome in log["outcomes"]:
            way = ways[outcome["friction"]]
            assert max(way["tension_N"]) == pytest.approx(outcome["slow_tension"]["high_SI"], rel=1e-12)
            assert way["time_s"] == sorted(way["time_s"])
            moved = [math.hypot(*p) for p in way["machine_m"]]
            told_shift = pytest.approx(outcome["shift_m"], rel=1e-9)
            assert told_shift in (max(moved), max(moved[:-1]))  # the table's trace may stop a step before the end
            if outcome["time_to_clear_s"] is not None:
                assert way["time_s"][-1] == pytest.approx(outcome["time_to_clear_s"], rel=1e-9)


def test_cautions_are_told_once_and_every_edition(held: Any) -> None:
    bases = [row["safety"] for row in held["tethers"]["by_state"]] * 2
    cautions, sources = told([*bases, None])
    assert cautions.count("Slow tension in steady water.") == 1
    assert len(cautions) == len(set(cautions))
    assert all(any(f"Edition: {b['edition'].rstrip('.')}." in source for source in sources) for b in bases)
    assert len(sources) == len(set(sources))
    assert told([]) == ([], [])


def test_the_view_names_the_worst_line_with_basis_and_edition(place: Client, held: Any) -> None:
    holding_lines.tensions(_screen(), held["tethers"])
    holding_lines.anchors(held["tethers"])
    said = _text(place)
    most = holding_lines.worst(held["tethers"])
    assert most is not None
    line, use = most
    assert f"Line {line['name']} comes nearest to its strength: {line['state']}" in said
    assert use["edition"] in said
    assert fmt.quantity(use["value"], fmt.SHARE, 2) in said
    assert "Slow tension in steady water." in said
    assert "Edition: BS 4928 (1985)." in said
    assert all(one["anchor"]["name"] in said for one in held["tethers"]["anchors"])
    assert "impact" not in said.lower()


def test_the_view_of_a_strike_keeps_blow_and_tension_apart(place: Client, struck: Any) -> None:
    holding_strike.strikes(struck)
    holding_year.year(struck["strikes"]["year"])
    said = _text(place)
    hit = [log for log in struck["strikes"]["logs"] if log["first_blow"] is not None]
    hardest = max(hit, key=lambda log: log["first_blow"]["force"]["high_SI"])
    assert "Slow line tension, seconds later" in said
    assert "First blow, at the place struck" in said
    assert holding_strike.span(hardest["first_blow"]["force"]) in said
    assert "rigidly fixed" in said
    assert "none: the mount bears the blow" in said
    assert fmt.quantity(struck["strikes"]["year"]["parting"], fmt.SHARE, 2) in said
    assert "Force at the place struck, for milliseconds." in said
    assert "impact" not in said.lower()


def test_a_holding_without_strikes_and_logs_says_what_to_add(place: Client) -> None:
    holding_strike.strikes({"strikes": {"logs": [], "year": None}, "plays": []})
    holding_year.year(None)
    said = _text(place)
    assert "[holding.NAME.strike.NAME]" in said
    assert "[holding.NAME.log.NAME]" in said


def test_a_log_that_passes_by_has_nothing_to_play(scheme: Path, place: Client) -> None:
    """A sinker eight metres to the side; the saw log floats over in every water."""
    aside = scheme.read_bytes().replace(b'density = "1010 kg/m3"', b'density = "1010 kg/m3"\noffset = "8 m"', 1)
    found = _page(scheme, aside, part="struck")
    n = next(n for n, log in enumerate(found["strikes"]["logs"]) if log["name"] == "sinker")
    assert (found["plays"][n]["ways"], found["plays"][n]["pulses"], found["plays"][n]["point_m"]) == ([], [], [])
    holding_strike.strikes({"strikes": {"logs": [found["strikes"]["logs"][n]]}, "plays": [found["plays"][n]]})
    assert "sinker: passes by. There is nothing to play." in _text(place)
    over = next(n for n, log in enumerate(found["strikes"]["logs"]) if log["name"] == "saw log")
    holding_strike.strikes({"strikes": {"logs": [found["strikes"]["logs"][over]]}, "plays": [found["plays"][over]]})
    assert "m over the machine. There is nothing to play." in _text(place)


def test_a_case_without_a_holding_says_what_to_add(scheme: Path, place: Client) -> None:
    bare = scheme.read_bytes().replace(b'holding = "four_lines"', b"", 1)
    assert bare != scheme.read_bytes()
    for part in ("held", "struck", "rest"):
        page = _page(scheme, bare, part=part)
        assert page.get("tethers") is page.get("strikes") is page.get("rest") is None
    holding.view(_screen(table=lambda role: "" if role == "holding" else "x"), _page(scheme, bare))
    assert 'holding = "NAME"' in _text(place)
    holding.view(_screen(table=lambda _role: ""), _page(scheme, bare))
    assert "a holding needs a place and a machine first" in _text(place)


def _screen(**more: Any) -> Any:
    made: dict[str, Any] = {
        "drawings": {},
        "fault": None,
        "table": lambda _role: "four_lines",
        "written": lambda _key: "",
        "refusal": lambda _key: "",
    }
    return SimpleNamespace(**{**made, "follow": lambda _f: None, "further": lambda *_a, **_o: None, **more})


def _text(client: Client) -> str:
    return "\n".join(str(getattr(e, "text", "")) for e in client.elements.values())


def _numbers(value: Any, path: str) -> list[str]:
    """Paths of numeric leaves, '[]' for each item."""
    if isinstance(value, dict):
        return [p for k, v in value.items() for p in _numbers(v, f"{path}.{k}" if path else k)]
    if isinstance(value, list):
        return sorted({p for item in value for p in _numbers(item, f"{path}[]")})
    return [path] if isinstance(value, int | float) and not isinstance(value, bool) else []
