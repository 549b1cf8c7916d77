"""Requests to an ASGI application in process; a fault inside it becomes a reply of 500."""

from __future__ import annotations

import asyncio
from typing import Any

import httpx


class Client:
    """Blocking requests to an application."""

    def __init__(self, app: Any) -> None:
        self._transport = httpx.ASGITransport(app, raise_app_exceptions=False)

    def get(self, path: str, **more: Any) -> httpx.Response:
        """GET."""
        return asyncio.run(self._ask("GET", path, more))

    def post(self, path: str, **more: Any) -> httpx.Response:
        """POST."""
        return asyncio.run(self._ask("POST", path, more))

    async def _ask(self, method: str, path: str, more: dict[str, Any]) -> httpx.Response:
        async with httpx.AsyncClient(transport=self._transport, base_url="http://127.0.0.1:8610") as client:
            return await client.request(method, path, **more)
