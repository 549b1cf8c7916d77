"""What the commands print for the bundled example, and the trees of their keys."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import tempfile
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path
from typing import Any

from racewright.cli.export import Exported
from racewright.cli.growth_case import SizeFigures
from racewright.cli.holding_printed import StrikesPrinted, TethersPrinted
from racewright.cli.main import run
from racewright.cli.size import Sized
from racewright.cli.summary import summary
from racewright.cli.trials_kept import KeptReading
from racewright.cli.trials_words import ImportedRun
from racewright.growth.claims import CheckedClaim
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.growth_findings import ProgrammeFound
from racewright.ledger.neighbours_findings import NeighboursFindings, SoundAt
from racewright.ledger.store import Store, cache_folder
from racewright.ledger.strength_findings import StrengthFindings
from racewright.ledger.trials_findings import TrialsFindings
from racewright.remark import Remark
from racewright.scheme import load_scheme
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.proposal import Proposal
from racewright.stage.result import OperatingPoint
from racewright.water import Water
from tools.docs.json_tree import Node, Walker

ENERGY_KEYS = ("case", "count", "energy", "energy_parts", "remarks")
"""What `energy` prints: keys that `report` prints too, none of them null."""
SUPPLY_KEYS = ("case", "count", "supply", "upkeep", "remarks")
"""What `supply` prints."""


@dataclass(frozen=True)
class Printed:
    """One command on the example: what it printed, and the tree of its keys."""

    answer: dict[str, Any]
    tree: Node


def printed() -> dict[str, Printed]:
    """`point`, `report` and `check` on a copy of the bundled example, `cache` and `new`.

    RACEWRIGHT_CACHE is kept when it is set; else a cache of its own is used, and the user's is left alone.
    """
    folder = Path(tempfile.mkdtemp(prefix="racewright-docs-"))
    cache = os.environ.get("RACEWRIGHT_CACHE")
    os.environ.setdefault("RACEWRIGHT_CACHE", str(folder / "cache"))
    try:
        source = Path(str(resources.files("racewright") / "examples" / "river_unit"))
        shutil.copytree(source, folder / "demo")
        scheme = folder / "demo" / "scheme.toml"
        answers = {
            command: capture(command, str(scheme), "--json")
            for command in ("point", "energy", "supply", "report", "check")
        }
        for command in ("map", "passage", "sound", "strength", "tethers", "strike", "grow", "programme"):
            answers[command] = capture(command, str(scheme), "--json")
        answers["size"] = capture("size", str(scheme), "--power", "5 kW", "--stream-speed", "2.8 m/s", "--json")
        answers["export"] = capture("export", str(scheme), "--to", str(folder / "parts"), "--json")
        answers["cache"] = capture("cache", "--json")
        answers |= _trials(folder)
        answers["new"] = capture("new", str(folder / "new"), "--json")
        result = summary(compute(load_scheme(scheme), store=Store(cache_folder(), CLASSES)))
        supplied = {**result, "remarks": answers["supply"]["remarks"]}
        walker = Walker()
        trees = {
            "point": Node(
                "object",
                children=(
                    ("point", walker.of(OperatingPoint), walker.meanings["point"]["point"]),
                    ("water", walker.of(Water), walker.meanings["point"]["water"]),
                ),
            ),
            "map": Node("object", children=(("map", walker.of(PerformanceMap), walker.meanings["map"]["map"]),)),
            **_neighbours_trees(walker),
            **_holding_trees(walker),
            "strength": Node(
                "object",
                children=(
                    ("case", walker.of(str), walker.meanings["strength"]["case"]),
                    ("strength", walker.of(StrengthFindings), walker.meanings["strength"]["strength"]),
                ),
            ),
            **_growth_trees(walker),
            "size": Node(
                "object",
                children=(
                    (
                        "proposals",
                        Node("array", children=(("", walker.of(Proposal), ""),)),
                        walker.meanings["size"]["proposals"],
                    ),
                    ("solved", walker.of(Sized), walker.meanings["size"]["solved"]),
                ),
            ),
            "export": Node(
                "object",
                children=(
                    ("export", walker.of(Exported), walker.meanings["export"]["export"]),
                    (
                        "remarks",
                        Node("array", children=(("", walker.of(Remark), ""),)),
                        walker.meanings["export"]["remarks"],
                    ),
                ),
            ),
            "supply": walker.of(Findings, {k: supplied[k] for k in SUPPLY_KEYS}, owner="supply"),
            "energy": walker.of(Findings, {k: result[k] for k in ENERGY_KEYS}, owner="energy"),
            "report": walker.of(Findings, result, owner="report"),
            **_trials_trees(walker),
            **{
                name: Walker(printed=answers[name]["units"]).of(dict, _answer(answers[name]), owner=name)
                for name in ("check", "cache", "new")
            },
        }
        trees["check"] = _with_remarks(trees["check"], walker)
        return {command: Printed(answers[command], tree) for command, tree in trees.items()}
    finally:
        if cache is None:
            del os.environ["RACEWRIGHT_CACHE"]
        shutil.rmtree(folder)


def _holding_trees(walker: Walker) -> dict[str, Node]:
    """Trees of what the holding's commands print."""
    text = walker.of(str)
    kinds = (("tethers", "tethers", TethersPrinted), ("strike", "strikes", StrikesPrinted))
    return {
        command: Node(
            "object",
            children=(
                ("case", text, walker.meanings[command]["case"]),
                (key, walker.of(kind), walker.meanings[command][key]),
            ),
        )
        for command, key, kind in kinds
    }


