"""Walks a result, or its JSON, and tells the safety numbers that stand without caution, basis and edition."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

import numpy as np

from racewright.safety import SafetyBasis

WORDS = frozenset(
    [
        "tension",
        "tensions",
        "force",
        "forces",
        "strength",
        "uplift",
        "holding",
        "capacity",
        "use",
        "utilisation",
        "utilisations",
        "stress",
        "load",
        "peak",
        "impulse",
        "work",
        "cover",
        "clearance",
        "radius",
        "offset",
        "drift",
        "damage",
        "life",
        "natural",
        "pressure",
        "torque",
        "required",
        "wanted",
        "proof",
        "first",
        "slow",
        "parting",
        "parts",
        "preload",
        "breaking",
        "stable",
        "energy",
        "horizontal",
        "vertical",
        "ultimate",
        "along",
        "drag",
        "lost",
        "over",
    ]
)
"""Words of names whose numbers somebody's safety may hang on."""
RANGE = frozenset({"low", "value", "high"})


def bare_numbers(result: Any, path: str = "", *, covered: bool = False) -> Iterator[str]:
    """Paths of safety numbers of a dataclass tree with no `SafetyBasis` on their object or on one around it."""
    if dataclasses.is_dataclass(result) and not isinstance(result, type):
        if isinstance(result, SafetyBasis):
            return
        fields = {f.name: getattr(result, f.name) for f in dataclasses.fields(result)}
        yield from _bare(fields, path or type(result).__name__, covered=covered)
    elif isinstance(result, dict):
        yield from _bare(result, path, covered=covered)
    elif isinstance(result, list | tuple):
        for place, item in enumerate(result):
            yield from bare_numbers(item, f"{path}[{place}]", covered=covered)


def _bare(fields: dict[str, Any], path: str, *, covered: bool) -> Iterator[str]:
    covered = covered or _filled(fields.get("safety"))
    for name, value in fields.items():
        if name == "safety":
            continue
        if not covered and _touches(name) and _numeric(value):
            yield f"{path}.{name}"
        yield from bare_numbers(value, f"{path}.{name}", covered=covered)


def _touches(name: str) -> bool:
    return bool(WORDS & set(name.split("_"))) or name in RANGE


def _numeric(value: Any) -> bool:
    if isinstance(value, bool | np.bool_):
        return True
    if isinstance(value, list | tuple):
        return any(_numeric(item) for item in value)
    return isinstance(value, int | float | np.ndarray | np.number)


def _filled(safety: Any) -> bool:
    """One basis or several, as dataclasses or as JSON objects, with none of their texts empty."""
    if isinstance(safety, list | tuple):
        return bool(safety) and all(_filled(one) for one in safety)
    told = dataclasses.asdict(safety) if isinstance(safety, SafetyBasis) else safety
    keys = {f.name for f in dataclasses.fields(SafetyBasis)}
    return isinstance(told, dict) and keys <= told.keys() and all(str(told[key]).strip() for key in keys)


def kinds_in(result: Any) -> Iterator[type]:
    """Every dataclass met in a result."""
    if dataclasses.is_dataclass(result) and not isinstance(result, type):
        yield type(result)
        for field in dataclasses.fields(result):
            yield from kinds_in(getattr(result, field.name))
    elif isinstance(result, dict):
        for value in result.values():
            yield from kinds_in(value)
    elif isinstance(result, list | tuple):
        for item in result:
            yield from kinds_in(item)
