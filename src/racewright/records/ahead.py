"""Work on one item while the next ones are being made."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, TypeVar

T = TypeVar("T")
_END: Any = object()


def ahead(items: Iterator[T], count: int = 2) -> Iterator[T]:
    """The same items in the same order, up to `count` of them made beforehand by one other thread.

    A fault of the maker comes out in its turn. What is given up early waits for the item in the making.
    """
    with ThreadPoolExecutor(1) as hand:
        waiting: deque[Future[T]] = deque(hand.submit(next, items, _END) for _item in range(count))
        while (item := waiting.popleft().result()) is not _END:
            waiting.append(hand.submit(next, items, _END))
            yield item
