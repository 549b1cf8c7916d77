"""Pages in process: their data are the command line's, number for number, and pickled answers stay whole."""

from __future__ import annotations

import json
from dataclasses import astuple
from pathlib import Path
from typing import Any

import pytest

from racewright.cli.encode import to_json
from racewright.cli.summary import summary
from racewright.desk.answer import answer_page, currency_of
from racewright.desk.seam import Asked, Options, all_pages, page_named
from racewright.dossier.compose import compose
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import load_scheme
from tests.desk.common import example

EMPTY = b'format = 2\ntitle = "Nothing yet"\n'


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("desk"))


@pytest.fixture(scope="module")
def told(scheme: Path) -> dict[str, Any]:
    """What `report --json` prints."""
    loaded = load_scheme(scheme)
    found = compute(loaded, None, store=Store(cache_folder(), CLASSES))
    return json.loads(to_json(summary(found), {}, currency_of(loaded, None)))  # type: ignore[no-any-return]


def _answer(scheme: Path, name: str) -> tuple[dict[str, Any], set[str]]:
    answer = answer_page(name, scheme.read_bytes(), scheme, page_named(name).options())
    return json.loads(answer.text), set(answer.drawings)


def test_standing_has_the_numbers_of_the_report(scheme: Path, told: dict[str, Any]) -> None:
    page, drawings = _answer(scheme, "standing")
    assert page["machine"]["design_point"] == told["machine"]["design_point"]
    for part in ("energy", "community", "missing", "remarks", "left_out", "invented"):
        assert page[part] == told[part]
    assert drawings == {"stream"}


def test_place_has_the_numbers_of_the_report(scheme: Path, told: dict[str, Any]) -> None:
    page, _drawings = _answer(scheme, "place")
    assert page["place"] == told["place"]
    speed = next(c for c in page["curves"] if c["kind"] == "speed")
    assert speed["share"] == sorted(speed["share"])
    assert speed["value"] == sorted(speed["value"], reverse=True)
    year = page["depth_year"]
    assert year["month"] == list(range(1, 13))
    assert all(a <= b <= c for a, b, c in zip(year["low_m"], year["median_m"], year["high_m"], strict=True))
    median = next(s for s in page["place"]["standings"] if s["label"] == "median")
    profile = next(p for p in page["profiles"] if p["label"] == "median")
    assert profile["height_m"][-1] == median["depth_m"]
    assert max(page["record"]["most"]) >= max(page["curves"][0]["value"]) * (1 - 1e-12)


def test_neighbours_has_the_numbers_of_the_report(scheme: Path, told: dict[str, Any]) -> None:
    page, drawings = _answer(scheme, "neighbours")
    assert page["neighbours"] == told["neighbours"]
    assert [c["anchor"] for c in page["chapters"]] == ["fish", "debris", "sound"]
    assert {"fish_chance", "fish_beside", "debris_opening", "sound_bands_1"} <= drawings
    assert all(page["cautions"].values())


def test_dossier_has_the_report_in_short_and_one_chapter_whole(scheme: Path, told: dict[str, Any]) -> None:
    page, drawings = _answer(scheme, "dossier")
    assert (page["missing"], page["left_out"], page["title"]) == (told["missing"], told["left_out"], told["title"])
    assert page["shown"] is None
    assert drawings == set()
    front = {
        a.question: a
        for a in compose(compute(load_scheme(scheme), None, store=Store(cache_folder(), CLASSES))).answers
    }
    for answer in page["answers"]:
        whole = front.pop(answer["question"])
        assert [(m["severity"], m["about"], m["text"]) for m in answer["marks"]] == [astuple(m) for m in whole.marks]
        assert (answer["table"] or {"rows": []})["rows"] == [
            list(r) for r in (whole.table.rows if whole.table else ())
        ]
    assert not front
    assert any(m["severity"] == "warning" for a in page["answers"] for m in a["marks"])
    assert {"place", "machine", "energy", "fish", "cautions"} <= {c["anchor"] for c in page["chapters"]}


@pytest.mark.parametrize("page", all_pages(), ids=lambda page: page.name)
def test_every_number_of_a_page_has_its_unit(scheme: Path, page: Any) -> None:
    told, _drawings = _answer(scheme, page.name)
    units = told.pop("units")
    told.pop("provenance")
    bare = [path for path in _numbers(told, "") if path not in units]
    assert bare == []


@pytest.mark.parametrize("page", all_pages(), ids=lambda page: page.name)
def test_every_page_answers_for_an_empty_scheme(tmp_path: Path, page: Any) -> None:
    path = tmp_path / "scheme.toml"
    answer = answer_page(page.name, EMPTY, path, page.options())
    assert json.loads(answer.text)["provenance"]["command"] == f"desk {page.name}"


def test_the_draft_counts_not_the_file(scheme: Path) -> None:
    """A draft that was never saved is computed; the file stays as it is."""
    draft = scheme.read_bytes().replace(b"River unit at Otter Bend", b"Another title")
    answer = answer_page("standing", draft, scheme, Options())
    assert json.loads(answer.text)["title"] == "Another title"
    assert b"Another title" not in scheme.read_bytes()


def test_pages_stand_in_the_order_of_the_job() -> None:
    pages = all_pages()
    assert pages[0].address == "/"
    assert [p.order for p in pages] == sorted(p.order for p in pages)
    assert all(p.data.__doc__ and p.view.__doc__ for p in pages)


def test_asked_gives_values_of_single_nodes(scheme: Path) -> None:
    values = Asked(load_scheme(scheme), Options()).values("site")
    assert values["site"].years > 10
    assert values["design_point"] is None


def _numbers(value: Any, path: str) -> list[str]:
    """Paths of numeric leaves, '[]' for each item."""
    if isinstance(value, dict):
        return [p for k, v in value.items() for p in _numbers(v, f"{path}.{k}" if path else k)]
    if isinstance(value, list):
        return sorted({p for item in value for p in _numbers(item, f"{path}[]")})
    return [path] if isinstance(value, int | float) and not isinstance(value, bool) else []
