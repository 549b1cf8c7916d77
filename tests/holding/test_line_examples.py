"""The examples in the docstrings of lines and statics."""

from __future__ import annotations

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["racewright.holding.line", "racewright.holding.statics"])
def test_examples(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0
    assert result.failed == 0
