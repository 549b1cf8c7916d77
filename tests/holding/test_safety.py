"""What touches safety carries caution, basis and edition; slow tension is never called an impact."""

from __future__ import annotations

import dataclasses
import importlib
import pkgutil
import re
from pathlib import Path

import racewright.holding
from racewright.holding import equilibrium, line, segment, statics, worst_lines
from racewright.holding.statics_table import StaticsTable
from tests.holding.bodies import STREAM, spread, states

TOUCHY = {
    "tension",
    "utilisation",
    "strength",
    "uplift",
    "bed_clearance",
    "cover",
    "radius",
    "stable",
    "stored_energy",
}
INPUTS = {"Wishes", "Utilisation", "Short", "Elements", "_Path", "Found"}
"""A Utilisation stands in a WorstLine; Short and Elements are steps on the way."""
BASES = {StaticsTable}
MINE = ("line", "statics", "stability", "layout", "body", "floating", "safety", "tether", "stream", "load_state")


def results() -> list[type]:
    found = []
    for info in pkgutil.iter_modules(racewright.holding.__path__):
        if info.name.startswith(MINE):
            module = importlib.import_module(f"racewright.holding.{info.name}")
            found += [v for v in vars(module).values() if isinstance(v, type) and dataclasses.is_dataclass(v)]
    return sorted(set(found), key=lambda c: c.__name__)


def test_every_result_that_touches_safety_carries_its_caution() -> None:
    checked = []
    for kind in results():
        names = {f.name for f in dataclasses.fields(kind)}
        if kind in BASES:  # never made itself
            for made in kind.__subclasses__():
                assert "safety" in {f.name for f in dataclasses.fields(made)}, made.__name__
        elif names & TOUCHY and kind.__name__ not in INPUTS:
            assert "safety" in names, kind.__name__
            checked.append(kind.__name__)
    assert {"LineLoad", "LineShape", "Equilibrium", "Statics", "WorstLine", "LowWater", "WatchCircle"} <= set(checked)


def test_the_caution_is_filled() -> None:
    found = equilibrium(spread(), STREAM, states()[0])
    shape = line((segment("HMPE", 10.0, 0.016),), (0.0, 0.0, 1.0), (9.9, 0.0, 2.0))
    worst = worst_lines(statics(spread(), STREAM, states()[:1], [1.0]), (), ())
    assert found.stability is not None
    safeties = [
        found.safety,
        shape.safety,
        found.stability.safety,
        *(x.safety for x in found.lines),
        *(w.safety for w in worst),
    ]
    for safety in safeties:
        assert safety.caution
        assert safety.basis
        assert safety.edition
    assert found.lines[0].safety.edition == "BS 4928 (1985)"
    assert "Slow tension" in found.lines[0].safety.caution


def test_slow_tension_is_never_called_an_impact() -> None:
    folder = Path(racewright.holding.__file__).parent
    for path in folder.glob("*.py"):
        if path.name.startswith(MINE):
            assert not re.search(r"impact|blow_force|strike_force", path.read_text("utf-8")), path.name
