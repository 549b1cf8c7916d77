"""Meanings of strength's printed keys that no dataclass says."""

from __future__ import annotations

STRENGTH_MEANINGS: dict[str, dict[str, str]] = {
    "strength": {
        "case": "name of the case; empty without one",
        "strength": "stresses, natural frequencies and fatigue of the machine's parts",
    },
    "Cycles": {
        "stress_range": "range of each cycle",
        "mean": "midway between the cycle's ends",
        "count": "1 for a whole cycle, 0.5 for half of one",
    },
}
