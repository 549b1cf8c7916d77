"""Ctrl-C that is neither lost nor raised where it does harm.

While machine code is made or loaded, Python runs inside callbacks of a C++ library: an exception raised there is
printed and swallowed at best, and brings the process down at worst. There the wish is only noted; the next tick
raises it.
"""

from __future__ import annotations

import os
import signal
from types import FrameType

_asked: list[bool] = []

_COMPILERS = (f"{os.sep}llvmlite{os.sep}", f"{os.sep}numba{os.sep}")


def listen() -> None:
    """Note every SIGINT besides raising KeyboardInterrupt; a process that was told to ignore it goes on ignoring."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _note)


def heed(_fraction: float) -> None:
    """A tick: raise the KeyboardInterrupt that was asked for and not raised."""
    if _asked:
        raise KeyboardInterrupt


def _note(_signal: int, frame: FrameType | None) -> None:
    _asked.append(True)
    while frame is not None:
        if any(part in frame.f_code.co_filename for part in _COMPILERS):
            return
        frame = frame.f_back
    raise KeyboardInterrupt
