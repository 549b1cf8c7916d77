"""The tree of keys that a command prints: from the types of what it prints, with a run for the untyped parts."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from types import NoneType
from typing import Any, Literal, get_args, get_origin, get_type_hints

import numpy as np

from racewright.cli.encode import INHERITING, suffix
from racewright.cli.field_units import FIELD_UNITS
from tools.docs.docstrings import field_meanings
from tools.docs.json_meanings import MEANINGS

Meanings = dict[str, dict[str, str]]


@dataclass(frozen=True)
class Node:
    """One JSON value.

    Attributes
    ----------
    kind : str
        'object', 'map' (names of the user's own), 'array', 'number', 'integer', 'boolean', 'string'.
    nullable : bool
        True where null may stand.
    unit : str
        Unit of a number, '' for anything else; CUR stands for the currency label.
    words : tuple of str
        The words a string may be; empty for any text.
    children : tuple of (key, Node, meaning)
        Members of an object; one member for the items of an array or the values of a map.
    """

    kind: str
    nullable: bool = False
    unit: str = ""
    words: tuple[str, ...] = ()
    children: tuple[tuple[str, Node, str], ...] = ()


@dataclass(frozen=True)
class Walker:
    """Walks types and values.

    Attributes
    ----------
    meanings, units : dict
        By class and field: the hand-written meanings, and the units of numeric fields.
    printed : dict
        The printed `units`, for numbers that stand in no class.
    """

    meanings: Meanings = dataclasses.field(default_factory=lambda: MEANINGS)
    units: Meanings = dataclasses.field(default_factory=lambda: FIELD_UNITS)
    printed: dict[str, str] = dataclasses.field(default_factory=dict)

    def of(self, hint: Any, value: Any = None, unit: str = "", owner: str = "") -> Node:
        """Node of a type, with a value to look at where the type says too little."""
        arguments = get_args(hint)
        if NoneType in arguments:
            rest = next(a for a in arguments if a is not NoneType)
            return dataclasses.replace(self.of(rest, value, unit, owner), nullable=True)
        if dataclasses.is_dataclass(value) and not isinstance(value, type):
            hint, arguments = type(value), ()
        if isinstance(value, dict):
            return self._dict(value, get_type_hints(hint) if dataclasses.is_dataclass(hint) else {}, owner)
        if dataclasses.is_dataclass(hint) and isinstance(hint, type):
            return self._dataclass(hint, value, unit)
        origin = get_origin(hint)
        if origin is Literal:
            return Node("string", words=tuple(str(word) for word in arguments))
        if origin is np.ndarray:
            kind = np.dtype(get_args(arguments[1])[0])
            item = "boolean" if kind == np.bool_ else "integer" if np.issubdtype(kind, np.integer) else "number"
            node = Node(item, unit="" if item == "boolean" else unit)
            for _ in range(value.ndim if isinstance(value, np.ndarray) else 1):
                node = _array(node)
            return node
        if origin in (tuple, list):
            first = value[0] if value else None
            return _array(self.of(arguments[0], first, unit, owner))
        simple: dict[Any, Callable[[], Node]] = {
            bool: lambda: Node("boolean"),
            int: lambda: Node("integer", unit=unit or self.printed.get(owner.partition(".")[2], "-")),
            float: lambda: Node("number", unit=unit),
            str: lambda: Node("string"),
        }
        if hint in simple:
            return simple[hint]()
        if value is None:
            raise TypeError(f"{owner}: the type {hint!r} says too little and the run printed nothing")
        if isinstance(value, tuple | list):
            first = value[0] if value else ""  # what is printed as an empty list on the example are names
            return _array(self.of(type(first), first, unit, owner))
        return self.of(type(value), value, unit, owner)

    def _dict(self, value: dict[str, Any], hints: dict[str, Any], owner: str) -> Node:
        meanings = self.meanings.get(owner, {})
        if "*" in meanings:
            inner = self.of(Any, next(iter(value.values())), owner=f"{owner}.*")
            return Node("map", children=(("NAME", inner, meanings["*"]),))
        children = []
        for key, item in value.items():
            hint = hints.get(key, Any)
            if isinstance(item, dict) and NoneType in get_args(hint):
                rest = next(a for a in get_args(hint) if a is not NoneType)
                node = dataclasses.replace(self.of(rest, item, owner=f"{owner}.{key}"), nullable=True)
            elif dataclasses.is_dataclass(item) and not isinstance(item, type):
                node = dataclasses.replace(self.of(Any, item), nullable=NoneType in get_args(hint))
            elif isinstance(item, list) and get_args(hint):
                node = _array(self.of(get_args(hint)[0]))
            else:
                node = self.of(hint, item, owner=f"{owner}.{key}")
            children.append((key, node, meanings.get(key, "")))
        return Node("object", children=tuple(children))

    def _dataclass(self, cls: type, value: Any, unit: str) -> Node:
        hints = get_type_hints(cls)
        hand = self.meanings.get(cls.__name__, {})
        read = field_meanings(cls)
        units = self.units.get(cls.__name__, {})
        gaps = "null where" in (cls.__doc__ or "") or "NaN where" in (cls.__doc__ or "")
        children = []
        for field in dataclasses.fields(cls):
            own = units.get(field.name, "").replace("currency", "CUR")
            if cls.__name__ in INHERITING:
                own = "" if field.name == "basis" else unit
            key = field.name if cls.__name__ in INHERITING else field.name + suffix(own)
            item = None if value is None else getattr(value, field.name)
            node = self.of(hints[field.name], item, own, f"{cls.__name__}.{field.name}")
            node = _with_gaps(node) if gaps and get_origin(hints[field.name]) is np.ndarray else node
            children.append((key, node, hand.get(field.name) or read.get(field.name, "")))
        return Node("object", children=tuple(children))


def _with_gaps(node: Node) -> Node:
    """An array whose numbers may be null."""
    if node.kind == "array":
        return _array(_with_gaps(node.children[0][1]))
    return dataclasses.replace(node, nullable=node.kind == "number")


def _array(item: Node) -> Node:
    return Node("array", children=(("", item, ""),))


@dataclass(frozen=True)
class Leaf:
    """One row of the page: path, node and meaning."""

    path: str
    node: Node
    meaning: str


def leaves(node: Node, path: str = "", meaning: str = "") -> list[Leaf]:
    """Every key below a node, parents that have a meaning of their own before their members."""
    if node.kind == "array":
        inner = node.children[0][1]
        while inner.kind == "array":
            inner = inner.children[0][1]
        if inner.kind != "object":
            return [Leaf(f"{path}[]", inner, meaning)]
        return [Leaf(f"{path}[]", node, meaning), *_members(inner, f"{path}[]")]
    if node.kind in ("object", "map"):
        own = [Leaf(path, node, meaning)] if path else []
        return own + _members(node, path)
    return [Leaf(path, node, meaning)]


def _members(node: Node, path: str) -> list[Leaf]:
    prefix = f"{path}." if path else ""
    return [leaf for key, child, meaning in node.children for leaf in leaves(child, prefix + key, meaning)]
