"""Onto the disk itself, not only into the system's hands."""

from __future__ import annotations

import os
from pathlib import Path


def force(path: Path) -> None:
    """Force a file's content, or a folder's entries, to disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
