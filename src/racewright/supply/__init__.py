"""What the village gets: energy, an hourly year of its supply, fuel, cost.

What needs compiled code is loaded when it is first asked for.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from racewright.supply.dispatch_year import dispatch
    from racewright.supply.levelised import levelised_cost

_HOME = {"dispatch": "dispatch_year", "levelised_cost": "levelised"}

__all__ = ["dispatch", "levelised_cost"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = found
    return found
