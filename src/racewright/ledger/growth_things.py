"""From the plain tables of a growth to steps, exponents and claims."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from racewright.errors import InputError
from racewright.growth.claims import Claim
from racewright.growth.size_exponents import SizeExponent, own_exponent
from racewright.growth.step import Step, StepPlace, sized_step
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.node import Given
from racewright.uncertainty import Band
from racewright.water import properties

STEP_KEYS = (*UNIT_KEYS, "machine.drive.gear_efficiency", "machine.drive.generator_efficiency")
"""Role paths that make the machine's own step."""


def label(name: str) -> str:
    """A table's name as words: an underscore stands for a space."""
    return name.replace("_", " ")


def in_order(sizes: Mapping[str, Any]) -> list[tuple[str, Any]]:
    """Sizes by name, the first in the growth first."""
    return sorted(sizes.items(), key=lambda item: int(item[1]["order"]))


def own_step(given: Given) -> Step:
    """The case's machine as a step, its place not known."""
    keys = given.keys
    vanes, blades = given.nodes["rows"]
    efficiency = keys["machine.drive.gear_efficiency"] * keys["machine.drive.generator_efficiency"]
    return Step(
        "machine",
        unit_of(keys),
        vanes,
        blades,
        given.nodes["flow"],
        given.nodes["water"],
        drive_efficiency=efficiency,
    )


def size_of(step: Step, name: str, table: Mapping[str, Any], fish_length: float | None) -> Step:
    """The machine at one size of the growth.

    Raises
    ------
    InputError
        Pointed at the size's own key.
    """
    with at_table(name):
        place = StepPlace(
            table["depth"],
            table["hub_depth"],
            table["channel_area"],
            table["turbulence"],
            fish_length,
        )
        return sized_step(
            step,
            label(name),
            table["throat_diameter"],
            table["stream_speed"],
            properties(table["temperature"], "sea" if table["water"] == "sea" else "fresh"),
            place,
            rated_power=table["rated_power"],
            roughness=table["roughness"],
            clearance=table["clearance"],
        )


def longest_fish(fish: Mapping[str, Any] | None) -> float | None:
    """Length of the longest fish of the neighbours; None without one [m]."""
    return max((float(one["length"]) for one in fish.values()), default=None) if fish else None


def exponents_of(tables: Mapping[str, Any], sources: Mapping[str, str]) -> tuple[SizeExponent, ...]:
    """The user's exponents; `sources` by the same names, empty where none is said."""
    found = []
    for name, table in sorted(tables.items()):
        with at_table(name):
            ends = (table["low"], table["value"], table["high"])
            found.append(own_exponent(name, *ends, sources.get(name, "")))
    return tuple(found)


def claim_of(name: str, table: Mapping[str, Any]) -> Claim:
    """One claim as the scheme states it, its source left out.

    Raises
    ------
    InputError
        Pointed at the claim's own key.
    """
    value, low, high = table["value"], table["low"], table["high"]
    band = None
    with at_table(name):
        if low is not None or high is not None:
            if value is None:
                raise InputError("a low or high end stands here without a value", key="value")
            ends = (value if low is None else low, value if high is None else high)
            band = Band(ends[0], value, ends[1], "as stated")
        return Claim(
            table["figure"],
            table["basis"],
            value,
            unit="" if table["unit"] == "1" else table["unit"],
            step=label(table["size"] or ""),
            band=band,
            why_no_band=table["why_no_band"],
            last_test=table["last_test"],
            tested_step=label(table["tested_on"] or ""),
            next_test=table["next_test"],
        )


@contextmanager
def at_table(name: str) -> Iterator[None]:
    """An input error inside, pointed at a key of the table of that name."""
    try:
        yield
    except InputError as fault:
        raise InputError(fault.message, key=f"{name}.{fault.key or 'value'}") from None
