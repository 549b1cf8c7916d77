"""Meanings of printed keys of hourly supply, upkeep and money that no dataclass says."""

from __future__ import annotations

SUPPLY_MEANINGS: dict[str, dict[str, str]] = {
    "Carried": {"weights": "masses of each piece", "rows": "each means of transport and what it does not take"},
    "CarryingRow": {
        "name": "of the means of transport (untrusted)",
        "heaviest_mass": "of the piece that tries it most by mass",
        "longest_length": "of the piece that tries it most by length",
    },
    "Dispatch": {
        "machine_held_back": "machine energy that nobody could take",
        "sun_held_back": "solar energy that nobody could take",
        "dumped_energy": "turned to heat in the village's dump load",
        "fuel": "burned in the year, starts included",
        "sets": "each set in the year",
        "series": "the year interval by interval; null where it is not kept",
        "remarks": "on the year, worst first",
    },
    "DispatchSeries": {
        "unserved": "load that nobody met",
        "dumped": "turned to heat in the dump load",
        "machine_held_back": "machine power that nobody could take",
        "sun_held_back": "solar power that nobody could take",
        "set_power": "power of each set",
    },
    "HourLoad": {"year": "of the load", "start": "of the first interval", "remarks": "on the load, worst first"},
    "HourMachine": {"remarks": "on the machine's power by the hour, worst first"},
    "Mover": {"name": "of the number in doubt"},
    "PartRow": {"name": "of the part (untrusted)"},
    "PartsAvailability": {"parts_cost": "of parts in a year", "remarks": "on parts and waits, worst first"},
    "PieceWeights": {"name": "of the piece (untrusted)"},
    "PlanMoney": {
        "sentence": "the way of supply in words",
        "fuel_saved": "in a year, beside the sets alone",
        "net_present_value": "of all that the way costs and saves over its life",
        "chance_of_gain": "share of the draws whose worth is above 0",
    },
    "Recovery": {"cases": "the pull in each water", "remarks": "on the recovery, worst first"},
    "RecoveryCase": {"stream_speed": "of the water", "pull": "along the line, and what it is made of"},
    "RecoveryPull": {"remarks": "on the pull, worst first"},
    "SetYear": {"running_time": "in the year", "starts": "in the year"},
    "SpareRow": {"name": "of the part (untrusted)"},
    "Spares": {"holding": "cost of holding the spares, a year"},
    "SupplyBand": {
        "fuel": "burned in a year",
        "fuel_saved": "beside the sets alone, in a year",
        "unserved_time": "without enough supply, in a year",
    },
    "SupplyFindings": {"machines": "of the case"},
    "SupplyMoney": {
        "currency": "label of all money",
        "rows": "each way of supply",
        "remarks": "on money, worst first",
    },
    "SupplyOption": {"sentence": "the way of supply in words"},
    "SupplyWay": {"sentence": "the way of supply in words"},
    "SupplyYear": {
        "year": "whose water it is",
        "rows": "each way of supply",
        "currency": "label of all money",
        "remarks": "on the year, worst first",
    },
}
"""By class and field."""
