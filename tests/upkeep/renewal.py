"""A machine and its parts, event by event: an independent simulation."""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from typing import Literal

import numpy as np


@dataclass(frozen=True, slots=True)
class Simulated:
    """A kind of part: mean time between failures, waits and mending [s]; spares; life [s] or None."""

    between: float
    wait: float
    mend: float
    held: int = 0
    count: int = 1
    life: float | None = None
    planned: float = 0.0
    spread: Literal["fixed", "exponential"] = "fixed"


def simulate(parts: list[Simulated], stops: int, seed: int) -> float:
    """Share of time running over so many stops.

    Each item has an age; the next failure is drawn from its exponential times, a replacement comes at its life. The
    machine stands while an item is out: it waits until the store has one, then it is mended. Orders arrive all the
    while.
    """
    chance = np.random.default_rng(seed)
    items = [(p, i) for p, part in enumerate(parts) for i in range(part.count)]
    fails = [chance.exponential(parts[p].between) for p, _ in items]
    ages = [0.0] * len(items)
    stock = [part.held for part in parts]
    orders: list[list[float]] = [[] for _ in parts]
    now = running = 0.0
    for _ in range(stops):
        due = [
            min(fails[k], math.inf if parts[p].life is None else parts[p].life - ages[k])
            for k, (p, _) in enumerate(items)
        ]
        k = int(np.argmin(due))
        step, (p, _) = due[k], items[k]
        part = parts[p]
        planned = step < fails[k]
        running += step
        now += step
        for other in range(len(items)):
            fails[other] -= step
            ages[other] += step
        if planned:
            now += part.planned
        else:
            heapq.heappush(orders[p], now + (part.wait if part.spread == "fixed" else chance.exponential(part.wait)))
            while orders[p] and orders[p][0] <= now:
                heapq.heappop(orders[p])
                stock[p] += 1
            if stock[p] == 0:
                now = heapq.heappop(orders[p])
                stock[p] = 1
            stock[p] -= 1
            now += part.mend if part.spread == "fixed" else chance.exponential(part.mend)
        fails[k], ages[k] = chance.exponential(part.between), 0.0
    return running / now
