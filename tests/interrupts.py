"""What a child process of a test hears."""

from __future__ import annotations

import signal


def hears_interrupts() -> None:
    """Before a child starts: a suite in the background ignores SIGINT, and so would its children."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
