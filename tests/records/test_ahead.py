"""Items made ahead: the same, in order, faults in their turn, the maker closed when the taker stops."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest

from racewright.records.ahead import ahead


def test_the_same_items_in_order_from_another_thread() -> None:
    makers = set()

    def make() -> Iterator[int]:
        for k in range(50):
            makers.add(threading.get_ident())
            yield k

    assert list(ahead(make())) == list(range(50))
    assert len(makers) == 1
    assert threading.get_ident() not in makers


def test_a_fault_comes_out_after_what_was_made_before_it() -> None:
    def make() -> Iterator[int]:
        yield from (1, 2, 3)
        raise ValueError("spoilt")

    items = ahead(make())
    assert [next(items) for _item in range(3)] == [1, 2, 3]
    with pytest.raises(ValueError, match="spoilt"):
        next(items)


def test_no_more_is_made_than_said_when_the_taker_stops() -> None:
    made = []

    def make() -> Iterator[int]:
        for k in range(100):
            made.append(k)
            yield k

    items = ahead(make(), 2)
    assert next(items) == 0
    items.close()  # type: ignore[attr-defined]
    assert len(made) <= 3
