"""Fail when an installed package has a licence that is not on the list: permissive; MPL for test tools; LGPL for an
extra that nobody needs; never GPL."""

from __future__ import annotations

import re
import sys
import tomllib
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[2]

PERMISSIVE = re.compile(
    r"\b(MIT|BSD|Apache|ISC|PSF|Python[- ]Software[- ]Foundation|Python-2\.0|HPND|Unlicense|0BSD|Zlib|CC0"
    r"|public domain|MIT-CMU|PSFL)\b",
    re.IGNORECASE,
)
EXTRA_ONLY = re.compile(r"\bLGPL|Lesser General Public", re.IGNORECASE)
TEST_ONLY = re.compile(r"\bMPL|Mozilla Public License", re.IGNORECASE)
NEVER = re.compile(r"\b(A?GPL|GNU (Affero )?General Public)", re.IGNORECASE)

KNOWN = {
    "gsw": "BSD-3-Clause (its metadata names a file only)",
    "matplotlib": "matplotlib licence, PSF-based",
    "docutils": "public domain and BSD (one editor mode, under another licence, is not in the wheel)",
}
"""Packages whose metadata do not say it; looked up by hand in the licence file that they carry."""

WITH_THE_KIT = frozenset({"bidict", "certifi"})
"""Unchanged MPL libraries that the desk's web kit needs; docs/decisions/licences_of_the_desk.md says why."""


def licence_of(package: metadata.Distribution) -> str:
    """All that a package's metadata say of its licence."""
    told = package.metadata
    classifiers = [c for c in told.get_all("Classifier") or [] if c.startswith("License ::")]
    return " | ".join([told.get("License-Expression") or "", (told.get("License") or "")[:200], *classifiers])


def faults(core: set[str], extra: frozenset[str] = frozenset()) -> list[str]:
    """Packages off the list, in words; `core` are those that everybody gets, `extra` those of optional extras."""
    found = []
    for package in metadata.distributions():
        name = re.sub(r"[-_.]+", "-", package.metadata["Name"]).lower()
        if name in ("pip", "setuptools", "racewright"):
            continue
        said = KNOWN.get(name) or licence_of(package)
        if NEVER.search(said) and not re.search(r"LGPL|Lesser", said):
            found.append(f"{name}: {said}")
        elif EXTRA_ONLY.search(said) and name in extra - core:
            continue
        elif not PERMISSIVE.search(said) and not (
            TEST_ONLY.search(said) and (name not in core or name in WITH_THE_KIT)
        ):
            found.append(f"{name}: not on the list: {said.strip(' |') or 'nothing said'}")
    return sorted(found)


if __name__ == "__main__":
    lock = (ROOT / "requirements.lock").read_text("utf-8")
    core = {re.sub(r"[-_.]+", "-", m).lower() for m in re.findall(r"^([A-Za-z0-9._-]+)==", lock, re.MULTILINE)}
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [text for extra in project.get("optional-dependencies", {}).values() for text in extra]
    said = faults(core, frozenset(re.sub(r"[-_.]+", "-", Requirement(text).name).lower() for text in wanted))
    print("\n".join(said) or "every installed package has a licence on the list")
    sys.exit(bool(said))
