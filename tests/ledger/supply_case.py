"""The river example's hourly year with a stated power curve, so that no flow is solved."""

from __future__ import annotations

import copy
import dataclasses
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np

from racewright.ledger.graph import NODES, plan
from racewright.scheme import LoadedScheme, load_scheme
from racewright.scheme.model import Scheme
from racewright.tick import silent
from tests.ledger.common import EXAMPLE

_SPEED = np.linspace(0.5, 6.0, 56)
CURVE = SimpleNamespace(
    stream_speed=_SPEED,
    electrical_power=np.minimum(350.0 * _SPEED**3, 5000.0),
    band_low=np.zeros(56),
    band_high=np.zeros(56),
)
"""A cubic to rated power."""

GIVEN = {
    "power_curve": CURVE,
    "energy_band": SimpleNamespace(rows=()),
    "energy": SimpleNamespace(mean_power=1500.0),
    "states": (SimpleNamespace(name="parked", stream_speed=2.0, thrust=1200.0),),
}


def example(folder: Path | None = None) -> LoadedScheme:
    """The bundled example, where it stands or as copied into a folder."""
    return load_scheme((folder or EXAMPLE) / "scheme.toml")


def changed(loaded: LoadedScheme, **values: Any) -> LoadedScheme:
    """With values at paths such as community__landing__supply__year; None takes a key away."""
    raw = copy.deepcopy(loaded.raw)
    for path, value in values.items():
        *tables, key = path.split("__")
        table = raw
        for name in tables:
            table = table.setdefault(name, {})
        if value is None:
            table.pop(key, None)
        else:
            table[key] = value
    return dataclasses.replace(loaded, scheme=Scheme.model_validate(raw), raw=raw)


def values_of(loaded: LoadedScheme, *wanted: str) -> dict[str, Any]:
    """Values of nodes, with `GIVEN` in place of what the flow would give."""
    name, case = next(iter(loaded.scheme.case.items()))
    given = plan(loaded, name, case, wanted).given
    found: dict[str, Any] = {}

    def value(node: str) -> Any:
        if node in GIVEN:
            return GIVEN[node]
        if node not in found:
            if node not in given:
                return None
            nodes = {up: value(up) for up in NODES[node].nodes}
            found[node] = NODES[node].compute(dataclasses.replace(given[node], nodes=nodes), silent)
        return found[node]

    return {node: value(node) for node in wanted}
