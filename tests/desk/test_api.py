"""The API in process: state, edits, refusals with a place, and never a fault of ours on malformed bodies."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from racewright.desk.api.app import make_api
from racewright.desk.desk import Desk
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.seam import all_pages
from tests.desk.client import Client
from tests.desk.common import example

TURNED = "machine.river_unit.vanes.turned"


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    return Keeper(example(tmp_path))


@pytest.fixture
def api(keeper: Keeper) -> Client:
    return Client(make_api(Desk(keeper, None)))  # type: ignore[arg-type]


def test_an_edit_an_undo_and_a_save(api: Client, keeper: Keeper) -> None:
    state = api.get("/scheme").json()
    assert (state["revision"], state["unsaved"]) == (1, False)
    body = {"revision": 1, "changes": {TURNED: "2 deg"}}
    assert api.post("/scheme/edit", json=body).json()["revision"] == 2
    assert api.post("/scheme/undo", json={"revision": 2}).json()["can_redo"]
    assert api.post("/scheme/redo", json={"revision": 3}).json()["revision"] == 4
    assert api.post("/scheme/save", json={"revision": 4}).json()["unsaved"] is False
    assert 'turned = "2 deg"' in keeper.path.read_text()


def test_a_stale_edit_is_a_conflict(api: Client) -> None:
    body = {"revision": 7, "changes": {TURNED: "2 deg"}}
    reply = api.post("/scheme/edit", json=body)
    assert reply.status_code == 409
    assert "revision 7" in reply.json()["error"]["message"]


def test_a_wrong_value_names_key_and_line(api: Client, keeper: Keeper) -> None:
    reply = api.post("/scheme/edit", json={"revision": 1, "changes": {TURNED: "2 m"}})
    error = reply.json()["error"]
    assert (reply.status_code, error["key"]) == (422, TURNED)
    assert keeper.text.splitlines()[error["line"] - 1].startswith("turned")


def test_a_save_over_a_changed_file_needs_to_be_asked_for(api: Client, keeper: Keeper) -> None:
    api.post("/scheme/edit", json={"revision": 1, "changes": {TURNED: "2 deg"}})
    keeper.path.write_text("broken")
    assert api.post("/scheme/save", json={"revision": 2}).status_code == 409
    assert keeper.path.read_text() == "broken"
    assert api.post("/scheme/save", json={"revision": 2, "over": True}).status_code == 200


MALFORMED = [
    b"",
    b"{",
    b"[]",
    b"null",
    b"\xff\xfe",
    b"{}",
    b'{"revision": "1", "changes": {"title": "x"}}',
    b'{"revision": true, "changes": {"title": "x"}}',
    b'{"revision": 1.0, "changes": {"title": "x"}}',
    b'{"revision": NaN, "changes": {"title": "x"}}',
    b'{"revision": 1, "changes": {}}',
    b'{"revision": 1, "changes": {"title": NaN}}',
    b'{"revision": 1, "changes": {"title": Infinity}}',
    b'{"revision": 1, "changes": {"title": "\\ud800"}}',
    b'{"revision": 1, "changes": {"\\ud800": "x"}}',
    b'{"revision": 1, "changes": {"title": "\\u0000"}}',
    b'{"revision": 1, "changes": {"title": {"a": 1}}}',
    b'{"revision": 1, "changes": {"": "x"}}',
    b'{"revision": 1, "changes": {"place": "x"}}',
    b'{"revision": 1, "changes": {"title.x": "x"}}',
    b'{"revision": 1, "changes": {"title": 1}, "more": 1}',
    b'{"revision": 1, "changes": {"format": 99}}',
    b'{"revision": 1, "changes": {"format": null}}',
    b'{"revision": 1, "changes": {"title": 1e400}}',
    b'{"revision": ' + b"9" * 5000 + b', "changes": {"title": "x"}}',
    b'{"revision": 1, "changes": {"title": ' + b"[" * 20000 + b"]" * 20000 + b"}}",
    b'{"revision": 1, "changes": {"case.first_unit.count": 99999999999999999999}}',
]


@pytest.mark.parametrize("body", MALFORMED, ids=range(len(MALFORMED)))
def test_a_malformed_body_is_told_and_changes_nothing(api: Client, keeper: Keeper, body: bytes) -> None:
    reply = api.post("/scheme/edit", content=body, headers={"content-type": "application/json"})
    assert 400 <= reply.status_code < 500
    assert reply.json()["error"]["message"]
    assert keeper.revision == 1


_JSON: Any = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)
_PATHS = (
    st.sampled_from([TURNED, "title", "format", "case.first_unit", "case.first_unit.count", "place.x.y"]) | st.text()
)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    body=_JSON
    | st.fixed_dictionaries({"revision": _JSON | st.just(1), "changes": _JSON | st.dictionaries(_PATHS, _JSON)}),
    route=st.sampled_from(["edit", "undo", "redo", "save"]),
)
def test_no_body_is_a_fault_of_ours(api: Client, body: Any, route: str) -> None:
    """Property: any JSON is done, or refused with a message; what stands is still a scheme."""
    reply = api.post(f"/scheme/{route}", content=json.dumps(body), headers={"content-type": "application/json"})
    assert reply.status_code < 500, reply.text
    if reply.status_code >= 400:
        assert reply.json()["error"]["message"]


def test_the_description_names_every_page_and_route(api: Client) -> None:
    paths = api.get("/openapi.json").json()["paths"]
    assert {f"/{page.name}" for page in all_pages()} < set(paths)
    assert {"/scheme/edit", "/scheme/undo", "/scheme/redo", "/scheme/save"} < set(paths)


def test_an_unknown_page_and_an_unknown_option_are_told(api: Client) -> None:
    assert api.get("/nothing").status_code == 404
    assert api.get("/place", params={"colour": "red"}).status_code == 422
