"""Every sum of money in a table, with the path of its key."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from racewright.quantity.grammar import Quantity

Found = list[tuple[tuple[str, ...], Quantity]]


def money_found(value: Any, at: tuple[str, ...]) -> Found:
    """In the order of the table's keys, nested tables included."""
    if isinstance(value, Quantity):
        return [(at, value)] if value.currency else []
    if isinstance(value, dict):
        return [one for name, table in value.items() for one in money_found(table, (*at, name))]
    if isinstance(value, BaseModel):
        keys = type(value).model_fields
        return [one for key in keys for one in money_found(getattr(value, key), (*at, key))]
    return []
