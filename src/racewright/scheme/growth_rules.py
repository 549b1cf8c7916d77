"""Rules between the keys of a growth's tables."""

from __future__ import annotations

from collections.abc import Iterator

from racewright.scheme.growth_tables import GrowthTable

Broken = tuple[str, tuple[str, ...]]


def growth_rules(growth: GrowthTable, at: tuple[str, ...]) -> Iterator[Broken]:
    """Each broken rule of one growth."""
    if not growth.size:
        yield f"missing; a growth has sizes like [{'.'.join(at)}.size.river_unit]", (*at, "size")
    orders: dict[int, str] = {}
    for name, size in growth.size.items():
        here = (*at, "size", name)
        if size.order in orders:
            yield f"{size.order} is the order of '{orders[size.order]}' too", (*here, "order")
        orders[size.order] = name
        if size.hub_depth >= size.depth:
            message = f"an axis {size.hub_depth:g} m down is not in water {size.depth:g} m deep"
            yield message, (*here, "hub_depth")
        elif size.hub_depth <= 0.5 * size.throat_diameter:
            yield f"an axis {size.hub_depth:g} m down puts the duct through the surface", (*here, "hub_depth")
        if size.programme is not None and growth.programme is None:
            message = f"missing; the steps have costs, so say what stands at the end in [{'.'.join(at)}.programme]"
            yield message, (*at, "programme")
    if growth.programme is not None and growth.size and not any(s.programme for s in growth.size.values()):
        yield "no size says what its step costs; add a table programme to each", (*at, "programme")
    for name, exponent in growth.exponent.items():
        if not exponent.low <= exponent.value <= exponent.high:
            yield "must lie between low and high", (*at, "exponent", name, "value")
    for name, claim in growth.claim.items():
        ends = [e for e in (claim.low, claim.value, claim.high) if e is not None]
        if ends != sorted(ends):
            yield "low, value and high must grow", (*at, "claim", name, "low")
        for key in ("size", "tested_on"):
            wanted = getattr(claim, key)
            if wanted is not None and wanted not in growth.size:
                yield f"no size {wanted!r}; there are {', '.join(growth.size)}", (*at, "claim", name, key)
        if claim.basis == "measured by us" and not claim.last_test.strip():
            yield "missing; a figure measured by us names its test", (*at, "claim", name, "last_test")
        if claim.basis == "published" and not claim.source.strip():
            yield "missing; a published figure names where it stands", (*at, "claim", name, "source")