def _trials(folder: Path) -> dict[str, dict[str, Any]]:
    """The trials' commands on a copy of the model example."""
    capture("new", str(folder / "bench"), "--example", "model_test", "--json")
    scheme = str(folder / "bench" / "scheme.toml")
    found = {f"trials_{verb}": capture("trials", verb, scheme, "--json") for verb in ("import", "reduce", "compare")}
    found["trials_export"] = capture("trials", "export", scheme, "--out", str(folder / "archive"), "--json")
    return found


def _neighbours_trees(walker: Walker) -> dict[str, Node]:
    """Trees of what the commands about fish, debris and sound print."""
    text = walker.of(str)
    trees = {
        "passage": (("case", text), ("neighbours", walker.of(NeighboursFindings))),
        "sound": (("case", text), ("sound", Node("array", children=(("", walker.of(SoundAt), ""),)))),
    }
    return {
        name: Node("object", children=tuple((key, node, walker.meanings[name][key]) for key, node in children))
        for name, children in trees.items()
    }


def _growth_trees(walker: Walker) -> dict[str, Node]:
    """Trees of what the commands about growth print."""
    text = walker.of(str)

    def array(kind: Any) -> Node:
        return Node("array", children=(("", walker.of(kind), ""),))

    trees = {
        "grow": (
            ("case", text),
            ("sizes", array(SizeFigures)),
            ("claims", array(CheckedClaim)),
            ("remarks", array(Remark)),
        ),
        "programme": (("case", text), ("programme", walker.of(ProgrammeFound))),
    }
    return {
        name: Node("object", children=tuple((key, node, walker.meanings[name][key]) for key, node in children))
        for name, children in trees.items()
    }


def _trials_trees(walker: Walker) -> dict[str, Node]:
    """Trees of what the trials' commands print."""
    text, texts = walker.of(str), walker.of(tuple[str, ...])

    def array(kind: Any) -> Node:
        return Node("array", children=(("", walker.of(kind), ""),))

    trees = {
        "trials_import": (("campaign", text), ("runs", array(ImportedRun))),
        "trials_reduce": (
            ("readings", array(KeptReading)),
            ("reduced", texts),
            ("kept", texts),
            ("remarks", array(Remark)),
        ),
        "trials_compare": (("trials", walker.of(TrialsFindings)),),
        "trials_export": (("folder", text), ("files", texts)),
    }
    return {
        name: Node("object", children=tuple((key, node, walker.meanings[name][key]) for key, node in children))
        for name, children in trees.items()
    }


def capture(*arguments: str) -> dict[str, Any]:
    """The JSON that a command prints; its text is dropped.

    Raises
    ------
    RuntimeError
        When the command does not end with 0; its message is passed on.
    """
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = run(list(arguments))
    if code != 0:
        raise RuntimeError(f"racewright {' '.join(arguments)} ended with {code}: {err.getvalue()}")
    found: dict[str, Any] = json.loads(out.getvalue())
    return found


def _with_remarks(tree: Node, walker: Walker) -> Node:
    """The example is sound, so that its empty list does not tell what a remark is."""
    remarks = Node("array", children=(("", walker.of(Remark), ""),))
    children = [(k, remarks if k == "remarks" else node, meaning) for k, node, meaning in tree.children]
    return replace(tree, children=tuple(children))


def _answer(whole: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in whole.items() if key not in ("units", "provenance")}
