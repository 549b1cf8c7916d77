"""Results as strict JSON: keys carry their SI unit, and a `units` object covers every numeric leaf."""

from __future__ import annotations

import dataclasses
import json
import math
import re
from typing import Any

import numpy as np

from racewright.cli.field_units import FIELD_UNITS

INHERITING = ("Band", "Quantiles")
"""Classes whose numbers have the unit of the field that holds them."""
OWN_UNIT = "own unit"
"""Unit of figures that say theirs in words beside them."""


def to_json(answer: dict[str, Any], provenance: dict[str, Any], currency: str = "") -> str:
    """One JSON object: the answer, `units` for each numeric leaf, and `provenance`.

    Arrays become lists; a path in `units` writes `[]` for 'each item'. NaN and inf are refused (ValueError).
    """
    units: dict[str, str] = {}
    body = {key: _encode(value, key, units, currency) for key, value in answer.items()}
    units.update({key: "-" for key, value in answer.items() if _numeric(value)})
    whole = {**body, "units": dict(sorted(units.items())), "provenance": provenance}
    return json.dumps(whole, allow_nan=False, ensure_ascii=False, indent=1)


def _encode(value: Any, path: str, units: dict[str, str], currency: str) -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return _encode_fields(value, path, units, currency)
    if isinstance(value, dict):
        return {k: _encode(v, f"{path}.{k}", units, currency) for k, v in value.items()}
    if isinstance(value, np.ndarray):
        return _encode(value.tolist(), path, units, currency)
    if isinstance(value, list | tuple):
        return [_encode(item, f"{path}[]", units, currency) for item in value]
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{path} is not finite")
        return value
    return value


def _encode_fields(
    value: Any, path: str, units: dict[str, str], currency: str, inherited: str = ""
) -> dict[str, Any]:
    out: dict[str, Any] = {}
    table = FIELD_UNITS.get(type(value).__name__, {})
    for field in dataclasses.fields(value):
        item = getattr(value, field.name)
        unit = table.get(field.name, "").replace("currency", currency or "currency")
        if type(value).__name__ in INHERITING and field.name != "basis":
            unit = inherited
        key = field.name if type(value).__name__ in INHERITING else field.name + suffix(unit)
        if type(item).__name__ in INHERITING:
            out[key] = _encode_fields(item, f"{path}.{key}", units, currency, inherited=unit)
            continue
        if unit and not (item is None and unit == OWN_UNIT):
            _note_unit(item, f"{path}.{key}", unit, units)
        elif _numeric(item):
            raise KeyError(f"{type(value).__name__}.{field.name} has no unit in the table")
        out[key] = _encode(item, f"{path}.{key}", units, currency)
    return out


def suffix(unit: str) -> str:
    """Key ending for a unit: 'm/s' gives '_m_per_s', '-' gives nothing."""
    if unit in ("", "-"):
        return ""
    return "_" + re.sub(r"[^A-Za-z0-9]+", "_", unit.replace("/", "_per_")).strip("_")


def _numeric(item: Any) -> bool:
    if isinstance(item, np.ndarray):
        return bool(item.dtype != np.bool_)
    if isinstance(item, list | tuple) and item:
        return _numeric(item[0])
    return isinstance(item, int | float) and not isinstance(item, bool)


def _note_unit(item: Any, path: str, unit: str, units: dict[str, str]) -> None:
    depth = item.ndim if isinstance(item, np.ndarray) else _depth(item)
    units[path + "[]" * depth] = unit


def _depth(item: Any) -> int:
    depth = 0
    while isinstance(item, list | tuple | np.ndarray):
        if isinstance(item, np.ndarray):
            return depth + item.ndim
        depth += 1
        if len(item) == 0:
            return depth
        item = item[0]
    return depth
