"""Nodes of the ledger: each a pure function of declared inputs, known by a key."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from racewright.tick import Tick


@dataclass(frozen=True)
class Given:
    """All that a node may look at.

    Attributes
    ----------
    keys : Mapping of str to Any
        SI values of the declared scheme keys by role path, such as 'machine.design'; a table gives a mapping of
        its keys; None where the scheme has no such key.
    files : Mapping of str to Path
        Data files by the role path of the key that names them; absent where no file is named.
    nodes : Mapping of str to Any
        Values of the declared upstream nodes; None where one does not apply.
    seed : int
        The node's own seed.
    """

    keys: Mapping[str, Any]
    files: Mapping[str, Path]
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
    compute : callable
        (given, tick) -> value. It sees nothing but what is declared here.
    keys : tuple of str
        Role paths of the scheme keys or tables that it reads.
    files : tuple of str
        Role paths of the keys that name data files it reads; '*' stands for each name of a set of tables.
    nodes : tuple of str
        Upstream nodes.
    needs : tuple of str
        Role paths without which the node does not apply.
    """

    name: str
    revision: int
    compute: Callable[[Given, Tick], Any]
    keys: tuple[str, ...] = ()
    files: tuple[str, ...] = ()
    nodes: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def node_key(node: Node, keys: Mapping[str, Any], digests: Mapping[str, str], upstream: Mapping[str, str]) -> str:
    """SHA-256 of name, revision, canonical SI inputs, file contents and upstream keys, hex."""
    canonical = json.dumps(
        [node.name, node.revision, dict(keys), dict(digests), dict(upstream)],
        sort_keys=True,
        allow_nan=False,
        separators=(",", ":"),
    )
    return hashlib.sha256(canonical.encode()).hexdigest()


def node_seed(scheme_seed: int, name: str) -> int:
    """One seed per node, from the scheme's seed and the node's name."""
    return int.from_bytes(hashlib.sha256(f"{scheme_seed}/{name}".encode()).digest()[:8], "big")
