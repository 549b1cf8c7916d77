"""Meanings of strength's printed keys that no dataclass says."""

from __future__ import annotations

_SAID = {"remarks": "what the reader must know", "safety": "basis, edition, status and caution of these numbers"}
STRENGTH_MEANINGS: dict[str, dict[str, str]] = {
    "strength": {
        "case": "name of the case; empty without one",
        "strength": "stresses, natural frequencies and fatigue of the machine's parts",
    },
    "BoltLoads": {
        "largest_tension": "tension of the bolt that is pulled most",
        "largest_shear": "shear of the bolt that is sheared most",
        **_SAID,
    },
    "Cycles": {
        "stress_range": "range of each cycle",
        "mean": "midway between the cycle's ends",
        "count": "1 for a whole cycle, 0.5 for half of one",
    },
    "FatigueDamage": {"curve": "the S-N curve", **_SAID},
    "Meeting": {
        "part": "what answers",
        "natural": "its natural frequency in water",
        "shaken_by": "rotor, blade passing or vane passing",
    },
    "Resonance": {"meetings": "every pair, nearest first", "margin": "distance asked for", **_SAID},
    "RingLoads": _SAID,
    "RingModes": {"in_air": "frequencies in air", "in_water": "frequencies in water", **_SAID},
    "RingPressure": _SAID,
    "RootStress": {
        "part": "vane or blade",
        "stream_speed": "stream speed of the state",
        "rotor_speed": "rotor speed of the state",
    },
    "SafetyFactor": {"group": "what the factor is for"},
    "ShaftCase": {"thrust": "of the rotor"},
    "ShaftStress": {"von_mises": "equivalent stress", **_SAID},
    "SNCurve": {
        "slope_beyond": "slope of the second line; null for one line",
        "log_a_beyond": "of the second line, range in MPa; null for one line",
        "thickness_exponent": "of thickness over the reference thickness",
        "safety": _SAID["safety"],
    },
    "SpanModes": {"support": "how the span is held", **_SAID},
    "StressCheck": {
        "passes": "whether the use is at most 1",
        "load_factor": "factor on the load",
        "material_factor": "factor on the strength",
        **_SAID,
    },
    "Stresses": {"duct": "the duct as a ring"},
}
