"""Locks of a scheme: one desk at a time, and one writer of the file at a time."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from racewright.errors import InputError


@contextmanager
def turn(folder: Path) -> Iterator[None]:
    """Wait for other writers of the scheme that `folder` belongs to."""
    with (folder / "write.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


@contextmanager
def only_desk(folder: Path, address: str) -> Iterator[None]:
    """Hold a scheme for this desk.

    Raises
    ------
    InputError
        When another desk holds it: two would work on one draft.
    """
    handle = os.open(folder / "desk.lock", os.O_RDWR | os.O_CREAT, 0o600)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            there = os.read(handle, 200).decode(errors="replace").strip()
            raise InputError(f"a desk for this scheme runs already, at {there}; open that address") from None
        os.ftruncate(handle, 0)
        os.write(handle, address.encode())
        yield
    finally:
        os.close(handle)
