"""How cost falls with what was built before, and how it grows with size."""

from __future__ import annotations

import math

import numpy as np

from racewright.errors import InputError
from racewright.supply.door import not_negative, positive

LEARNING = (0.05, 0.11, 0.15)
"""Low, middle and high share of cost saved by each doubling in marine energy (from memory, medium confidence) [-]."""

SIZE = (0.6, 0.7, 0.8)
"""Low, middle and high exponent of cost over size: the six-tenths rule of process plant and its range by item (common
practice) [-]."""


def learning_exponent(learning_rate: float) -> float:
    """b = -log2(1 - learning rate), in cost ~ (number built)^-b [-].

    Parameters
    ----------
    learning_rate : float
        Share of cost saved by each doubling of all units built, 0 to below 1 [-].

    References
    ----------
    Wright (1936), J. Aeronautical Sciences 3, 122-128.

    Examples
    --------
    >>> round(learning_exponent(0.15), 7)
    0.2344653
    """
    if not 0.0 <= learning_rate < 1.0:
        raise InputError(f"the learning rate is {learning_rate!r}; wanted 0 to below 1, e.g. 0.11")
    return -math.log2(1.0 - learning_rate) if learning_rate else 0.0


def learned_cost(cost: float, built: float, built_then: float, learning_rate: float) -> float:
    """Cost of a unit when `built` units stand, from its cost when `built_then` stood [currency].

    C = C0 (X / X0)^-b; both counts above 0, in any one measure of what was built.
    """
    ratio = positive("units built", built, "", 10.0) / positive("units built then", built_then, "", 1.0)
    return not_negative("cost", cost, "currency", 5e4) * float(ratio ** -learning_exponent(learning_rate))


def sized_cost(cost: float, size: float, size_then: float, size_exponent: float) -> float:
    """Cost of another size, C = C0 (size / size then)^exponent [currency].

    Parameters
    ----------
    cost : float
        >= 0 [currency].
    size, size_then : float
        In any one measure such as rated power, > 0.
    size_exponent : float
        0 to 2; 0.6 to 0.8 by item [-].
    """
    if not 0.0 <= size_exponent <= 2.0:
        raise InputError(f"the size exponent is {size_exponent!r}; wanted 0 to 2, e.g. 0.7")
    ratio = positive("size", size, "", 1e6) / positive("size then", size_then, "", 5e3)
    return not_negative("cost", cost, "currency", 5e4) * float(ratio**size_exponent)


def batch_cost(first_cost: float, built_before: int, units: int, learning_rate: float) -> float:
    """Cost of units number `built_before` + 1 to `built_before` + `units` together [currency].

    Parameters
    ----------
    first_cost : float
        Of unit number 1, >= 0 [currency].
    built_before, units : int
        0 or more; 1 to 1 000 000.
    """
    for name, number, least in (("units built before", built_before, 0), ("units", units, 1)):
        if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= 1_000_000:
            raise InputError(f"{name}: {number!r}; wanted a whole number from {least} to 1000000")
    number_of = np.arange(built_before + 1, built_before + units + 1, dtype=np.float64)
    return not_negative("cost of the first unit", first_cost, "currency", 5e4) * float(
        np.sum(number_of ** -learning_exponent(learning_rate))
    )


def doublings_to(cost_ratio: float, learning_rate: float) -> float:
    """Doublings of all units built until cost falls to `cost_ratio` of today's, above 0 to 1 [-]."""
    if not 0.0 < cost_ratio <= 1.0:
        raise InputError(f"the cost ratio is {cost_ratio!r}; wanted above 0 to 1, e.g. 0.25")
    exponent = learning_exponent(learning_rate)
    if exponent == 0.0:
        if cost_ratio == 1.0:
            return 0.0
        raise InputError("without learning cost does not fall; wanted a learning rate above 0")
    return -math.log2(cost_ratio) / exponent


def implied_learning(cost_then: float, cost_now: float, built_then: float, built_now: float) -> float:
    """Learning rate behind two costs at two counts of what was built; below 0 where cost grew [-]."""
    doublings = math.log2(positive("built now", built_now, "", 10.0) / positive("built then", built_then, "", 1.0))
    if doublings == 0.0:
        raise InputError("the same number was built both times: no learning rate follows")
    ratio = positive("cost now", cost_now, "currency", 8.0) / positive("cost then", cost_then, "currency", 10.0)
    return float(1.0 - ratio ** (1.0 / doublings))
