"""`racewright cache`: show or clear what is remembered between runs."""

from __future__ import annotations

import json
import sys

from racewright import __version__
from racewright.ledger.store import LARGEST, Store, cache_folder


def show_cache(*, clear: bool, as_json: bool) -> None:
    """Print where the cache lies and what it holds; clear it first when asked."""
    store = Store(cache_folder(), {})
    removed = store.clear() if clear else 0
    held, size = store.size()
    if as_json:
        answer = {
            "folder": str(store.folder),
            "values": held,
            "size_B": size,
            "largest_B": LARGEST,
            "removed": removed,
            "units": {"values": "-", "size_B": "B", "largest_B": "B", "removed": "-"},
            "provenance": {"version": __version__, "command": "cache"},
        }
        sys.stdout.write(json.dumps(answer, indent=1, allow_nan=False) + "\n")
    said = f"removed {removed} values; " if clear else ""
    sys.stderr.write(f"{store.folder}: {said}{held} values, {size / 1e6:.1f} MB of at most {LARGEST / 1e6:.0f} MB\n")
