"""What the guard lets pass, as plain data and plain functions."""

from __future__ import annotations

import hmac
import ipaddress
from dataclasses import dataclass, field
from urllib.parse import unquote_to_bytes, urlsplit

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
COOKIE = "racewright_desk"
"""Name of the cookie that holds the token."""

BODY = 1_000_000
"""Largest body of a request [bytes]."""
API_BODY = 256_000
"""Largest body sent to the API [bytes]."""
UPLOAD = 200_000_000
"""Largest file that may be dropped on a page [bytes]."""


@dataclass(frozen=True)
class Rules:
    """What a desk lets pass.

    Attributes
    ----------
    host : str
        What it is bound to.
    port : int
    token : str
        '' on loopback, where none is needed.
    names : tuple of str
        Host names of the machine that are taken besides addresses, where it is bound to all of them.
    """

    host: str
    port: int
    token: str = ""
    names: tuple[str, ...] = field(default=())

    def host_fits(self, header: str) -> bool:
        """Whether a Host header names this desk; anything else may be a name that was pointed here."""
        name, port = _split(header)
        if port != str(self.port) and not (port == "" and self.port == 80):
            return False
        if is_loopback(self.host):
            return name in LOOPBACK
        if self.host in ("0.0.0.0", "::"):
            return name in LOOPBACK or name in self.names or _is_address(name)
        return name in (self.host.lower(), f"[{self.host}]")

    def origin_fits(self, origin: str, host: str) -> bool:
        """Whether an Origin header is the page that the desk itself served."""
        parts = urlsplit(origin)
        return parts.scheme == "http" and parts.netloc.lower() == host.lower() and self.host_fits(host)

    def token_fits(self, offered: str) -> bool:
        """Compared in constant time; always true where none is needed."""
        return not self.token or hmac.compare_digest(offered.encode(), self.token.encode())


def is_loopback(host: str) -> bool:
    """Whether only this machine can reach what is bound to `host`."""
    return host.lower() in ("localhost", "127.0.0.1", "::1")


def site_fits(value: str) -> bool:
    """Whether a Sec-Fetch-Site header speaks of the desk's own pages, or of an address typed by hand."""
    return value in ("", "none", "same-origin")


def path_fits(raw: bytes) -> bool:
    """Whether a path, decoded twice, stays where it is: no climbing, no backslash, no NUL."""
    once = unquote_to_bytes(raw.split(b"?")[0])
    twice = unquote_to_bytes(once)
    return all(b"\\" not in p and b"\0" not in p and b".." not in p.split(b"/") for p in (raw, once, twice))


def body_limit(path: str) -> int:
    """Largest body for a path [bytes]."""
    if path.startswith("/api/"):
        return API_BODY
    return UPLOAD if path.startswith("/_nicegui/client/") else BODY


def _split(header: str) -> tuple[str, str]:
    """Host and port of a Host header, in lower case."""
    text = header.strip().lower()
    if text.startswith("["):
        name, _mark, rest = text.partition("]")
        return name + "]", rest.removeprefix(":")
    name, _mark, port = text.partition(":")
    return name, port


def _is_address(name: str) -> bool:
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True
