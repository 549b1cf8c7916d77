"""The graph of results: which nodes a case has, in order, and their values, from the cache where it can."""

from __future__ import annotations

import hashlib
import logging
import signal
import time
from collections.abc import Iterator, Mapping
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from racewright.errors import InputError, MissingColumn
from racewright.ledger.node import Given, Node, node_key, node_seed
from racewright.ledger.nodes_drive import DRIVE_NODES
from racewright.ledger.nodes_energy import ENERGY_NODES
from racewright.ledger.nodes_growth import GROWTH_NODES
from racewright.ledger.nodes_holding import HOLDING_NODES
from racewright.ledger.nodes_hourly import HOURLY_NODES
from racewright.ledger.nodes_machine import MACHINE_NODES
from racewright.ledger.nodes_money import MONEY_NODES
from racewright.ledger.nodes_neighbours import NEIGHBOURS_NODES
from racewright.ledger.nodes_place import PLACE_NODES
from racewright.ledger.nodes_rows import ROW_NODES
from racewright.ledger.nodes_strength import STRENGTH_NODES
from racewright.ledger.nodes_struck import STRUCK_NODES
from racewright.ledger.nodes_supply import SUPPLY_NODES
from racewright.ledger.nodes_trials import TRIALS_NODES
from racewright.ledger.nodes_upkeep import UPKEEP_NODES
from racewright.ledger.roles import Roles, roles_of
from racewright.ledger.store import Store
from racewright.ledger.trials_kept import logger_file
from racewright.scheme.load import LoadedScheme
from racewright.scheme.model import CaseTable
from racewright.tick import Tick, part_of, silent

_ALL = (
    *PLACE_NODES,
    *MACHINE_NODES,
    *ROW_NODES,
    *DRIVE_NODES,
    *SUPPLY_NODES,
    *UPKEEP_NODES,
    *ENERGY_NODES,
    *HOURLY_NODES,
    *MONEY_NODES,
    *TRIALS_NODES,
    *HOLDING_NODES,
    *STRUCK_NODES,
    *STRENGTH_NODES,
    *NEIGHBOURS_NODES,
    *GROWTH_NODES,
)
NODES: Mapping[str, Node] = {n.name: n for n in _ALL}
"""Every node by name; a node comes after the nodes that it reads, but for the order of groups."""

LOG = logging.getLogger("racewright.ledger")

SCHEME_SEED = 20240229
"""Seed of a scheme, from which each node has its own."""


@dataclass(frozen=True)
class Plan:
    """What a case needs: nodes that apply, their inputs, files and keys."""

    roles: Roles
    order: tuple[Node, ...]
    given: Mapping[str, Given]
    keys: Mapping[str, str]


def plan(loaded: LoadedScheme, name: str, case: CaseTable, wanted: tuple[str, ...] = tuple(NODES)) -> Plan:
    """Order the wanted nodes and those they read, and work out their keys; nothing is computed.

    Raises
    ------
    InputError
        When a data file is not there.
    """
    roles = roles_of(loaded.scheme, name, case)
    order = _ordered(wanted, roles)
    digests: dict[Path, str] = {}
    given: dict[str, Given] = {}
    keys: dict[str, str] = {}
    for node in order:
        files = _files(loaded, roles, node)
        for path in files.values():
            digests.setdefault(path, file_digest(path))
        plain = {path: roles.plain(path) for path in node.keys}
        upstream = {up: keys.get(up, "") for up in node.nodes}
        keys[node.name] = node_key(node, plain, {role: digests[path] for role, path in files.items()}, upstream)
        given[node.name] = Given(plain, files, {}, node_seed(SCHEME_SEED, node.name))
    return Plan(roles, order, given, keys)


def evaluate(
    loaded: LoadedScheme,
    name: str,
    case: CaseTable,
    *,
    wanted: tuple[str, ...] = tuple(NODES),
    store: Store | None = None,
    workers: int = 1,
    tick: Tick = silent,
) -> dict[str, Any]:
    """Values of the wanted nodes and of those they read; None for a node that does not apply.

    Parameters
    ----------
    loaded, name, case
        The scheme, and which case of it.
    wanted : tuple of str
        Node names.
    store : Store, optional
        The cache; without one everything is computed.
    workers : int
        Processes that compute nodes side by side; the answer does not depend on it.
    tick : Tick
    """
    planned = plan(loaded, name, case, wanted)
    values: dict[str, Any] = dict.fromkeys(NODES)
    missing = []
    for node in planned.order:
        found, value = store.get(planned.keys[node.name]) if store else (False, None)
        if found:
            LOG.info("%s: remembered", node.name)
            values[node.name] = value
        else:
            missing.append(node)
    if workers > 1 and len(missing) > 1:
        _side_by_side(loaded, planned, missing, values, store, workers, tick)
        return values
    for done, node in enumerate(missing):
        tick(done / len(missing))
        given = _with_nodes(planned.given[node.name], node, values)
        try:
            values[node.name] = _run(node.name, given, part_of(tick, done, len(missing)))
        except InputError as fault:
            raise _placed(loaded, planned.roles, node, fault) from None
        if store is not None:
            store.put(planned.keys[node.name], values[node.name])
    tick(1.0)
    return values


