"""Meanings of printed keys of fish, debris and sound that no dataclass says."""

from __future__ import annotations

NEIGHBOURS_MEANINGS: dict[str, dict[str, str]] = {
    "passage": {
        "case": "name of the case",
        "neighbours": "fish and debris; its `sound` is empty here, see the command `sound`",
    },
    "sound": {"case": "name of the case", "sound": "sound by operating point"},
    "Contender": {"shaft_power": "at the design point", "flow_rate": "through the rotor", "strike": "strikes in it"},
    "DebrisFound": {"opening": "what fits through the rows"},
    "Decompression": {"death": "share that dies", "safety": "basis, edition, status and caution"},
    "DriftFound": {"fate": "what becomes of it"},
    "Exposure": {
        "strains": "strain rates by place",
        "lines": "streamlines through the rotor; one station in ten is printed",
        "remarks": "what the reader must know of it",
    },
    "Fate": {
        "name": "packaged class",
        "title": "the same in words",
        "flexible": "true for what wraps",
        "measured": "limits of the counted dose; null where geometry answers",
        "safety": "basis, edition, status and caution",
    },
    "FishAt": {"stream_speed": "of the operating point", "rotor_speed": "of the operating point"},
    "FishBeside": {"beside": "the comparison"},
    "FishPassage": {
        "strike": "strikes by row",
        "exposure": "pressures and strain rates on the way through",
        "remarks": "what the reader must know of it",
        "safety": "basis, edition, status and caution",
    },
    "Opening": {"vanes": "the fixed row", "blades": "the rotor", "safety": "basis, edition, status and caution"},
    "PublishedLevel": {
        "title": "what was found",
        "reference": "what the decibels are in",
        "source": "who found it",
        "status": "whether it was read or recalled",
    },
    "RiverFish": {"discharge": "of the river", "stream_speed": "at the machine"},
    "RowOpening": {"radius": "hub to tip", "pitch": "between neighbours"},
    "RowStrike": {
        "name": "vanes, rotor or bare rotor",
        "radius": "hub to tip",
        "edge_thickness": "twice the nose radius",
    },
    "ScreenLoss": {"remarks": "what the reader must know of it", "safety": "basis, edition, status and caution"},
    "ScreenOption": {"clean_loss": "of the bars alone", "fouled_loss": "with a share of the gaps closed"},
    "SoundAt": {"stream_speed": "of the operating point", "rotor_speed": "of the operating point"},
    "SoundLevel": {
        "source_level": "in each band, tones left out",
        "tones": "of rotor and vanes",
        "distance": "from the machine",
        "ambient_basis": "where the ambient comes from",
        "thresholds": "how far each reaches",
        "uncertainty_parts": "of the source and of the way",
        "remarks": "what the reader must know of it",
        "safety": "basis, edition, status and caution",
    },
    "Strike": {"length": "of the fish", "remarks": "what the reader must know of it"},
    "ThresholdRange": {"safety": "basis, edition, status and caution"},
    "ThroughLines": {"radius": "of each line"},
    "Tone": {"frequency": "of the tone"},
    "TradeRow": {
        "vane_count": "vanes",
        "blade_count": "blades",
        "shaft_power": "at the variant's own design point",
        "torque": "at the rotor's shaft",
    },
    "UncertaintyPart": {"name": "of the part", "basis": "where it comes from"},
    "NeighboursFindings": {"debris": "openings and fates"},
}
