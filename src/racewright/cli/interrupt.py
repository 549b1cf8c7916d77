"""Ctrl-C that cannot be lost: compiled code that is being loaded swallows the exception, the flag stays."""

from __future__ import annotations

import signal
from types import FrameType

_asked: list[bool] = []


def listen() -> None:
    """Note every SIGINT besides raising KeyboardInterrupt; a process that was told to ignore it goes on ignoring."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _note)


def heed(_fraction: float) -> None:
    """A tick: raise the KeyboardInterrupt that was asked for and lost."""
    if _asked:
        raise KeyboardInterrupt


def _note(_signal: int, _frame: FrameType | None) -> None:
    _asked.append(True)
    raise KeyboardInterrupt