def _placed(loaded: LoadedScheme, roles: Roles, node: Node, fault: InputError) -> InputError:
    """An input error of the physics, pointed at the scheme key that it is about."""
    if isinstance(fault, MissingColumn):
        for path in (p.rpartition(".")[0] for several in node.files for p in roles.expanded(several)):
            table = roles.find(path)
            if table is not None and fault.column in table.model_dump().values():
                return loaded.column_error(fault, table, *roles.scheme_path(path))
    if fault.file is not None:
        return fault
    if any((fault.key or "").startswith(f"{path}.") for path in node.keys):
        return loaded.error(fault.message, *roles.scheme_path(fault.key or ""))
    *group, name = (fault.key or "").replace("blades", "rotor").split(".")
    for path in sorted(node.keys, key=lambda p: p.rsplit(".", 1)[-1] not in group):
        table = roles.find(path)
        if isinstance(table, dict) and group and name in getattr(type(table.get(group[-1])), "model_fields", {}):
            return loaded.error(fault.message, *roles.scheme_path(f"{path}.{group[-1]}.{name}"))
        if name in getattr(type(table), "model_fields", {}):
            return loaded.error(fault.message, *roles.scheme_path(f"{path}.{name}"))
        if path.rsplit(".", 1)[-1] == name:
            return loaded.error(fault.message, *roles.scheme_path(path))
    message = f"{fault.key}: {fault.message}" if fault.key else fault.message
    return loaded.error(message, *roles.scheme_path((*node.needs, "case")[0]))


def _side_by_side(
    loaded: LoadedScheme,
    planned: Plan,
    missing: list[Node],
    values: dict[str, Any],
    store: Store | None,
    workers: int,
    tick: Tick,
) -> None:
    """Compute nodes as soon as what they read is there, in worker processes of one thread each."""
    waiting = {node.name: node for node in missing}
    running: dict[Future[Any], Node] = {}
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_pin) as pool:
        try:
            while waiting or running:
                for node in [n for n in waiting.values() if not any(_open(up, waiting, running) for up in n.nodes)]:
                    given = _with_nodes(planned.given[node.name], node, values)
                    with _deaf_children():
                        running[pool.submit(_run, node.name, given, silent)] = waiting.pop(node.name)
                finished, _rest = wait(running, timeout=0.2, return_when=FIRST_COMPLETED)
                for future in finished:
                    node = running.pop(future)
                    try:
                        values[node.name] = future.result()
                    except InputError as fault:
                        raise _placed(loaded, planned.roles, node, fault) from None
                    if store is not None:
                        store.put(planned.keys[node.name], values[node.name])
                tick(1.0 - (len(waiting) + len(running)) / len(missing))
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise


def _open(name: str, waiting: dict[str, Node], running: dict[Future[Any], Node]) -> bool:
    return name in waiting or any(node.name == name for node in running.values())


@contextmanager
def _deaf_children() -> Iterator[None]:
    """Worker processes started here leave Ctrl-C to their parent, which tells them to stop.

    They inherit a blocked signal; the parent gets one that came meanwhile when it opens its ears again.
    """
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _pin() -> None:
    """First thing in a worker process."""
    import racewright.threads  # noqa: F401


def _run(name: str, given: Given, tick: Tick) -> Any:
    start = time.perf_counter()
    value = NODES[name].compute(given, tick)
    LOG.info("%s: computed in %.2f s", name, time.perf_counter() - start)
    return value


def _with_nodes(given: Given, node: Node, values: Mapping[str, Any]) -> Given:
    return Given(given.keys, given.files, {up: values[up] for up in node.nodes}, given.seed)


def _ordered(wanted: tuple[str, ...], roles: Roles) -> tuple[Node, ...]:
    """Nodes that apply, each after what it reads, in a fixed order."""
    placed: dict[str, Node] = {}

    def place(name: str) -> None:
        node = NODES[name]
        if name in placed or any(roles.find(path) is None for path in node.needs):
            return
        for up in node.nodes:
            place(up)
        placed[name] = node

    for name in wanted:
        place(name)
    return tuple(placed.values())


def _files(loaded: LoadedScheme, roles: Roles, node: Node) -> dict[str, Path]:
    named = {path: roles.find(path) for several in node.files for path in roles.expanded(several)}
    return {p: logger_file(loaded, roles, p, file) for p, file in named.items() if file is not None}


def file_digest(path: Path) -> str:
    """SHA-256 of a file's content, hex."""
    whole = hashlib.sha256()
    try:
        with path.open("rb") as stream:
            while block := stream.read(1 << 20):
                whole.update(block)
    except IsADirectoryError:
        raise InputError("is a directory; a file is wanted", file=str(path)) from None
    except OSError as fault:
        raise InputError(f"cannot be read ({(fault.strerror or str(fault)).lower()})", file=str(path)) from None
    return whole.hexdigest()
