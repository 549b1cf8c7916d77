"""Write the generated pages of the docs, or with --check say what is undocumented, stale or dead.

`python tools/docs/build.py` writes; `--check` changes nothing and ends with 1 when anything is wrong;
`--measure` runs the outside checks first and keeps the differences that they record.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

import racewright.threads  # noqa: E402, F401  (first: pins threads before NumPy loads)
from racewright.cli.app import app  # noqa: E402
from racewright.scheme.json_schema import scheme_schema  # noqa: E402
from racewright.scheme.model import Scheme  # noqa: E402
from tools.docs import checked, commands, glossary, json_page, links, scheme_page  # noqa: E402
from tools.docs.example import printed  # noqa: E402
from tools.docs.fault import Fault  # noqa: E402
from tools.docs.json_meanings import MEANINGS  # noqa: E402
from tools.docs.json_schema import command_schema  # noqa: E402

DOCS = ROOT / "docs"
KEPT = DOCS / "checked.json"


def generated(measured: dict[str, str]) -> tuple[dict[Path, str], list[Fault]]:
    """Text of every generated file, and what is undocumented."""
    reference = DOCS / "reference"
    command_page, faults = commands.page(app, "racewright")
    keys_page, found = scheme_page.page(Scheme)
    faults += found
    runs = printed()
    provenance = {name: tuple(run.answer["provenance"]) for name, run in runs.items()}
    trees = {name: run.tree for name, run in runs.items()}
    printed_page, found = json_page.page(trees, provenance, MEANINGS["provenance"])
    faults += found
    checks = checked.collect("tests.external", ROOT / "tests" / "external")
    faults += checked.faults(checks, measured)
    readme = ROOT / "README.md"
    files = {
        reference / "commands.md": command_page,
        reference / "scheme.md": keys_page,
        reference / "scheme.schema.json": _json(scheme_schema(Scheme)),
        reference / "json.md": printed_page,
        **{
            reference / f"{name}.schema.json": _json(command_schema(name, tree, provenance[name]))
            for name, tree in trees.items()
        },
        DOCS / "checked.md": checked.page(checks, measured),
        KEPT: _json(measured),
        readme: checked.placed(readme.read_text("utf-8"), checked.readme_part(checks, measured)),
    }
    faults += glossary.stale((DOCS / "glossary.md").read_text("utf-8"), ROOT / "src")
    faults += links.dead([readme, *DOCS.rglob("*.md")], ROOT, files)
    return files, faults


def differing(files: dict[Path, str], root: Path = ROOT) -> list[Fault]:
    """Generated files that are not what they would be."""
    say = "run 'python tools/docs/build.py'"
    return [
        Fault(str(file.relative_to(root)), f"stale; {say}")
        for file, text in files.items()
        if not file.exists() or file.read_text("utf-8") != text
    ]


def _json(value: Any) -> str:
    return json.dumps(value, indent=1, ensure_ascii=False) + "\n"


def main(arguments: list[str] | None = None) -> int:
    """Write or check; 1 when there is a fault."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="write nothing, say what is wrong")
    parser.add_argument("--measure", action="store_true", help="run the outside checks and keep their differences")
    chosen = parser.parse_args(arguments)
    files, faults = generated(checked.measure(ROOT) if chosen.measure else checked.kept(KEPT))
    if chosen.check:
        faults += differing(files)
    else:
        for file, text in files.items():
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8")
    for fault in faults:
        print(fault, file=sys.stderr)
    said = f"{len(files)} generated files, {len(faults)} faults" if chosen.check else f"{len(files)} files written"
    print(said, file=sys.stderr)
    return int(bool(faults))


if __name__ == "__main__":
    sys.exit(main())
