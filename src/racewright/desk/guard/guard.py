"""The guard: ASGI middleware before everything that the desk serves, pages and sockets alike."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qsl, urlencode

from racewright.desk.guard.headers import HEADERS
from racewright.desk.guard.rules import COOKIE, Rules, body_limit, path_fits, site_fits

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]


class TooLargeError(Exception):
    """A body that goes on beyond its limit."""


class Guard:
    """Refuse what does not come from the desk's own pages; see `Rules`.

    Parameters
    ----------
    app : ASGI application
    rules : Rules
    """

    def __init__(self, app: App, rules: Rules) -> None:
        self._app = app
        self._rules = rules

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, refuse, or hand on."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        heads = _heads(scope)
        refusal = self._refusal(scope, heads)
        if refusal is not None:
            await _refuse(scope, send, *refusal)
        elif not self._known(heads):
            await self._first(scope, heads, send)
        else:
            await self._pass(scope, heads, receive, send)

    def _refusal(self, scope: Scope, heads: dict[str, str]) -> tuple[int, str] | None:
        """Status and reason, or None."""
        host, origin = heads.get("host", ""), heads.get("origin")
        if not self._rules.host_fits(host):
            return 421, "this desk does not answer to that host name"
        if origin is not None and not self._rules.origin_fits(origin, host):
            return 403, "requests from other sites are refused"
        if not site_fits(heads.get("sec-fetch-site", "")):
            return 403, "requests from other sites are refused; type the address or use its bookmark"
        if not path_fits(scope.get("raw_path") or scope["path"].encode()):
            return 400, "the path is not one of the desk's"
        length = heads.get("content-length", "0")
        if not length.isdigit():
            return 400, "the length of the body is no number"
        if int(length) > body_limit(scope["path"]):
            return 413, f"the body is larger than {body_limit(scope['path'])} bytes"
        return None

    def _known(self, heads: dict[str, str]) -> bool:
        if not self._rules.token:
            return True
        try:
            jar: SimpleCookie = SimpleCookie(heads.get("cookie", ""))
        except CookieError:
            return False
        return COOKIE in jar and self._rules.token_fits(jar[COOKIE].value)

    async def _first(self, scope: Scope, heads: dict[str, str], send: Send) -> None:
        """Someone without the cookie: the right token in the address sets it, once, and leaves the address."""
        query = parse_qsl(scope["query_string"].decode("latin-1"))
        offered = next((value for key, value in query if key == "token"), "")
        if scope["type"] != "http" or scope["method"] != "GET" or not offered or not self._rules.token_fits(offered):
            await _refuse(scope, send, 401, "this desk wants the token that it printed when it was started")
            return
        rest = urlencode([(k, v) for k, v in query if k != "token"])
        place = "/" + scope["path"].lstrip("/") + (f"?{rest}" if rest else "")
        cookie = f"{COOKIE}={self._rules.token}; Path=/; HttpOnly; SameSite=Strict"
        heads_out = [(b"location", place.encode("latin-1", "replace")), (b"set-cookie", cookie.encode())]
        await send({"type": "http.response.start", "status": 303, "headers": [*heads_out, *HEADERS]})
        await send({"type": "http.response.body", "body": b""})

    async def _pass(self, scope: Scope, heads: dict[str, str], receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await self._app(scope, receive, send)
            return
        left = body_limit(scope["path"])
        started = False

        async def counted() -> Message:
            nonlocal left
            message = await receive()
            left -= len(message.get("body", b""))
            if left < 0:
                raise TooLargeError
            return message

        async def dressed(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                ours = {name for name, _value in HEADERS}
                kept = [(n, v) for n, v in message.get("headers", ()) if n.lower() not in ours]
                message = {**message, "headers": [*kept, *HEADERS]}
            await send(message)

        try:
            await self._app(scope, counted, dressed)
        except TooLargeError:
            if not started:
                await _refuse(scope, send, 413, "the body is larger than is taken here")


def _heads(scope: Scope) -> dict[str, str]:
    """Headers by name; two of the same name join, so that neither is overlooked."""
    found: dict[str, str] = {}
    for name, value in scope["headers"]:
        key, text = name.decode("latin-1").lower(), value.decode("latin-1")
        mark = "; " if key == "cookie" else ","
        found[key] = f"{found[key]}{mark}{text}" if key in found else text
    return found


async def _refuse(scope: Scope, send: Send, status: int, reason: str) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008, "reason": reason})
        return
    body = json.dumps({"error": {"message": reason}}).encode()
    heads = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": [*heads, *HEADERS]})
    await send({"type": "http.response.body", "body": body})
