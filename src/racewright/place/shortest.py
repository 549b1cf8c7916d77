"""The shortest record that can be ranked; loads no numerical library."""

from __future__ import annotations

SHORTEST = 19
"""Fewest values from which the plotting position m/(N+1) gives both Q95 and Q5."""


def too_short(values: int) -> str:
    """What to say of a record with fewer values."""
    return f"the record has {values} values; at least {SHORTEST} are needed to tell low and high water (Q95, Q5)"
