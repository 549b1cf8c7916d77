"""Is every time zone of a scheme one? Loads no numerical library."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from racewright.errors import InputError
from racewright.records.zone import clock_of, zone_offset
from racewright.scheme import LoadedScheme


def check_zones(loaded: LoadedScheme) -> None:
    """Refuse the first zone that is none, at its own key.

    A village's clock, and its meter's, may be named by a region; a logger's and a record's is UTC or an offset.

    Raises
    ------
    InputError
    """
    for table, keys, reads in _zones(loaded):
        try:
            reads(table.zone)
        except InputError as fault:
            raise loaded.error(fault.message, *keys, "zone") from None


def _zones(loaded: LoadedScheme) -> Iterator[tuple[Any, tuple[str, ...], Callable[[str], Any]]]:
    """Tables with a zone, where they stand, and what reads it."""
    scheme = loaded.scheme
    found: list[tuple[Any, tuple[str, ...], Callable[[str], Any]]] = []
    for name, place in scheme.place.items():
        found.append((place.record, ("place", name, "record"), zone_offset))
        found.append((place.tide, ("place", name, "tide"), zone_offset))
    for name, village in scheme.community.items():
        at = ("community", name, "supply")
        supply = village.supply
        if supply is None:
            continue
        found.append((supply.sun, (*at, "sun"), clock_of))
        if supply.load is not None:
            found.append((supply.load, (*at, "load"), clock_of))
            found.append((supply.load.meter, (*at, "load", "meter"), clock_of))
    found += [(one.logger, ("trials", name, "logger"), zone_offset) for name, one in scheme.trials.items()]
    return ((table, keys, reads) for table, keys, reads in found if table is not None)
