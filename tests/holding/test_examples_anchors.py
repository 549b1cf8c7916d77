"""The examples in the docstrings give what they say."""

from __future__ import annotations

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["racewright.holding.anchor_drag", "racewright.holding.anchor_screw"])
def test_docstring_examples(name):
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0
    assert result.failed == 0
