"""Which libraries a command loads, in a fresh process."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.test_commands import loaded_by
from tests.frame.common import copy_example

HEAVY = {"numpy", "scipy", "numba", "matplotlib", "nicegui", "pandas"}


@pytest.mark.parametrize(
    "arguments",
    [
        ["--help"],
        ["--version"],
        ["check", "--help"],
        ["report", "--help"],
        ["check", "{scheme}"],
        ["check", "{scheme}", "--json"],
        ["check", "nowhere.toml"],
        ["new", "{folder}/new"],
        ["cache"],
        ["cache", "--json"],
        ["cache", "--clear"],
    ],
    ids=" ".join,
)
def test_light_commands_load_no_numerical_library(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str]
) -> None:
    monkeypatch.setenv("RACEWRIGHT_CACHE", str(tmp_path / "cache"))
    scheme = copy_example(tmp_path / "demo")
    asked = [a.format(scheme=scheme, folder=tmp_path) for a in arguments]
    assert not loaded_by(*asked) & HEAVY


@pytest.mark.parametrize("options", [[], ["--json"], ["--stream-speed", "2 m/s", "--rotor-speed", "85 rpm"]])
def test_point_loads_no_drawing_library(tmp_path: Path, options: list[str]) -> None:
    found = loaded_by("point", str(copy_example(tmp_path / "demo")), *options)
    assert "numpy" in found
    assert not found & {"matplotlib", "nicegui", "scipy.stats", "pandas", "typst", "jinja2"}
