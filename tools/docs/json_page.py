"""The page of printed JSON keys, from the tree of keys."""

from __future__ import annotations

from tools.docs.fault import Fault, table
from tools.docs.json_tree import Leaf, Node, leaves

HEAD = """# JSON keys

Generated from the types of the results and a run on the bundled example. Each command with `--json` prints one
object: the answer, a `units` object that gives the unit of every number by its path, and `provenance`, which takes
no part in comparisons. Values are SI; a key ends in its unit (`torque_N_m`), ratios and counts end in nothing.
JSON is strict: null where a part does not apply, never NaN.

`[]` stands for each item of a list, `CUR` for the scheme's currency label (`EUR`, `CAD`, ...), `NAME` for a name of
your own. JSON Schemas for programs: """


def page(
    trees: dict[str, Node], provenance: dict[str, tuple[str, ...]], said: dict[str, str]
) -> tuple[str, list[Fault]]:
    """The page and the keys without meaning; `said` gives the meaning of provenance keys."""
    links = ", ".join(f"[{command}.schema.json]({command}.schema.json)" for command in trees)
    parts, faults = [f"{HEAD}{links}.\n"], []
    for command, node in trees.items():
        found = leaves(node)
        faults += [
            Fault(f"JSON key {leaf.path} of '{command}'", "has no meaning") for leaf in found if not leaf.meaning
        ]
        rows = [(f"`{leaf.path}`", _type(leaf.node), _unit(leaf), leaf.meaning) for leaf in found]
        rows += [(f"`provenance.{key}`", "text", "", said.get(key, "")) for key in provenance[command]]
        faults += [
            Fault(f"JSON key provenance.{key} of '{command}'", "has no meaning")
            for key in provenance[command]
            if not said.get(key)
        ]
        parts.append(f"## `racewright {command} --json`\n\n{table(('key', 'type', 'unit', 'meaning'), rows)}")
    return "\n".join(parts), faults


def _type(node: Node) -> str:
    words = {
        "object": "object",
        "map": "object by name",
        "array": "list of objects",
        "number": "number",
        "integer": "whole number",
        "boolean": "true or false",
        "string": "text",
    }
    found = ", ".join(f'"{word}"' for word in node.words) or words[node.kind]
    return f"{found} or null" if node.nullable else found


def _unit(leaf: Leaf) -> str:
    return leaf.node.unit
