"""Change every scheme key in turn: exactly the declared nodes, and what reads them, get another key."""

from __future__ import annotations

import copy
import dataclasses
import re
import shutil
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from racewright.ledger import graph
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import NODES, evaluate, plan
from racewright.ledger.node import Given
from racewright.ledger.store import Store
from racewright.quantity.grammar import parse
from racewright.scheme import LoadedScheme, load_scheme
from racewright.scheme.model import Scheme
from racewright.tick import silent
from tests.frame.common import count
from tests.frame.scheme_keys import Leaf, another, leaves
from tests.frame.whole_tables import table_of, value_at, with_tables
from tests.ledger.common import EXAMPLE as LEAN_EXAMPLE
from tests.ledger.common import FULL_EXAMPLE as EXAMPLE

LEAVES = leaves()
ASKED = LEAVES[:: count(4, 1)]
"""Keys that are changed one by one: all of them in the full proof."""
Raw = dict[str, Any]


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> LoadedScheme:
    """Of a copy: files of other content are written beside its own."""
    copy = Path(shutil.copytree(EXAMPLE, tmp_path_factory.mktemp("keys") / "demo"))
    return load_scheme(copy / "scheme.toml")


@pytest.fixture(scope="module")
def computed(tmp_path_factory: pytest.TempPathFactory) -> LoadedScheme:
    """The example whose nodes are really computed: in the suite the one that leaves whole rooms out."""
    folder = LEAN_EXAMPLE if count(1, 0) else EXAMPLE
    copy = Path(shutil.copytree(folder, tmp_path_factory.mktemp("computed") / "demo"))
    return load_scheme(copy / "scheme.toml")


def with_raw(loaded: LoadedScheme, raw: Raw) -> LoadedScheme:
    return dataclasses.replace(loaded, scheme=Scheme.model_validate(raw), raw=raw)


def changed(loaded: LoadedScheme, leaf: Leaf) -> LoadedScheme:
    """The scheme with one key given another valid value; a key that names a file gets one of other content.

    The key's table must be there: see `with_tables`.
    """
    raw = copy.deepcopy(loaded.raw)
    table, name = table_of(raw, leaf.path), leaf.path.rsplit(".", 1)[-1]
    old = table.get(name)
    if old is None:
        old = value_at(loaded, leaf.path)
        old = None if isinstance(old, float) else old
    table[name] = another(leaf.key, name, old)
    if name == "file":
        lines = (loaded.folder / old).read_text("utf-8").splitlines(keepends=True)
        (loaded.folder / table[name]).write_text("".join(lines[:-1]), "utf-8")
    if leaf.path.startswith("case.") and leaf.path.removeprefix("case.") in (
        "place",
        "machine",
        "community",
        "trials",
        "neighbours",
        "growth",
        "holding",
    ):
        group = raw[leaf.path.removeprefix("case.")]
        group[table[name]] = group.pop(old)
    return with_raw(loaded, raw)


def keys_of(loaded: LoadedScheme) -> dict[str, str]:
    name, case = next(iter(loaded.scheme.case.items()))
    return dict(plan(loaded, name, case).keys)


def declaring(path: str) -> set[str]:
    """Nodes that declare a leaf key, its file, or a table that holds it; a file's name itself counts for nothing."""
    if path.endswith(".file"):
        return {node.name for node in NODES.values() if any(_stands_for(several, path) for several in node.files)}
    return {
        node.name for node in NODES.values() if any(path == key or path.startswith(key + ".") for key in node.keys)
    }


def _stands_for(several: str, path: str) -> bool:
    """Whether a node's path, '*' for each name, is a leaf's path, which leaves names out."""
    return several.replace(".*", "") == path


def downstream(names: set[str]) -> set[str]:
    """These nodes and all that read them."""
    found = set(names)
    while more := {n.name for n in NODES.values() if found & set(n.nodes)} - found:
        found |= more
    return found


@pytest.mark.parametrize("leaf", ASKED, ids=lambda leaf: leaf.path)
def test_a_changed_key_changes_exactly_its_nodes(example: LoadedScheme, leaf: Leaf) -> None:
    base = with_tables(example, leaf.path)
    before, after = keys_of(base), keys_of(changed(base, leaf))
    assert before.keys() == after.keys()
    differing = {name for name in before if before[name] != after[name]}
    assert differing == (set() if leaf.tells_only else downstream(declaring(leaf.path)) & before.keys())


