"""Strict JSON Schemas (draft 2020-12) of what commands print, from the tree of keys."""

from __future__ import annotations

import re
from typing import Any

from tools.docs.json_tree import Node

_CURRENCY = "[A-Z]{3}"
_TEXT: dict[str, Any] = {"type": "string"}


def command_schema(command: str, node: Node, provenance: tuple[str, ...]) -> dict[str, Any]:
    """The schema of one command's JSON: the answer, `units`, `provenance`; nothing else.

    A key or unit that holds the currency's label is a pattern with any three capitals in its place.
    """
    answer = _schema(node)
    properties = {
        **answer["properties"],
        "units": _units(node),
        "provenance": {
            "type": "object",
            "properties": dict.fromkeys(provenance, _TEXT),
            "required": list(provenance),
            "additionalProperties": False,
        },
    }
    found = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"racewright {command} --json",
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }
    needed = _needed_units(node)
    return {**found, "allOf": needed} if needed else found


def _schema(node: Node) -> dict[str, Any]:
    found = _bare(node)
    if node.nullable:
        return {"anyOf": [found, {"type": "null"}]}
    return found


def _bare(node: Node) -> dict[str, Any]:
    if node.words:
        return {"enum": list(node.words)}
    if node.kind == "array":
        return {"type": "array", "items": _schema(node.children[0][1])}
    if node.kind == "map":
        return {"type": "object", "additionalProperties": _schema(node.children[0][1])}
    if node.kind != "object":
        return {"type": node.kind}
    fixed = {key: _said(child, meaning) for key, child, meaning in node.children if "CUR" not in key}
    money = {_pattern(key): _said(child, meaning) for key, child, meaning in node.children if "CUR" in key}
    found: dict[str, Any] = {
        "type": "object",
        "properties": fixed,
        "required": list(fixed),
        "additionalProperties": False,
    }
    if money:
        count = len(fixed) + len(money)
        found |= {"patternProperties": money, "minProperties": count, "maxProperties": count}
    return found


def _said(node: Node, meaning: str) -> dict[str, Any]:
    unit = f" [{node.unit.replace('CUR', 'currency')}]" if node.unit else ""
    return {**_schema(node), "description": meaning + unit}


def _pattern(key: str) -> str:
    return "^" + re.escape(key).replace("CUR", _CURRENCY) + "$"


def numbers(node: Node, path: str = "", *, sure: bool = False) -> list[tuple[str, Node]]:
    """Path and node of every numeric leaf, as the `units` object writes them.

    With `sure` only those that are there whenever the node itself is: nothing inside a part that may be null.
    """
    if node.kind in ("number", "integer"):
        return [(path, node)]
    if node.kind == "array":
        return numbers(node.children[0][1], f"{path}[]", sure=sure)
    prefix = f"{path}." if path else ""
    inner = [(key, child) for key, child, _ in node.children if not (sure and child.nullable)]
    return [leaf for key, child in inner for leaf in numbers(child, prefix + key, sure=sure)]


def _units(node: Node) -> dict[str, Any]:
    """The `units` object: for each path its unit and no other path."""
    fixed: dict[str, Any] = {}
    patterns: dict[str, Any] = {}
    for path, leaf in numbers(node):
        label = {"type": "string", "pattern": _pattern(leaf.unit)}
        unit: dict[str, Any] = label if "CUR" in leaf.unit else {"const": leaf.unit}
        if "CUR" in path or "NAME" in path:
            patterns[_pattern(path).replace("NAME", ".+")] = unit
        else:
            fixed[path] = unit
    return {
        "type": "object",
        "properties": dict(sorted(fixed.items())),
        "patternProperties": dict(sorted(patterns.items())),
        "additionalProperties": False,
    }


def _needed_units(node: Node) -> list[dict[str, Any]]:
    """Which paths `units` must hold: those of each part that is not null, lists of objects left out."""
    found = []
    for key, child, _meaning in node.children:
        paths = [path for path, _leaf in numbers(child, key, sure=True) if "CUR" not in path and "NAME" not in path]
        needed = [path for path in paths if "[]." not in path]
        if needed:
            units = {"properties": {"units": {"required": sorted(needed)}}}
            holds = {"properties": {key: {"not": {"type": "null"}}}, "required": [key]}
            found.append({"if": holds, "then": units} if child.nullable else units)
    return found
