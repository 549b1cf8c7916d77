"""Rules between the keys of upkeep and of the neighbours."""

from __future__ import annotations

from collections.abc import Iterator

from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.neighbours_tables import NeighboursTable

Broken = tuple[str, tuple[str, ...]]


def upkeep_rules(machine: MachineTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one machine's parts."""
    for name, part in machine.part.items():
        here = (*at, "part", name)
        if part.shortest is not None and part.shortest > part.between_failures:
            yield "must not be above between_failures", (*here, "shortest")
        if part.longest is not None and part.longest < part.between_failures:
            yield "must not be below between_failures", (*here, "longest")
    if machine.part and machine.stops:
        yield "give stops by cause or parts that fail, not both: each would count the same hours", (*at, "part")


def neighbours_rules(neighbours: NeighboursTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one machine's neighbours."""
    for name, fish in neighbours.fish.items():
        if fish.avoidance > 0.0 and not fish.source.strip():
            yield "missing; avoidance that is counted names who watched", (*at, "fish", name, "source")
    trade = neighbours.trade
    for key in ("vane_counts", "blade_counts"):
        for count in (trade is not None and getattr(trade, key)) or ():
            if count != int(count) or not 2 <= count <= 30:
                yield f"{count:g} is no count; write whole numbers from 2 to 30", (*at, "trade", key)
    sound = neighbours.sound
    for distance in (sound is not None and sound.distances) or ():
        if not 1.0 <= distance <= 1e6:
            yield f"{distance:g} m is out of range; write distances from 1 to 1000000 m", (*at, "sound", "distances")
    measured = None if sound is None else sound.measured
    if measured is not None and measured.decimal == "comma" and measured.delimiter == ",":
        message = "decimal commas need another mark between cells; write delimiter = ';' or 'tab'"
        yield message, (*at, "sound", "measured", "delimiter")
