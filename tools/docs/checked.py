"""The table 'checked against what, with which difference', from the marks of the outside checks."""

from __future__ import annotations

import importlib
import inspect
import json
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tools.docs.fault import Fault, table

STATUSES = ("published", "closed form", "computed", "common practice", "from memory")
LONGEST = 60
"""Rows that the README takes; a longer table stands on its own page and the README sums up."""


@dataclass(frozen=True)
class Check:
    """One test function of tests/external; `more` is its docstring, `measures`: it records its difference."""

    file: str
    name: str
    more: str
    source: str
    status: str
    tolerance: str
    measures: bool

    @property
    def id(self) -> str:
        return f"{self.file}::{self.name}"

    @property
    def what(self) -> str:
        """What is checked: the test's name in words."""
        return self.name.removeprefix("test_").replace("_", " ").capitalize()


def collect(package: str, folder: Path) -> list[Check]:
    """Every marked test function of a package, by file and then in the order of the file."""
    found = []
    for file in sorted(folder.glob("test_*.py")):
        module = importlib.import_module(f"{package}.{file.stem}")
        for name, function in vars(module).items():
            if name.startswith("test_") and inspect.isfunction(function) and function.__module__ == module.__name__:
                found += [check_of(file.stem, name, function, mark) for mark in _outside(function)]
    return found


def _outside(function: Any) -> list[Any]:
    return [mark for mark in getattr(function, "pytestmark", []) if mark.name == "outside"]


def check_of(file: str, name: str, function: Any, mark: Any) -> Check:
    """One check from its function and mark."""
    measures = "record_property" in inspect.signature(function).parameters
    values = mark.kwargs
    more = " ".join((function.__doc__ or "").split())
    return Check(file, name, more, values["source"], values["status"], str(values["tolerance"]), measures)


def measure(root: Path) -> dict[str, str]:
    """Run the outside checks and return what each recorded, by test function.

    Raises
    ------
    RuntimeError
        When a check fails; no table is made of a failing suite.
    """
    with tempfile.TemporaryDirectory(prefix="racewright-docs-") as folder:
        out = Path(folder) / "checks.xml"
        command = [sys.executable, "-m", "pytest", "tests/external", f"--junitxml={out}", "-o", "junit_family=xunit1"]
        done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise RuntimeError(f"the outside checks do not pass:\n{done.stdout[-3000:]}")
        return recorded(out.read_text("utf-8"))


def recorded(report: str) -> dict[str, str]:
    """What each test recorded as 'measured'; the texts of a parametrised test one after the other."""
    texts: dict[str, list[str]] = {}
    for case in ElementTree.fromstring(report).iter("testcase"):
        file = case.attrib["classname"].split(".")[-1]
        name = case.attrib["name"].split("[")[0]
        for item in case.iter("property"):
            if item.attrib["name"] == "measured":
                found = texts.setdefault(f"{file}::{name}", [])
                if item.attrib["value"] not in found:
                    found.append(item.attrib["value"])
    return {key: "; ".join(found) for key, found in sorted(texts.items())}


def faults(checks: list[Check], measured: dict[str, str]) -> list[Fault]:
    """Differences that are recorded by a test but not kept, or kept for a test that does not record."""
    wanted = {check.id for check in checks if check.measures}
    say = "run 'python tools/docs/build.py --measure'"
    found = [
        Fault(name, f"records its difference, but docs/checked.json has none; {say}")
        for name in wanted - set(measured)
    ]
    return sorted(
        found
        + [
            Fault(name, f"has a difference in docs/checked.json but no test records it; {say}")
            for name in set(measured) - wanted
        ],
        key=str,
    )


def full_table(checks: list[Check], measured: dict[str, str], *, more: bool) -> str:
    """One row for each check; `more` adds the test's own words to its name."""
    what = {c.id: f"{c.what}: {c.more}" if more and c.more else c.what for c in checks}
    rows = [(what[c.id], c.source, c.status, c.tolerance, measured.get(c.id, "within tolerance")) for c in checks]
    return table(("what", "checked against", "status", "tolerance", "measured"), rows)


def page(checks: list[Check], measured: dict[str, str]) -> str:
    """The page with every check, by test file."""
    parts = [
        "# Checked against what, with which difference\n\n"
        "Generated from the marks of the tests in `tests/external/`; each runs in `make test`. *Published*: a figure"
        " in print. *Closed form*: an exact result. *Computed*: a separate computation. *From memory*: the source is"
        " known, its text was not at hand. *Within tolerance*: the test passes and records no figure.\n"
    ]
    for file in dict.fromkeys(check.file for check in checks):
        parts.append(f"## {title(file)}\n\n{full_table([c for c in checks if c.file == file], measured, more=True)}")
    return "\n".join(parts)


def title(file: str) -> str:
    """'test_place_profile' as 'Place profile'."""
    return file.removeprefix("test_").replace("_", " ").capitalize()


def readme_part(checks: list[Check], measured: dict[str, str]) -> str:
    """What stands between the README's two comments."""
    if len(checks) <= LONGEST:
        return full_table(checks, measured, more=False)
    rooms: dict[str, list[Check]] = {}
    for check in checks:
        rooms.setdefault(title(check.file).split(" ")[0], []).append(check)
    rows = []
    for room, here in rooms.items():
        counts = [str(sum(c.status == status for c in here) or "") for status in STATUSES]
        link = f"[{room}](docs/checked.md#{title(here[0].file).lower().replace(' ', '-')})"
        rows.append((link, str(len(here)), *counts, _instance(here, measured)))
    where = "[docs/checked.md](docs/checked.md)"
    said = f"{len(checks)} checks against the outside; source, tolerance and difference of each: {where}.\n\n"
    return said + table(("part", "checks", *STATUSES, "for instance"), rows)


def _instance(checks: list[Check], measured: dict[str, str]) -> str:
    """The check of a room that takes the fewest words, one in print if there is one."""
    told = [c for c in checks if c.id in measured]
    if not told:
        return ""
    one = min(told, key=lambda c: (c.status != "published", len(c.source) + len(measured[c.id])))
    return f"{one.what} ({one.source}): {measured[one.id]}"


def placed(readme: str, part: str) -> str:
    """The README with a part between its two comments.

    Raises
    ------
    ValueError
        When the comments are not there.
    """
    begin, end = "<!-- checked:begin -->", "<!-- checked:end -->"
    head, found, rest = readme.partition(begin)
    _old, also, tail = rest.partition(end)
    if not (found and also):
        raise ValueError(f"README.md needs the lines {begin} and {end}")
    return f"{head}{begin}\n{part}{end}{tail}"


def kept(file: Path) -> dict[str, str]:
    """The differences of the last measuring."""
    found: dict[str, str] = json.loads(file.read_text("utf-8")) if file.exists() else {}
    return found
