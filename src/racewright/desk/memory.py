"""What a worker remembers: the ledger's cache on disk, and the last findings."""

from __future__ import annotations

import functools

from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import LoadedScheme
from racewright.scheme.inside import inside
from racewright.tick import Tick

Stamps = tuple[tuple[str, int, int], ...]

STORE = "campaign_{}/campaign.duckdb"
"""A campaign's database beside its scheme, as `ledger.trials_store` has it, which takes a second to load."""

_LAST: dict[tuple[str, Stamps, str | None], Findings] = {}


@functools.cache
def store() -> Store:
    """The cache that every command uses."""
    return Store(cache_folder(), CLASSES)


def findings(loaded: LoadedScheme, case: str | None, tick: Tick) -> Findings:
    """The findings of a case; the last ones are held."""
    key = (loaded.digest, stamps(loaded), case)
    if key not in _LAST:
        found = compute(loaded, case, tick, store=store())
        _LAST.clear()
        _LAST[key] = found
    return _LAST[key]


def stamps(loaded: LoadedScheme) -> Stamps:
    """Name, time and size of every data file that a scheme names, and of its campaigns' stores.

    Zeros for one that is not there.
    """
    found = []
    stores = {STORE.format(name) for name in loaded.scheme.trials}
    for name in sorted({*loaded.scheme.files(), *stores}):
        try:
            status = inside(loaded.folder, name).stat()
            found.append((name, status.st_mtime_ns, status.st_size))
        except (OSError, ValueError):
            found.append((name, 0, 0))
    return tuple(found)
