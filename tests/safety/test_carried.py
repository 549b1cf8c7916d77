"""Every safety number of holding and strength carries caution, basis, edition and status, in Python and in JSON."""

from __future__ import annotations

import dataclasses
import importlib
import json
import math
import pkgutil
from types import ModuleType
from typing import Any

import numpy as np
import pytest

import racewright.holding
import racewright.strength
from racewright.safety import SafetyBasis
from tests.safety.holding_samples import holding_results, strength_results
from tests.safety.walk import bare_numbers, kinds_in

SAMPLES = {**holding_results(), **strength_results()}


def plain(value: Any) -> Any:
    """What a JSON writer makes of a result: names stay, arrays become lists, what is not finite becomes null."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value


def carriers(package: ModuleType) -> set[str]:
    """Results of a package that have a `safety` of their own."""
    found = set()
    for info in pkgutil.iter_modules(package.__path__):
        for kind in vars(importlib.import_module(f"{package.__name__}.{info.name}")).values():
            if (
                isinstance(kind, type)
                and dataclasses.is_dataclass(kind)
                and kind.__module__.startswith(package.__name__)
            ):
                found |= {kind.__name__} if "safety" in {f.name for f in dataclasses.fields(kind)} else set()
    return found


@pytest.mark.parametrize("name", SAMPLES)
def test_no_number_stands_bare(name: str) -> None:
    assert list(bare_numbers(SAMPLES[name], name)) == []


@pytest.mark.parametrize("name", SAMPLES)
def test_nor_in_json(name: str) -> None:
    written = json.loads(json.dumps(plain(SAMPLES[name]), allow_nan=False))
    assert list(bare_numbers(written, name)) == []


@pytest.mark.parametrize("package", [racewright.holding, racewright.strength], ids=lambda p: p.__name__)
def test_the_samples_hold_every_result(package: ModuleType) -> None:
    met = {kind.__name__ for sample in SAMPLES.values() for kind in kinds_in(sample)}
    assert carriers(package) - met == set()


@dataclasses.dataclass(frozen=True)
class Pulled:
    tension: float
    safety: SafetyBasis | None = None


def test_the_walk_finds_what_is_bare() -> None:
    told = SafetyBasis("closed form", "2026", "closed form", "Keep out of its reach.")
    assert list(bare_numbers(Pulled(1.0))) == ["Pulled.tension"]
    assert list(bare_numbers(Pulled(1.0, dataclasses.replace(told, edition=" ")))) == ["Pulled.tension"]
    assert list(bare_numbers(Pulled(1.0, told))) == []
    assert list(bare_numbers({"line": {"slow_tension": [1.0]}}, "x")) == ["x.line.slow_tension"]
    assert list(bare_numbers({"safety": dataclasses.asdict(told), "lines": [{"tension": 1.0}]})) == []
    assert list(bare_numbers({"safety": {"basis": "x"}, "tension": 1.0})) == [".tension"]


def test_one_way_to_carry() -> None:
    """No result of either room has a caution, basis or edition beside `safety`; tables of inputs may."""
    inputs = {"StrengthFactor", "DragCoefficients", "ContactStiffness", "DragCoefficient"}
    for sample in SAMPLES.values():
        for kind in set(kinds_in(sample)):
            names = {f.name for f in dataclasses.fields(kind)}
            if "safety" not in names and kind is not SafetyBasis and kind.__name__ not in inputs:
                assert "caution" not in names, kind.__name__
