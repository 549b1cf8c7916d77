"""Tests of models: what a channel's walls and surface do to them.

The public functions are loaded when they are first asked for, so that the modules without numbers stay quick.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from racewright.trials.blockage_compare import blockage
    from racewright.trials.unbounded_record import blockage_record

_HOME = {"blockage": "blockage_compare", "blockage_record": "unbounded_record"}

__all__ = ["blockage", "blockage_record"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = found
    return found
