"""`racewright desk`: the local web workbench."""

from __future__ import annotations

from pathlib import Path


def open_desk(path: Path, host: str, port: int, *, browser: bool) -> None:
    """Serve the desk of a scheme until Ctrl-C."""
    from racewright.desk.server import serve

    serve(path, host, port, browser=browser)
