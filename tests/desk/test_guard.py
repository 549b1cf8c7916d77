"""The guard: every kind of request that must not come through, one test each."""

from __future__ import annotations

import pytest

from racewright.desk.guard.guard import Guard
from racewright.desk.guard.rules import API_BODY, BODY, COOKIE, Rules, body_limit, path_fits
from tests.desk.asgi import ask, echo

LOCAL = Guard(echo, Rules("127.0.0.1", 8610))
OPEN = Guard(echo, Rules("192.168.7.5", 8610, "secret-token"))
EVERY = Guard(echo, Rules("0.0.0.0", 8610, "secret-token", ("workshop",)))


@pytest.mark.parametrize("host", ["127.0.0.1:8610", "localhost:8610", "LOCALHOST:8610", "[::1]:8610"])
def test_own_names_are_served(host: str) -> None:
    assert ask(LOCAL, heads={"host": host}).status == 200


@pytest.mark.parametrize(
    "host",
    [
        "",
        "evil.example:8610",
        "127.0.0.1",
        "127.0.0.1:80",
        "127.0.0.1.evil.example:8610",
        "localhost:8610@evil",
        "10.0.0.1:8610",
    ],
)
@pytest.mark.parametrize("kind", ["http", "websocket"])
def test_a_name_that_was_pointed_here_is_refused(host: str, kind: str) -> None:
    assert ask(LOCAL, heads={"host": host}, kind=kind).status in (421, 1008)


@pytest.mark.parametrize(
    "origin",
    ["http://evil.example", "https://127.0.0.1:8610", "http://127.0.0.1:9000", "null", "http://127.0.0.1", "file://"],
)
@pytest.mark.parametrize("kind", ["http", "websocket"])
def test_another_origin_is_refused(origin: str, kind: str) -> None:
    assert ask(LOCAL, heads={"origin": origin}, kind=kind, method="POST").status in (403, 1008)


def test_own_origin_is_served_on_both() -> None:
    heads = {"origin": "http://127.0.0.1:8610", "sec-fetch-site": "same-origin"}
    assert ask(LOCAL, heads=heads).status == 200
    assert ask(LOCAL, heads=heads, kind="websocket").status == 101


@pytest.mark.parametrize("site", ["cross-site", "same-site", "anything"])
def test_a_cross_site_request_is_refused(site: str) -> None:
    assert ask(LOCAL, heads={"sec-fetch-site": site}).status == 403
    assert ask(LOCAL, heads={"sec-fetch-site": site}, kind="websocket").status == 1008


@pytest.mark.parametrize(
    "path",
    [
        "/look/../../etc/passwd",
        "/look/%2e%2e/x",
        "/look/%252e%252e/x",
        "/look/..%2fx",
        "/look/a%5cb",
        "/look/%00",
        "/..",
    ],
)
def test_a_path_that_climbs_is_refused(path: str) -> None:
    assert ask(LOCAL, path).status == 400
    assert not path_fits(path.encode())


def test_dots_in_names_are_fine() -> None:
    assert path_fits(b"/look/desk..css")
    assert path_fits(b"/look/.hidden")


def test_an_oversize_body_is_refused_by_its_length_and_by_its_bytes() -> None:
    big = str(API_BODY + 1)
    assert ask(LOCAL, "/api/scheme/edit", method="POST", heads={"content-length": big}).status == 413
    parts = (b"x" * 100_000,) * 3
    assert ask(LOCAL, "/api/scheme/edit", method="POST", parts=parts).status == 413
    assert ask(LOCAL, "/other", method="POST", parts=parts).body == b"300000"
    assert ask(LOCAL, "/other", method="POST", parts=(b"x" * (BODY + 1),)).status == 413


@pytest.mark.parametrize("length", ["-1", "1e3", "0x10", "1,2"])
def test_a_length_that_is_no_number_is_refused(length: str) -> None:
    assert ask(LOCAL, method="POST", heads={"content-length": length}).status == 400


def test_only_uploads_may_be_large() -> None:
    assert body_limit("/_nicegui/client/x/upload/1") > BODY > body_limit("/api/anything")


def test_every_answer_carries_the_headers() -> None:
    for reply in (ask(LOCAL), ask(LOCAL, heads={"host": "evil.example"})):
        assert "default-src 'self'" in reply.heads["content-security-policy"]
        assert "http" not in reply.heads["content-security-policy"]
        assert reply.heads["x-frame-options"] == "DENY"
        assert reply.heads["x-content-type-options"] == "nosniff"


HERE = {"host": "192.168.7.5:8610"}


@pytest.mark.parametrize("query", ["", "token=", "token=wrong", "token=secret-tokeN", "x=secret-token"])
def test_beyond_loopback_nothing_without_the_token(query: str) -> None:
    assert ask(OPEN, heads=HERE, query=query).status == 401
    assert ask(OPEN, heads=HERE, query=query, kind="websocket").status == 1008


def test_the_token_sets_a_cookie_once_and_leaves_the_address() -> None:
    reply = ask(OPEN, "/place", heads=HERE, query="case=a&token=secret-token")
    assert reply.status == 303
    assert reply.heads["location"] == "/place?case=a"
    assert "HttpOnly" in reply.heads["set-cookie"]
    assert "SameSite=Strict" in reply.heads["set-cookie"]
    cookie = {**HERE, "cookie": f"other=1; {COOKIE}=secret-token"}
    assert ask(OPEN, heads=cookie).status == 200
    assert ask(OPEN, heads=cookie, kind="websocket").status == 101
    assert ask(OPEN, heads={**HERE, "cookie": f"{COOKIE}=wrong"}).status == 401


def test_the_token_is_not_taken_from_a_post() -> None:
    assert ask(OPEN, heads=HERE, query="token=secret-token", method="POST").status == 401


def test_the_way_back_stays_on_the_desk() -> None:
    reply = ask(OPEN, "//evil.example/x", heads=HERE, query="token=secret-token")
    assert reply.heads["location"] == "/evil.example/x"


def test_bound_to_every_address_it_takes_addresses_and_its_own_name() -> None:
    for host in ("10.1.2.3:8610", "workshop:8610", "[fe80::1]:8610"):
        assert ask(EVERY, heads={"host": host}).status == 401
    assert ask(EVERY, heads={"host": "evil.example:8610"}).status == 421
