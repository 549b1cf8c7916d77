"""What the water does at a place: records, rating, transect, profile, speed climate.

The public functions are loaded when they are first asked for, so that the modules without numbers stay quick.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from racewright.place.duration import duration_curve, quantile
    from racewright.place.site import site_from_discharge, site_from_histogram, site_from_speed

_HOME = {
    "duration_curve": "duration",
    "quantile": "duration",
    "site_from_discharge": "site",
    "site_from_histogram": "site",
    "site_from_speed": "site",
}

__all__ = ["duration_curve", "quantile", "site_from_discharge", "site_from_histogram", "site_from_speed"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
