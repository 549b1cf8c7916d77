"""Rules between the keys of a machine's strength tables."""

from __future__ import annotations

import difflib
from collections.abc import Iterator

from racewright.quantity.units import UNITS
from racewright.safety_factors import safety_factors
from racewright.scheme.strength_tables import StrengthTable

Broken = tuple[str, tuple[str, ...]]

_GROUPS = {"load": "load", "steel": "material", "aluminium": "material", "composite": "material",
           "polymer": "material", "fatigue": "fatigue"}  # fmt: skip


def strength_rules(strength: StrengthTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one machine's strength."""
    for key in ("vanes", "blades", "duct", "shaft"):
        part = getattr(strength, key)
        if part is not None and (part.material == "own") != (part.own is not None):
            yield "is given with material = 'own', and only then", (*at, key, "own")
        if part is not None and part.own is not None and part.own.yield_strength > part.own.ultimate_strength:
            yield "must not be below yield_strength", (*at, key, "own", "ultimate_strength")
    shaft = strength.shaft
    if shaft is not None and shaft.bore >= shaft.diameter:
        yield f"must be below the diameter, {shaft.diameter:g} m", (*at, "shaft", "bore")
    for name, series in strength.series.items():
        if getattr(UNITS.get(series.unit), "dimension", "") != "pressure":
            yield f"{series.unit!r} is not a unit of stress; write one like 'MPa'", (*at, "series", name, "unit")
        if series.decimal == "comma" and series.delimiter == ",":
            message = "decimal commas need another mark between cells; write delimiter = ';' or 'tab'"
            yield message, (*at, "series", name, "delimiter")
    known = safety_factors()
    for name, group in _GROUPS.items():
        key = getattr(strength.factors, name)
        here = (*at, "factors", name)
        if key not in known:
            near = difflib.get_close_matches(key, list(known), n=1)
            yield f"no packaged factor {key!r}" + (f"; did you mean {near[0]!r}?" if near else ""), here
        elif known[key].group != group:
            yield f"{key!r} is a factor for a {known[key].group}, not for {group}", here
