"""A progress line on standard error for what takes over a second; no bar when that is not a terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from racewright.cli.interrupt import heed
from racewright.tick import Tick


@contextmanager
def progress(what: str) -> Iterator[Tick]:
    """A tick that draws a bar on a terminal."""
    if not sys.stderr.isatty():
        yield heed
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=1.0)

        def show(done: float) -> None:
            heed(done)
            bar.update(task, completed=done)

        yield show
