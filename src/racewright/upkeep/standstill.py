"""How long a machine stands for one kind of part, for each second that it runs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.upkeep.parts import Part


@dataclass(frozen=True, slots=True)
class Standstill:
    """Per running time of the machine.

    Attributes
    ----------
    failures, planned : float
        Failures, and replacements before failure [1/s].
    waiting, mending, planned_still : float
        Time standing, waiting for the part, working on it, for planned replacement [-].
    """

    failures: float
    planned: float
    waiting: float
    mending: float
    planned_still: float

    @property
    def whole(self) -> float:
        """All of it [-]."""
        return self.waiting + self.mending + self.planned_still


def erlang_loss(servers: int, offered: float) -> float:
    """Erlang's loss formula: a^c/c! over the sum of a^k/k!, k to c [-].

    The chance that all `servers` are busy when `offered` = rate x mean time are asked of them; it holds for any
    spread of those times (Sevast'yanov 1957).

    Examples
    --------
    >>> round(erlang_loss(2, 1.0), 3)
    0.2
    """
    blocked = 1.0
    for c in range(1, servers + 1):
        blocked = offered * blocked / (c + offered * blocked)
    return blocked


def standstill(part: Part, failure_rate: float, mend_time: float, wait: float) -> Standstill:
    """Standstill for a kind of part at given numbers.

    Each used spare is ordered again at once. With s spares the machine waits when s + 1 are on order: while it waits
    it does not fail, so that orders are the busy servers of Erlang's loss system with s + 1 servers, and the share of
    time waiting is its loss. Without spares this is rate x wait for each running second. Time that other standstills
    give the orders to arrive is not counted: waits come out a little long.

    A part with a life fails at `failure_rate` and is replaced at that life; a failure puts in a new one. So the
    replacements are rate exp(-rate x life) / (1 - exp(-rate x life)), tending to 1 / life without failures.

    Parameters
    ----------
    part : Part
        Its counts, life and planned standstill.
    failure_rate : float
        Of one [1/s].
    mend_time, wait : float
        [s]
    """
    failures = part.count * failure_rate
    loss = erlang_loss(part.held + 1, failures * wait)
    planned = 0.0
    if part.life is not None:
        aged = failure_rate * part.life
        planned = part.count / part.life * (aged / math.expm1(aged) if 0.0 < aged < 700.0 else float(aged == 0.0))
    return Standstill(
        failures=failures,
        planned=planned,
        waiting=loss / (1.0 - loss),
        mending=failures * mend_time,
        planned_still=planned * part.planned_time,
    )
