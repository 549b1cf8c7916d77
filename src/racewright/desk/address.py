"""Where the desk listens."""

from __future__ import annotations

import secrets
import socket

from racewright.desk.guard.rules import Rules, is_loopback
from racewright.errors import InputError


def rules_for(host: str, port: int) -> Rules:
    """What is let in for a host and port that are free; port 0 takes any. Beyond loopback there is a token.

    Raises
    ------
    InputError
        The port is in use, or the host is none of this machine's.
    """
    free = _free_port(host, port)
    token = "" if is_loopback(host) else secrets.token_urlsafe(24)
    names = (socket.gethostname().lower(),)
    return Rules(host, free, token, names)


def url_of(rules: Rules) -> str:
    """The address to open, token included."""
    every = {"0.0.0.0": socket.gethostname(), "::": socket.gethostname()}
    name = every.get(rules.host, rules.host)
    name = f"[{name}]" if ":" in name else name
    return f"http://{name}:{rules.port}/" + (f"?token={rules.token}" if rules.token else "")


def _free_port(host: str, port: int) -> int:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
            return int(trial.getsockname()[1])
        except OSError as fault:
            reason = (fault.strerror or str(fault)).lower()
        if "in use" in reason:
            raise InputError(f"port {port} is in use; end what runs there, or name another with --port") from None
        raise InputError(f"cannot listen at {host}:{port} ({reason}); see --host and --port") from None
