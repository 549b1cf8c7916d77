"""How sure a value is: bands, propagation of uncertainty, limits of a share, the error of a mean.

Only the bands are loaded at once; what needs numerical libraries is loaded when it is first asked for.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

from racewright.uncertainty.band import PRIOR_DUCTED_POWER, Band

if TYPE_CHECKING:
    from racewright.uncertainty.binomial import binomial_limits
    from racewright.uncertainty.correlation import Correlation
    from racewright.uncertainty.coverage import coverage_factor, effective_dof
    from racewright.uncertainty.inputs import Input
    from racewright.uncertainty.propagation import propagate
    from racewright.uncertainty.readings import simultaneous, type_a
    from racewright.uncertainty.record_mean import series_mean
    from racewright.uncertainty.type_b import arcsine, certificate, exponential, rectangular, triangular

_HOME = {
    "Correlation": "correlation",
    "Input": "inputs",
    "arcsine": "type_b",
    "binomial_limits": "binomial",
    "certificate": "type_b",
    "coverage_factor": "coverage",
    "effective_dof": "coverage",
    "exponential": "type_b",
    "propagate": "propagation",
    "rectangular": "type_b",
    "series_mean": "record_mean",
    "simultaneous": "readings",
    "triangular": "type_b",
    "type_a": "readings",
}

__all__ = [
    "PRIOR_DUCTED_POWER",
    "Band",
    "Correlation",
    "Input",
    "arcsine",
    "binomial_limits",
    "certificate",
    "coverage_factor",
    "effective_dof",
    "exponential",
    "propagate",
    "rectangular",
    "series_mean",
    "simultaneous",
    "triangular",
    "type_a",
]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = found
    return found
