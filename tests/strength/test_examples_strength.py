"""The examples in the docstrings give what they say."""

from __future__ import annotations

import doctest
import importlib

import pytest


@pytest.mark.parametrize(
    "name",
    [
        "racewright.strength.beam_modes",
        "racewright.strength.line_energy",
        "racewright.strength.shaft",
        "racewright.required_strength",
    ],
)
def test_docstring_examples(name):
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0
    assert result.failed == 0
