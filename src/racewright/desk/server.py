"""Run the desk until it is told to stop."""

from __future__ import annotations

import asyncio
import logging
import multiprocessing
import sys
import webbrowser
from importlib.resources import files
from pathlib import Path

from racewright.desk.address import rules_for, url_of
from racewright.desk.desk import Desk
from racewright.desk.guard.rules import Rules
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.keeper.lock import only_desk
from racewright.desk.work.pool import Pool

LOOK_EVERY = 2.0
"""Time between looks whether the scheme file was changed outside [s]; own choice."""


def serve(path: Path, host: str, port: int, *, browser: bool) -> None:
    """Serve the desk of a scheme; returns when the server has ended.

    Raises
    ------
    InputError
        The scheme is not sound, the port is in use, or a desk for this scheme runs already.
    KeyboardInterrupt
        Ctrl-C, after everything was put away.
    """
    keeper = Keeper(path)
    rules = rules_for(host, port)
    with only_desk(keeper.folder, url_of(rules).split("?", maxsplit=1)[0]):
        multiprocessing.set_start_method("spawn", force=True)
        pool = Pool()
        pool.warm()
        try:
            _run(Desk(keeper, pool), rules, browser=browser)
        finally:
            pool.stop()


def _run(desk: Desk, rules: Rules, *, browser: bool) -> None:
    from nicegui import app, background_tasks, run, ui

    from racewright.desk.api.app import make_api
    from racewright.desk.guard.guard import Guard
    from racewright.desk.open import add_pages

    run.process_pool_start_method = "spawn"
    logging.getLogger("nicegui").addFilter(_known_noise)
    app.mount("/api", make_api(desk))
    app.add_static_files("/look", str(files("racewright.desk") / "static"), max_cache_age=3600)
    add_pages(desk)
    app.add_middleware(Guard, rules=rules)
    app.on_startup(lambda: background_tasks.create(_tell(rules, browser=browser)))
    app.on_startup(lambda: background_tasks.create(_watch(desk)))
    ui.run(
        host=rules.host,
        port=rules.port,
        title="Racewright",
        reload=False,
        show=False,
        show_welcome_message=False,
        tailwind=False,
        dark=None,
        favicon=str(files("racewright.desk") / "static" / "mark.svg"),
        reconnect_timeout=30.0,
        timeout_graceful_shutdown=2,
    )


async def _tell(rules: Rules, *, browser: bool) -> None:
    """Print the address as soon as it can be opened."""
    from nicegui.server import Server

    while not Server.instance.started:
        await asyncio.sleep(0.05)
    url = url_of(rules)
    more = " Whoever has this address, with its token, can change the scheme." if rules.token else ""
    sys.stderr.write(f"Desk: {url}  (Ctrl-C ends it){more}\n")
    sys.stderr.flush()
    if browser:
        asyncio.get_running_loop().run_in_executor(None, webbrowser.open, url)


async def _watch(desk: Desk) -> None:
    while True:
        await asyncio.sleep(LOOK_EVERY)
        desk.keeper.look()


def _known_noise(record: logging.LogRecord) -> bool:
    """The kit speaks of its own storage; the desk uses none."""
    return "storage_secret" not in record.getMessage()
