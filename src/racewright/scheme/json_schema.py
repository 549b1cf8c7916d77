"""JSON Schema (draft 2020-12) of the scheme, for editors. Pure functions of the scheme's tables."""

from __future__ import annotations

import re
from typing import Any, get_args

from pydantic import BaseModel
from pydantic_core import PydanticUndefined

from racewright.quantity import DIMENSION_EXAMPLES, UNITS
from racewright.quantity.units import CURRENCY_DIMENSIONS
from racewright.scheme.types import Key, key_of

_NUMBER = r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,3})?"


def scheme_schema(model: type[BaseModel]) -> dict[str, Any]:
    """The schema of a whole scheme of today's format; quantities are checked for number and unit, their ranges are
    said in words.
    """
    found = _table(model)
    if "format" in found["properties"]:
        newest = found["properties"]["format"]["maximum"]
        found["properties"]["format"] = {"description": f"format version: {newest}", "const": newest}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Racewright scheme",
        **found,
    }


def quantity_pattern(dimension: str) -> str:
    """Regular expression of a quantity of one dimension, as the grammar takes it."""
    units = [re.escape(symbol).replace("\\ ", " ") for symbol, unit in UNITS.items() if unit.dimension == dimension]
    units += [f"[A-Z]{{3}}{per}" for per, found in CURRENCY_DIMENSIONS.items() if found == dimension]
    return f"^ *{_NUMBER} *({'|'.join(units)}) *$"


def tables_in(field: Any) -> tuple[type[BaseModel] | None, bool, bool]:
    """The table class that a field holds, whether by name (a dict), and whether None is allowed."""
    annotation = field.annotation
    arguments = get_args(annotation)
    optional = type(None) in arguments or not field.is_required()
    for found in (annotation, *(a for a in arguments if a is not type(None))):
        if isinstance(found, type) and issubclass(found, BaseModel):
            return found, annotation is not found and type(None) not in arguments, optional
    return None, False, optional


def _table(model: type[BaseModel]) -> dict[str, Any]:
    properties: dict[str, Any] = {}
    required = []
    for name, field in model.model_fields.items():
        key = key_of(model, name)
        inner, named, _optional = tables_in(field)
        if key is not None:
            properties[name] = {"description": _said(key, field), **_value(key)}
        elif inner is not None:
            below = _table(inner)
            body = {"type": "object", "additionalProperties": below} if named else below
            properties[name] = {**body, "description": field.description or ""}
        if field.is_required():
            required.append(name)
    found: dict[str, Any] = {"type": "object", "description": " ".join((model.__doc__ or "").split())}
    return {**found, "properties": properties, "required": required, "additionalProperties": False}


def _value(key: Key) -> dict[str, Any]:
    """Type and limits of one key."""
    if key.kind in ("quantity", "money"):
        example = DIMENSION_EXAMPLES[key.dimension]
        return {"type": "string", "pattern": quantity_pattern(key.dimension), "examples": [example]}
    if key.kind == "ratio":
        number = {"type": "number", "minimum": float(key.low), "maximum": float(key.high)}
        return {"anyOf": [number, {"type": "string", "pattern": quantity_pattern("fraction")}]}
    if key.kind == "numbers":
        return {"type": "array", "items": {"type": "number"}, "minItems": 1, "maxItems": int(key.high)}
    if key.kind == "whole":
        return {"type": "integer", "minimum": int(key.low), "maximum": int(key.high)}
    if key.kind == "choice":
        return {"enum": list(key.words)}
    if key.kind == "flag":
        return {"type": "boolean"}
    if key.kind == "name":
        return {"type": "string", "pattern": r"\S", "maxLength": 300}
    return {"type": "string", "maxLength": 2000}


def _said(key: Key, field: Any) -> str:
    """Meaning, range in words, default."""
    text = field.description or ""
    if key.kind == "quantity":
        text += f"; {key.dimension} from {key.low} to {key.high}"
    elif key.kind == "money":
        text += f"; {key.dimension}, 0 or more"
    elif key.kind == "ratio":
        text += f"; from {key.low} to {key.high}, as a number or a percentage"
    if field.default is not PydanticUndefined and key.because:
        text += f"; default: {key.because}"
    return text