@pytest.mark.parametrize("leaf", [leaf for leaf in LEAVES if not leaf.tells_only], ids=lambda leaf: leaf.path)
def test_no_key_is_dead(leaf: Leaf) -> None:
    assert declaring(leaf.path), f"{leaf.path} is declared by no node"


def test_title_changes_no_key(example: LoadedScheme) -> None:
    assert keys_of(with_raw(example, {**example.raw, "title": "Another"})) == keys_of(example)


def test_a_file_of_equal_content_under_another_name_keeps_all_keys(example: LoadedScheme) -> None:
    shutil.copy(example.folder / "discharge.csv", example.folder / "copy.csv")
    raw = copy.deepcopy(example.raw)
    table_of(raw, "place.record.file")["file"] = "copy.csv"
    assert keys_of(with_raw(example, raw)) == keys_of(example)


def test_metres_and_millimetres_share_all_keys(example: LoadedScheme) -> None:
    raw = copy.deepcopy(example.raw)
    assert _to_millimetres(raw) >= 15
    assert keys_of(with_raw(example, raw)) == keys_of(example)


def _to_millimetres(table: Raw) -> int:
    """Rewrite every length of a written table, in place; returns how many."""
    done = 0
    for name, value in table.items():
        if isinstance(value, dict):
            done += _to_millimetres(value)
        elif isinstance(value, str) and (found := re.fullmatch(r"(-?[\d.]+) m", value)):
            table[name] = f"{Decimal(found[1]) * 1000} mm"
            done += 1
    return done


def test_every_decimal_length_is_the_same_in_metres_and_millimetres() -> None:
    different = [n for n in range(count(3000, 200_000)) if length(f"{n} mm") != length(f"{Decimal(n) / 1000} m")]
    assert different == []


def length(text: str) -> float:
    return parse(text, "length").si


def counted(monkeypatch: pytest.MonkeyPatch, *, stubs: bool) -> list[str]:
    """Names of nodes as they are computed; with `stubs` their functions only return their own name."""
    ran: list[str] = []

    def watched(name: str) -> Callable[[Given, Any], Any]:
        real = NODES[name].compute

        def compute(given: Given, tick: Any) -> Any:
            ran.append(name)
            return name if stubs else real(given, tick)

        return compute

    nodes = {name: dataclasses.replace(node, compute=watched(name)) for name, node in NODES.items()}
    monkeypatch.setattr(graph, "NODES", nodes)
    return ran


def run_once(loaded: LoadedScheme, store: Store) -> dict[str, Any]:
    name, case = next(iter(loaded.scheme.case.items()))
    return evaluate(loaded, name, case, store=store)


def test_each_changed_key_recomputes_exactly_its_nodes_through_the_cache(
    example: LoadedScheme, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, record_property: Callable[..., None]
) -> None:
    ran = counted(monkeypatch, stubs=True)
    store = Store(tmp_path / "cache", CLASSES)
    run_once(example, store)
    assert sorted(ran) == sorted(keys_of(example))
    known = [example.raw]
    for leaf in ASKED[:: count(4, 1)]:
        base = with_tables(example, leaf.path)
        if base.raw not in known:
            run_once(base, store)
            known.append(base.raw)
        ran.clear()
        run_once(changed(base, leaf), store)
        expected = set() if leaf.tells_only else downstream(declaring(leaf.path)) & keys_of(base).keys()
        assert set(ran) == expected, leaf.path
        assert len(ran) == len(set(ran))
    record_property("measured", f"{len(ASKED[:: count(4, 1)])} keys, each alone, through a cache")


DRIVEN = {"control", "power_curve", "start_up", "letting_go", "drive_parts"}
YIELD = {"availability", "energy", "years", "months", "energy_band", "turbulence", "river_share", "comparison"}
HEARD = {"fish", "sound"}
"""They hang on how the drive runs the rotor in the fastest water."""
STRONG = {"strength_points", "stresses", "natural_frequencies"}
"""They hang on what the machine does in its states."""

