"""SI unit of every numeric field that `export` prints."""

from __future__ import annotations

EXPORT_UNITS: dict[str, dict[str, str]] = {
    "Exported": {"scale": "-", "tolerance": "m", "handles": "-"},
    "PartFacts": {
        "count": "-",
        "volume": "m3",
        "parametric_volume": "m3",
        "difference": "-",
        "area": "m2",
        "triangles": "-",
        "lowest": "m",
        "highest": "m",
        "mass": "kg",
    },
}
