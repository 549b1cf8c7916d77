"""Meanings of printed keys of growth and programme that no dataclass says."""

from __future__ import annotations

GROWTH_MEANINGS: dict[str, dict[str, str]] = {
    "grow": {
        "case": "name of the case",
        "sizes": "the machine at every size, in order",
        "claims": "headline figures and what they lack",
        "remarks": "on the sizes, worst first",
    },
    "programme": {"case": "name of the case", "programme": "cost, time, chance and worth of the steps"},
    "CheckedClaim": {"claim": "what is claimed"},
    "Claim": {"basis": "what the figure rests on, firmest first"},
    "DevelopmentStep": {"name": "of the step (untrusted)"},
    "FormResult": {"name": "of the form", "source": "where the form stands, and whether it was read or recalled"},
    "GateValue": {"name": "of the step"},
    "Money": {"terms": "currency and prices of the amount"},
    "PowerParts": {"shaft_power": "the whole ratio"},
    "ProgrammeCash": {
        "terms": "currency and prices of all sums",
        "draws": "draws of cost, time and gates",
        "seed": "of the draws",
    },
    "ProgrammeFound": {
        "programme": "the steps, in order, and the prize",
        "cash": "cash by quarter over many draws",
        "value": "expected worth at mean costs and times",
    },
    "ProgrammeValue": {
        "gates": "each step on the day on which it would begin",
        "remarks": "what the reader must know",
    },
    "Quantiles": {"mean": "of the draws", "deviation": "standard deviation of the draws"},
    "ScaledCost": {"cost_per_power": "of all units over their rated power; the amount is per W"},
    "ScaledQuantity": {"exponent": "the exponent with its range and source"},
    "SimilarityNumber": {"name": "of the number", "group": "what it speaks of", "verdict": "whether it stays"},
    "SizeExponent": {"kind": "what kind of quantity grows"},
    "SizeFigures": {"throat_diameter": "smallest inner diameter of the duct", "rotor_speed": "at the design point"},
}
