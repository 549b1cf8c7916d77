"""Speak ASGI to an application, without a server."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass
from typing import Any

App = Any


@dataclass(frozen=True)
class Reply:
    """What came back; `status` of a refused socket is its close code."""

    status: int
    heads: dict[str, str]
    body: bytes


async def echo(scope: Any, receive: Any, send: Any) -> None:
    """An application that takes everything and tells how long the body was."""
    if scope["type"] == "websocket":
        await send({"type": "websocket.accept"})
        return
    size = 0
    more = True
    while more:
        message = await receive()
        size += len(message.get("body", b""))
        more = message.get("more_body", False)
    await send({"type": "http.response.start", "status": 200, "headers": [(b"x-frame-options", b"ALLOWALL")]})
    await send({"type": "http.response.body", "body": str(size).encode()})


def ask(
    app: App,
    path: str = "/",
    *,
    method: str = "GET",
    kind: str = "http",
    heads: dict[str, str] | None = None,
    parts: tuple[bytes, ...] = (b"",),
    query: str = "",
) -> Reply:
    """One request; `host` is the desk's own unless `heads` says otherwise."""
    given = {"host": "127.0.0.1:8610", **(heads or {})}
    scope: dict[str, Any] = {
        "type": kind,
        "method": method,
        "path": path,
        "raw_path": path.encode(),
        "query_string": query.encode(),
        "headers": [(k.encode(), v.encode()) for k, v in given.items() if v],
        "http_version": "1.1",
        "scheme": "http",
        "server": ("127.0.0.1", 8610),
        "client": ("127.0.0.1", 5000),
        "root_path": "",
    }
    waiting = list(parts)
    sent: list[dict[str, Any]] = []

    async def receive() -> dict[str, Any]:
        if kind == "websocket":
            return {"type": "websocket.connect"}
        if waiting:
            return {"type": "http.request", "body": waiting.pop(0), "more_body": bool(waiting)}
        return {"type": "http.disconnect"}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    asyncio.run(app(scope, receive, send))
    first = sent[0]
    if first["type"].startswith("websocket"):
        return Reply(first.get("code", 101), {}, b"")
    found = {k.decode(): v.decode() for k, v in first.get("headers", ())}
    return Reply(first["status"], found, b"".join(m.get("body", b"") for m in sent[1:]))
