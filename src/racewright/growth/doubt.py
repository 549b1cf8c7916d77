"""A plan with uncertain numbers: its spread, what to measure first, and one number moved at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.growth.cash import Cash, cash
from racewright.growth.first_to_measure import VarianceShare, variance_shares
from racewright.growth.plan import SupplyPlan
from racewright.supply.chance import Chance, draw
from racewright.supply.quantiles import Quantiles, quantiles
from racewright.uncertainty.correlation import Correlation

Floats = NDArray[np.float64]
Of = Literal["levelised cost", "net present value"]


@dataclass(frozen=True, slots=True)
class PlanDoubt:
    """A plan over many draws.

    Attributes
    ----------
    levelised : Quantiles
        [currency/J]
    net_present_value : Quantiles
        [currency]
    chance_of_gain : float
        Share of draws with a net present value above 0 [-].
    measure_for_cost, measure_for_value : tuple of VarianceShare
        Which number to measure first for the one and the other, largest share first.
    draws, seed : int
    """

    levelised: Quantiles
    net_present_value: Quantiles
    chance_of_gain: float
    measure_for_cost: tuple[VarianceShare, ...]
    measure_for_value: tuple[VarianceShare, ...]
    draws: int
    seed: int


def plan_doubt(
    plan: SupplyPlan,
    chances: Sequence[Chance],
    *,
    seed: int,
    draws: int = 20_000,
    correlations: Sequence[Correlation] = (),
) -> PlanDoubt:
    """Draw a plan's uncertain numbers.

    Parameters
    ----------
    plan : SupplyPlan
        Its name is the case of the draws: the same numbers whatever other plans there are.
    chances : sequence of Chance
        Named as in `cash.UNCERTAIN`.
    seed : int
        0 or more.
    draws : int
        1000 to 1 000 000; default 20 000: means within 1 % of a standard deviation.
    correlations : sequence of Correlation

    Raises
    ------
    InputError
        Unknown names, contradicting correlations, too few draws.
    NoAnswerError
        Draws without energy.
    """
    if isinstance(draws, bool) or not isinstance(draws, int) or not 1000 <= draws <= 1_000_000:
        raise InputError(f"{draws!r} draws; wanted 1000 to 1000000")
    drawn = draw(chances, draws, seed, case=plan.name, correlations=correlations)
    flow = cash(plan, drawn or {"capital": np.full(draws, plan.capital.amount)})
    cost, value = flow.levelised(), flow.worth()
    return PlanDoubt(
        quantiles(cost),
        quantiles(value),
        float(np.mean(value > 0.0)),
        variance_shares(cost, drawn),
        variance_shares(value, drawn),
        draws,
        seed,
    )


@dataclass(frozen=True, slots=True)
class TornadoRow:
    """One number moved to both ends, all others left.

    Attributes
    ----------
    name : str
    low, high : float
        Ends that it was moved to [unit of the number].
    at_low, at_high : float
        Result there [currency/J or currency].
    width : float
        Distance of the two.
    """

    name: str
    low: float
    high: float
    at_low: float
    at_high: float
    width: float


@dataclass(frozen=True, slots=True)
class Tornado:
    """Numbers moved one at a time, widest first.

    Attributes
    ----------
    of : str
        'levelised cost' [currency/J] or 'net present value' [currency].
    value : float
        With nothing moved.
    rows : tuple of TornadoRow
    """

    of: Of
    value: float
    rows: tuple[TornadoRow, ...]


def tornado(plan: SupplyPlan, ends: Mapping[str, tuple[float, float]], of: Of = "levelised cost") -> Tornado:
    """Move each number of a plan to both ends of its range, alone.

    Parameters
    ----------
    plan : SupplyPlan
    ends : mapping of str to (float, float)
        Low and high end by name, as in `cash.UNCERTAIN` [unit of the number].
    of : {'levelised cost', 'net present value'}

    Raises
    ------
    InputError
        Unknown names, ends not finite.
    """
    if of not in ("levelised cost", "net present value"):
        raise InputError(f"a tornado of {of!r}; wanted 'levelised cost' or 'net present value'")

    def result(flow: Cash) -> Floats:
        return flow.levelised() if of == "levelised cost" else flow.worth()

    rows = []
    for name, (low, high) in ends.items():
        at_low, at_high = (float(r) for r in result(cash(plan, {name: np.array([low, high])})))
        rows.append(TornadoRow(name, low, high, at_low, at_high, abs(at_high - at_low)))
    return Tornado(of, float(result(cash(plan))[0]), tuple(sorted(rows, key=lambda row: -row.width)))
