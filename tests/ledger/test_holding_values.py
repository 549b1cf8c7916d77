"""Values of the holding's nodes go through the cache unchanged, and every class in them is known to it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any, get_args, get_type_hints

import pytest

from racewright.ledger.classes import _EVERY, CLASSES
from racewright.ledger.codec import decode, encode
from racewright.ledger.holding_findings import (
    AnchorFound,
    DebrisHeld,
    Held,
    HeldLoad,
    HoldingHelp,
)
from racewright.ledger.struck_findings import StruckBy, StruckYear
from tests.dossier import holding_sample

VALUES = (AnchorFound, DebrisHeld, Held, HeldLoad, HoldingHelp, StruckBy, StruckYear)
KEY = "ab" + "0" * 62


def classes_in(hint: Any) -> Iterator[type]:
    """Every dataclass that a type is made of."""
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        yield hint
        for inner in get_type_hints(hint).values():
            yield from classes_in(inner)
    for argument in get_args(hint):
        yield from classes_in(argument)


@pytest.mark.parametrize("value", VALUES, ids=lambda v: v.__name__)
def test_every_class_of_a_value_is_kept(value: type) -> None:
    assert [kind for kind in classes_in(value) if CLASSES.get(kind.__name__) is not kind] == []


def test_no_two_classes_share_a_name() -> None:
    assert [kind for kind in _EVERY if CLASSES[kind.__name__] is not kind] == []


@pytest.mark.parametrize("make", [holding_sample.swept, lambda: holding_sample.two_phases(0.1)])
def test_values_come_back_the_same(make: Any) -> None:
    value = make()
    data = encode(value, KEY)
    assert encode(decode(data, KEY, CLASSES), KEY) == data
