"""Nodes of the ledger: each a pure function of declared inputs, known by a key."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from racewright.tick import Tick

Compute = Callable[["Given", Tick], Any]


@dataclass(frozen=True)
class Given:
    """All that a node may look at.

    Attributes
    ----------
    keys : Mapping of str to Any
        SI values of the declared scheme keys, by role path such as 'machine.duct'; a path to a table gives a
        mapping of its leaves; None where the scheme has no such table.
    files : Mapping of str to bytes
        Content of the declared data files, by role path of the key that names them.
    nodes : Mapping of str to Any
        Values of the declared upstream nodes; None where one does not apply.
    seed : int
        The node's own seed.
    """

    keys: Mapping[str, Any]
    files: Mapping[str, str]
    nodes: Mapping[str, Any]
    seed: int


@dataclass(frozen=True)
class Node:
    """One named result.

    Attributes
    ----------
    name : str
    revision : int
        Raised when the function changes its answer for equal inputs.
    keys : tuple of str
        Role paths of scheme keys or tables that the function reads.
    files : tuple of str
        Role paths of the keys that name data files it reads.
    nodes : tuple of str
        Upstream nodes.
    compute : callable
        (given, tick) -> value.
    """

    name: str
    revision: int
    keys: tuple[str, ...]
    files: tuple[str, ...]
    nodes: tuple[str, ...]
    compute: Compute


def node_key(
    node: Node, keys: Mapping[str, Any], file_digests: Mapping[str, str], upstream: Mapping[str, str]
) -> str:
    """SHA-256 of name, revision, canonical SI inputs, file contents and upstream keys, hex."""
    canonical = json.dumps(
        [node.name, node.revision, dict(keys), dict(file_digests), dict(upstream)],
        sort_keys=True,
        allow_nan=False,
        separators=(",", ":"),
    )
    return hashlib.sha256(canonical.encode()).hexdigest()


def node_seed(scheme_seed: int, name: str) -> int:
    """One seed per node, from the scheme's seed and the node's name."""
    return int.from_bytes(hashlib.sha256(f"{scheme_seed}/{name}".encode()).digest()[:8], "big")