HELD = {"held_loads", "held", "held_anchors", "debris_held", "struck", "struck_year", "holding_help"}
"""They hang on what the machine does in its states, too."""
BAND = {"supply_band", "money"}
SLOW = {"flow", "rows", "map", "curve", "growth", "fish_beside", "trade", "supply_band", *HELD}
"""Nodes whose real answers are left to the full proof."""
HOURS = {"hour_machine", "supply_year", *BAND}

REAL = [
    ("machine.cost.capital", {"comparison", "money"}),
    ("community.mean_load", {"comparison", "hour_load", "supply_year", *BAND}),
    ("case.count", {"comparison", "river_share", *HOURS}),
    ("case.spacing", {"river_share"}),
    ("place.turbulence", {"turbulence", "sound"}),
    ("place.doubt.area", {"speed_causes", "energy_band", "river_share", "comparison", *BAND}),
    ("machine.stops.each", YIELD | HOURS | {"spares", "claims"}),
    (
        "machine.drive.rated_power",
        {
            "drive_chain",
            "states",
            "recovery",
            "spares",
            "claims",
            *HEARD,
            *STRONG,
            *HELD,
            *HOURS,
            *DRIVEN,
            *(YIELD - {"availability"}),
        },
    ),
    (
        "place.gaugings.zero_level",
        {
            "rating",
            "rating_band",
            "site",
            "speed_causes",
            "states",
            "map",
            "rotor_map",
            *HEARD,
            *STRONG,
            *HELD,
            "recovery",
            "spares",
            "claims",
            *HOURS,
            *DRIVEN,
            *YIELD,
        },
    ),
    ("neighbours.fish.length", {"fish", "fish_beside", "screen", "trade", "growth", "claims"}),
    ("growth.size.throat_diameter", {"growth", "claims", "programme"}),
    ("growth.exponent.value", {"growth", "claims"}),
    ("growth.programme.prize", {"programme"}),
    ("growth.claim.figure", {"claims"}),
    ("neighbours.sound.distances", {"sound"}),
    ("machine.strength.margin", {"natural_frequencies"}),
    ("machine.strength.shaft.diameter", {"stresses"}),
    ("machine.description", set()),
]


def test_real_nodes_recompute_as_declared(
    computed: LoadedScheme, frame_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Store(frame_cache, CLASSES)
    run_once(computed, store)
    ran = counted(monkeypatch, stubs=False)
    run_once(computed, store)
    assert ran == []
    mine = keys_of(computed).keys()
    for path, expected in REAL:
        if path.split(".")[0] not in computed.raw or (expected & mine & SLOW and count(1, 0)):
            continue
        run_once(computed, store)
        ran.clear()
        run_once(changed(computed, next(leaf for leaf in LEAVES if leaf.path == path)), store)
        assert set(ran) == expected & mine, path


def test_a_node_cannot_read_what_it_does_not_declare(example: LoadedScheme) -> None:
    name, case = next(iter(example.scheme.case.items()))
    given = plan(example, name, case).given
    for node in (NODES[applies] for applies in given):
        assert set(given[node.name].keys) == set(node.keys)
        assert set(given[node.name].files) <= set(node.files)
    for kind, path in (("keys", "machine.cost"), ("files", "place.record.file"), ("nodes", "site")):
        with pytest.raises(KeyError):
            getattr(given["flow"], kind)[path]


def test_an_undeclared_read_stops_the_run(example: LoadedScheme, monkeypatch: pytest.MonkeyPatch) -> None:
    def curious(given: Given, _tick: Any) -> Any:
        return given.keys["machine.cost"]

    monkeypatch.setattr(graph, "NODES", {**NODES, "water": dataclasses.replace(NODES["water"], compute=curious)})
    name, case = next(iter(example.scheme.case.items()))
    with pytest.raises(KeyError, match=r"machine\.cost"):
        evaluate(example, name, case, wanted=("water",))


def test_nodes_read_no_other_upstream_node(computed: LoadedScheme, frame_cache: Path) -> None:
    name, case = next(iter(computed.scheme.case.items()))
    values = evaluate(computed, name, case, store=Store(frame_cache, CLASSES))
    given = plan(computed, name, case).given
    for node in (NODES[applies] for applies in given):
        if node.name in SLOW and count(1, 0):
            continue
        only = dataclasses.replace(given[node.name], nodes={up: values[up] for up in node.nodes})
        assert (node.compute(only, silent) is None) == (values[node.name] is None)
