"""Meanings of a holding's printed keys that no dataclass says."""

from __future__ import annotations

_STREAM = "of the stream, where the axis is meant to hang"
_READ = "how to read these numbers: basis, edition, how it is known, caution"
_POSE = {
    "depth": "of the water",
    "stream_speed": _STREAM,
    "roll": "right-handed about the way from inlet to exit",
    "pitch": "positive nose up",
    "yaw": "from downstream towards the left bank",
    "cover": "water over the highest point, negative when it is out",
    "bed_clearance": "under the lowest point",
}
HOLDING_MEANINGS: dict[str, dict[str, str]] = {
    "tethers": {"case": "name of the case", "tethers": "how the machine is held"},
    "strike": {"case": "name of the case", "strikes": "what strikes the machine"},
    "AnchorCase": {"case": "the load with its factor"},
    "AnchorCheck": {
        "required": "what it must bear, factors on it",
        "cases": "every load case with the holding in its direction",
        "remarks": "what the reader must know of the anchor",
    },
    "AnchorFound": {"name": "name of the anchor", "proof": "pull test before use"},
    "AnchorHolding": {"kind": "kind of anchor", "remarks": "what the reader must know of the holding"},
    "AnchorLimit": {"mode": "how it gives way", "load": "along the line, with its range"},
    "Blow": {"stiffness": "published contact"},
    "CodeEstimate": {"name": "name of the form"},
    "ContactStiffness": {"value": "stiffness of the contact"},
    "DebrisHeld": {
        "name": "name of the thing held",
        "kind": "trunk, crown or raft",
        "size_words": "its size in words",
    },
    "DebrisLoad": {"name": "name of the load"},
    "Extremes": {
        "cover_wanted": "wanted over the highest point",
        "bed_clearance_wanted": "wanted under the lowest point",
        "roll_wanted": "greatest wanted",
        "lowest_water": "depth of the record's lowest water; null where no record tells it",
        "safety": _READ,
    },
    "FactoredLoad": {"factor": "the safety factor and its standard"},
    "FirstBlow": {
        "closing_speed": "along the normal, at the touch",
        "place": "place that is struck",
        "remarks": "what the reader must know of the blow",
    },
    "HeldRow": {"time_to_clear": "from the first touch; null where the log does not clear"},
    "HoldingHelp": {
        "stream_speed": _STREAM,
        "tension": "slow tension that drives the sizes",
        "wanted_strength": "factor times that tension",
        "proposals": "buoyancy and bridle",
    },
    "LineChoice": {"safety": _READ},
    "LowWater": {**_POSE, "safety": _READ},
    "OutcomeTold": {
        "ending": "what became of the log",
        "friction": "between log and machine",
        "touches": "times that the log came into touch",
        "touch_time": "sum of all touches",
        "safety": _READ,
    },
    "Poses": _POSE,
    "ProofLoad": {"remarks": "what the reader must know of the test", "safety": _READ},
    "Release": {"link": "name of the weak link", "remarks": "what the reader must know when it parts"},
    "RequiredHolding": {"cases": "every load case with its factor"},
    "SafetyFactor": {"group": "what the factor belongs to"},
    "SizeProposal": {"found": "false where no size does"},
    "StateWorst": {"stream_speed": _STREAM, "safety": _READ},
    "StiffnessTrade": {"choice": "the line"},
    "StrikesPrinted": {"logs": "single logs that strike"},
    "StrikeTold": {
        "name": "name of the log",
        "stream_speed": "that carries the log",
        "pretension": "pull of the lines along the stream before the blow",
    },
    "TethersPrinted": {
        "extremes": "least clearances and greatest roll of all that settles",
        "anchors": "every anchor with its lines",
        "remarks": "what the reader must know of the holding",
    },
    "WatchCircle": {
        "heading": "of the stream, from the one it is laid out for",
        "stream_speed": _STREAM,
        "settled": "a rest was found",
        "feasible": "nothing stands against it",
        "safety": _READ,
    },
    "WorstLine": {
        "name": "name of the line",
        "case": "intact or one line lost",
        "state": "load state and depth of water",
        "stream_speed": _STREAM,
        "segment": "segment nearest to its strength",
        "safety": _READ,
    },
    "YearTold": {"level": "of force", "remarks": "what the reader must know of the year"},
}
